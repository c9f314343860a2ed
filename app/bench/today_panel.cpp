#include "app/bench/today_panel.h"

#include <QLabel>
#include <QListWidget>
#include <QPainter>
#include <QStackedWidget>
#include <QStyledItemDelegate>
#include <QTextDocument>
#include <QVBoxLayout>
#include <algorithm>
#include <cmath>

#include "app/bench/bench_delegate.h"
#include "app/words/error_text.h"
#include "app/words/hold_words.h"
#include "app/work/shop_day.h"

namespace rodway {
namespace {

constexpr int margin_px = 6;

/// A line of what is due, in bold, above what it is about.
class LineDelegate : public QStyledItemDelegate {
  public:
    using QStyledItemDelegate::QStyledItemDelegate;

    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override {
        QStyleOptionViewItem item = option;
        initStyleOption(&item, index);
        const QStringList lines = item.text.split(QLatin1Char('\n'));
        item.text.clear();
        painter->save();
        paint_ground(*painter, item);
        const CellInk colours = ink_of(item);
        CellText text{lines.front(), lines.value(1), option.font, option.font};
        text.first_font.setBold(true);
        paint_lines(*painter, text, QRectF(option.rect).adjusted(margin_px, 0, -margin_px, 0),
                    colours.ink, colours.faint);
        painter->restore();
    }

    [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem& option,
                                 const QModelIndex&) const override {
        return {0, BenchDelegate::row_height(option.font)};
    }
};

} // namespace

TodayPanel::TodayPanel(ShopReader& reader, Clock clock, QWidget* parent)
    : QWidget(parent),
      reader_(reader),
      clock_(std::move(clock)),
      title_(new QLabel(tr("Today"))),
      stack_(new QStackedWidget),
      list_(new QListWidget),
      nothing_(new QLabel),
      backup_(new QLabel) {
    title_->setObjectName("subtitle");
    title_->setWordWrap(true);
    list_->setObjectName("today");
    list_->setAccessibleName(tr("What is due today"));
    list_->setAccessibleDescription(tr("Enter goes to where it is dealt with"));
    list_->setItemDelegate(new LineDelegate(list_));
    list_->setUniformItemSizes(true);
    list_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    list_->setAlternatingRowColors(true);
    nothing_->setAlignment(Qt::AlignTop);
    nothing_->setWordWrap(true);
    nothing_->setContentsMargins(margin_px, margin_px, margin_px, margin_px);
    stack_->addWidget(list_);
    stack_->addWidget(nothing_);
    backup_->setObjectName("today_backup");
    backup_->setWordWrap(true);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(margin_px, 0, 0, 0);
    layout->addWidget(title_);
    layout->addWidget(stack_, 1);
    layout->addWidget(backup_);
    connect(list_, &QListWidget::itemActivated, this, [this](QListWidgetItem* item) {
        const TodayLine& line = lines_[static_cast<std::size_t>(list_->row(item))];
        emit place_wanted(line.build_id, line.place);
    });
    show_lines();
}

void TodayPanel::begin() {
    asked_ = false; // the reader no longer answers, for it was told of another shop
    again_ = false;
    seen_utc_ = clock_();
    lines_.clear();
    trouble_.clear();
    title_->setText(tr("Today"));
    backup_->clear();
    show_lines();
}

void TodayPanel::refresh() {
    if (asked_) {
        again_ = true;
        return;
    }
    asked_ = true;
    again_ = false;
    reader_.ask<TodayList>([now = clock_()](ShopFile& shop) { return load_today_list(shop, now); },
                           [this](Result<TodayList> answer) { take(std::move(answer)); });
}

void TodayPanel::show_backup(const QString& words) {
    backup_->setText(words);
}

void TodayPanel::take(Result<TodayList> answer) {
    asked_ = false;
    trouble_ = answer ? QString() : words::error_text(answer.error());
    if (!answer) {
        lines_.clear();
        show_lines();
        emit shown({});
        return;
    }
    for (const Cure& cure : cured_since(*answer, seen_utc_)) {
        emit this->cured(
            tr("%1: %2 has cured by its label.")
                .arg(answer->builds.at(cure.build_id), QString::fromStdString(cure.place)));
    }
    seen_utc_ = std::max(seen_utc_, answer->now_utc);
    title_->setText(tr("Today, %1").arg(words::day(answer->day)));
    lines_ = answer->lines;
    show_lines();
    emit shown(answer->until);
    if (again_) {
        refresh();
    }
}

void TodayPanel::show_lines() {
    const int current = list_->currentRow();
    list_->clear();
    for (const TodayLine& line : lines_) {
        auto* item = new QListWidgetItem(line.what + QLatin1Char('\n') + line.about);
        const QString tip = line.what + QLatin1Char('\n') + line.about;
        item->setToolTip(Qt::mightBeRichText(tip) ? Qt::convertFromPlainText(tip) : tip);
        list_->addItem(item);
    }
    if (!lines_.empty()) {
        list_->setCurrentRow(std::clamp(current, 0, list_->count() - 1));
    }
    nothing_->setText(trouble_.isEmpty()
                          ? tr("Nothing is due.\nCures that finish, parts that are due or late, "
                               "follow-ups, and days promised to customers stand here.")
                          : tr("What is due can't be read: %1").arg(trouble_));
    stack_->setCurrentIndex(lines_.empty() ? 1 : 0);
}

} // namespace rodway
