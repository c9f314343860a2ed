#include "app/build/plan_changes_dialog.h"

#include <QDialogButtonBox>
#include <QHeaderView>
#include <QLabel>
#include <QPushButton>
#include <QTreeWidget>
#include <QVBoxLayout>

#include "app/words/plan_words.h"

namespace rodway {
namespace {

constexpr int row_height_px = 26;

} // namespace

PlanChangesDialog::PlanChangesDialog(const QString& build, const std::vector<PlanChange>& changes,
                                     QWidget* parent)
    : QDialog(parent), list_(new QTreeWidget) {
    setWindowTitle(tr("Changes of the plan"));
    resize(820, 520);
    auto* about = new QLabel(
        changes.empty()
            ? tr("%1 follows its plan as it is now: there is nothing to take over.").arg(build)
            : tr("The plan has changed since %1 began. Tick what this build shall take over; "
                 "what is ticked off already, and what isn't in a plan, stays.")
                  .arg(build));
    about->setWordWrap(true);
    list_->setObjectName("plan_changes");
    list_->setAccessibleName(tr("Changes of the plan"));
    list_->setHeaderLabels({tr("Change"), tr("Stage")});
    list_->header()->setStretchLastSection(false);
    list_->header()->setSectionResizeMode(0, QHeaderView::Stretch);
    list_->header()->setSectionResizeMode(1, QHeaderView::ResizeToContents);
    for (const PlanChange& change : changes) {
        auto* item = new QTreeWidgetItem(
            list_, {words::plan_change(change), QString::fromStdString(change.stage_title)});
        item->setData(0, Qt::UserRole, QString::fromStdString(change.id));
        item->setCheckState(0, Qt::Unchecked);
        item->setSizeHint(0, {0, row_height_px});
        for (const QString& line : words::plan_field_changes(change)) {
            auto* detail = new QTreeWidgetItem(item, {line});
            detail->setFlags(Qt::ItemIsEnabled | Qt::ItemIsSelectable);
        }
    }
    list_->expandAll();
    list_->setCurrentItem(list_->topLevelItem(0));

    auto* all = new QPushButton(tr("Tick &all"));
    auto* none = new QPushButton(tr("Tick &none"));
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Ok | QDialogButtonBox::Cancel);
    take_ = buttons->button(QDialogButtonBox::Ok);
    take_->setText(tr("Take over"));
    auto* row = new QHBoxLayout;
    row->addWidget(all);
    row->addWidget(none);
    row->addStretch();
    auto* layout = new QVBoxLayout(this);
    layout->addWidget(about);
    layout->addWidget(list_, 1);
    layout->addLayout(row);
    layout->addWidget(buttons);
    all->setEnabled(!changes.empty());
    none->setEnabled(!changes.empty());
    connect(all, &QPushButton::clicked, this, [this] { tick_all(true); });
    connect(none, &QPushButton::clicked, this, [this] { tick_all(false); });
    connect(list_, &QTreeWidget::itemChanged, this, &PlanChangesDialog::enable);
    connect(buttons, &QDialogButtonBox::accepted, this, &QDialog::accept);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    enable();
}

std::set<std::string> PlanChangesDialog::chosen() const {
    std::set<std::string> ids;
    for (int row = 0; row < list_->topLevelItemCount(); ++row) {
        const QTreeWidgetItem* item = list_->topLevelItem(row);
        if (item->checkState(0) == Qt::Checked) {
            ids.insert(item->data(0, Qt::UserRole).toString().toStdString());
        }
    }
    return ids;
}

void PlanChangesDialog::tick_all(bool ticked) {
    for (int row = 0; row < list_->topLevelItemCount(); ++row) {
        list_->topLevelItem(row)->setCheckState(0, ticked ? Qt::Checked : Qt::Unchecked);
    }
}

void PlanChangesDialog::enable() {
    take_->setEnabled(!chosen().empty());
}

} // namespace rodway
