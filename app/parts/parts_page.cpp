#include "app/parts/parts_page.h"

#include <QLabel>
#include <QStackedWidget>
#include <QTabBar>
#include <QVBoxLayout>

#include "app/parts/build_parts.h"
#include "app/parts/buy_list_panel.h"
#include "app/words/error_text.h"
#include "db/build_store.h"

namespace rodway {

PartsPage::PartsPage(QWidget* parent)
    : PlacePage(parent),
      title_(new QLabel(tr("Parts"))),
      tabs_(new QTabBar),
      views_(new QStackedWidget),
      build_view_(new QStackedWidget),
      of_build_(new BuildParts),
      buy_list_(new BuyListPanel) {
    title_->setObjectName("title");
    title_->setTextFormat(Qt::PlainText);
    title_->setWordWrap(true);
    title_->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
    tabs_->setObjectName("parts_views");
    tabs_->setAccessibleName(tr("Parts of this build, or of all"));
    tabs_->setExpanding(false);
    tabs_->addTab(tr("This build"));
    tabs_->addTab(tr("Buy list, all builds"));
    auto* none = new QLabel(tr("Open a build on the Bench: its parts are here."));
    none->setAlignment(Qt::AlignCenter);
    build_view_->addWidget(none);
    build_view_->addWidget(of_build_);
    views_->addWidget(build_view_);
    views_->addWidget(buy_list_);
    auto* layout = new QVBoxLayout(this);
    layout->addWidget(title_);
    layout->addWidget(tabs_);
    layout->addWidget(views_, 1);
    connect(tabs_, &QTabBar::currentChanged, views_, &QStackedWidget::setCurrentIndex);
    connect(of_build_, &BuildParts::failed, this, &PartsPage::failed);
    connect(of_build_, &BuildParts::said, this, &PartsPage::said);
    connect(buy_list_, &BuyListPanel::failed, this, &PartsPage::failed);
    connect(buy_list_, &BuyListPanel::said, this, &PartsPage::said);
    connect(buy_list_, &BuyListPanel::print_wanted, this, &PartsPage::buy_list_wanted_on_paper);
}

void PartsPage::take(ShopSession* session, std::int64_t build_id) {
    session_ = session;
    build_id_ = build_id;
    of_build_->take(session, build_id);
    buy_list_->take(session);
    refresh();
}

void PartsPage::refresh() {
    build_view_->setCurrentIndex(session_ != nullptr && build_id_ != 0 ? 1 : 0);
    if (session_ == nullptr || !isVisible()) {
        return;
    }
    title_->setText(tr("Parts"));
    if (build_id_ != 0) {
        const auto build = load_build(session_->shop(), build_id_);
        if (!build) {
            emit failed(words::error_text(build.error()));
            return;
        }
        const QString name = QString::fromStdString(build->name);
        title_->setText(tr("Parts of %1").arg(name));
        title_->setToolTip(name);
        of_build_->refresh();
    }
    buy_list_->refresh();
}

void PartsPage::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    refresh();
}

void PartsPage::show_buy_list(bool shown) {
    tabs_->setCurrentIndex(shown ? 1 : 0);
}

} // namespace rodway
