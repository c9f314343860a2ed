#include "app/sheets/limit_panel.h"

#include <QComboBox>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QVBoxLayout>
#include <algorithm>

#include "app/words/box_words.h"
#include "app/words/sheet_words.h"

namespace rodway {
namespace {

QString text_of(const std::string& utf8) {
    return QString::fromStdString(utf8);
}

QString ruling_text(const std::optional<SheetBox>& box, const Quantity& quantity) {
    if (!box || (!box->new_limit && !box->used_limit)) {
        return LimitPanel::tr(
            "Nobody has said yet what it may be. The maker's figure belongs here.");
    }
    QStringList lines;
    if (box->new_limit) {
        lines << LimitPanel::tr("New parts: %1").arg(words::limit(*box->new_limit, quantity));
    }
    if (box->used_limit) {
        lines << words::limit(*box->used_limit, quantity);
    }
    return lines.join('\n');
}

} // namespace

LimitPanel::LimitPanel(QWidget* parent)
    : QWidget(parent), ruling_(new QLabel), kept_(new QListWidget), remove_(new QPushButton) {
    ruling_->setObjectName("ruling_limits");
    ruling_->setWordWrap(true);
    ruling_->setTextInteractionFlags(Qt::TextSelectableByMouse);
    kept_->setObjectName("kept_limits");
    kept_->setAccessibleName(tr("Limits of this quantity that were kept"));
    kept_->setWordWrap(true);
    kept_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    kept_->setMaximumHeight(86);
    remove_->setText(tr("Take the chosen one away"));
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(4, 6, 4, 4);
    layout->addWidget(ruling_);
    layout->addWidget(kept_);
    layout->addWidget(remove_, 0, Qt::AlignLeft);
    layout->addWidget(make_entry());
    layout->addStretch(1);
    connect(remove_, &QPushButton::clicked, this, &LimitPanel::remove);
    connect(kept_, &QListWidget::currentRowChanged, this,
            [this](int row) { remove_->setEnabled(row >= 0); });
    show_nothing();
}

QWidget* LimitPanel::make_entry() {
    low_ = new QLineEdit;
    low_->setObjectName("limit_low");
    high_ = new QLineEdit;
    high_->setObjectName("limit_high");
    unit_ = new QComboBox;
    unit_->setObjectName("limit_unit");
    unit_->setAccessibleName(tr("Unit of the limit"));
    parts_ = new QComboBox;
    parts_->setObjectName("limit_parts");
    parts_->setAccessibleName(tr("For new or used parts"));
    parts_->addItems({tr("New parts"), tr("Used parts (serviceable)")});
    where_ = new QComboBox;
    where_->setObjectName("limit_where");
    where_->setAccessibleName(tr("Where the limit holds"));
    builds_ = new QComboBox;
    builds_->setObjectName("limit_builds");
    builds_->setAccessibleName(tr("For which builds"));
    builds_->addItems({tr("This build"), tr("Every build of the shop")});
    source_ = new QLineEdit;
    source_->setObjectName("limit_source");
    source_->setAccessibleName(tr("Who says so"));
    source_->setPlaceholderText(tr("the maker, the shop …"));
    keep_ = new QPushButton(tr("Keep limit"));
    keep_->setObjectName("keep_limit");
    auto* ends = new QHBoxLayout;
    ends->addWidget(low_, 1);
    auto* to = new QLabel(tr("to"));
    ends->addWidget(to);
    ends->addWidget(high_, 1);
    ends->addWidget(unit_);
    low_->setAccessibleName(tr("Least allowed"));
    high_->setAccessibleName(tr("Most allowed"));
    auto* entry = new QWidget;
    auto* form = new QFormLayout(entry);
    form->setContentsMargins(0, 4, 0, 0);
    form->addRow(tr("From"), ends);
    form->addRow(tr("For"), parts_);
    form->addRow(tr("Where"), where_);
    form->addRow(tr("Builds"), builds_);
    form->addRow(tr("Source"), source_);
    form->addRow(QString(), keep_);
    connect(keep_, &QPushButton::clicked, this, &LimitPanel::keep);
    for (QLineEdit* line : {low_, high_, source_}) {
        connect(line, &QLineEdit::returnPressed, this, &LimitPanel::keep);
    }
    return entry;
}

void LimitPanel::fill_units(const Quantity& quantity) {
    unit_->clear();
    const Dimension dimension = dimension_of(quantity.form);
    if (dimension != Dimension::none) {
        for (const MeasureUnit& one : units_of(dimension)) {
            unit_->addItem(QString::fromUtf8(one.id.data(), static_cast<int>(one.id.size())));
        }
    }
    unit_->setVisible(unit_->count() > 0);
    unit_->setCurrentIndex(std::max(0, unit_->findText(text_of(quantity.unit))));
}

void LimitPanel::show_box(const Quantity& quantity, const std::optional<SheetBox>& box,
                          const std::vector<LimitRecord>& records) {
    const bool other = !quantity_ || quantity_->id != quantity.id;
    quantity_ = quantity;
    position_ = box ? std::optional(box->position) : std::nullopt;
    if (other) {
        fill_units(quantity);
        clear_entry();
    }
    const bool at_one = where_->currentIndex() == 1;
    where_->clear();
    where_->addItem(tr("Everywhere"));
    if (position_ && !position_->empty()) {
        where_->addItem(tr("Only: %1").arg(words::sheet_position(*position_, quantity.place)));
        where_->setCurrentIndex(at_one && !other ? 1 : 0);
    }
    ruling_->setText(ruling_text(box, quantity));
    kept_->clear();
    for (const LimitRecord& record : records) {
        if (record.quantity == quantity.id) {
            auto* item = new QListWidgetItem(words::limit_record(record, quantity));
            item->setData(Qt::UserRole, static_cast<qlonglong>(record.id));
            kept_->addItem(item);
        }
    }
    kept_->setVisible(kept_->count() > 0);
    remove_->setVisible(kept_->count() > 0);
    remove_->setEnabled(false);
    const bool numeric = is_numeric(quantity.form);
    enable_entry(numeric);
    if (!numeric) {
        ruling_->setText(tr("What is read here is no number: it has no limit."));
    }
}

void LimitPanel::enable_entry(bool on) {
    for (QWidget* widget : std::initializer_list<QWidget*>{low_, high_, unit_, parts_, where_,
                                                           builds_, source_, keep_}) {
        widget->setEnabled(on);
    }
}

void LimitPanel::show_nothing() {
    quantity_.reset();
    position_.reset();
    ruling_->setText(tr("Choose a box: what it may be is set here."));
    kept_->clear();
    kept_->hide();
    remove_->hide();
    enable_entry(false);
}

void LimitPanel::clear_entry() {
    low_->clear();
    high_->clear();
    parts_->setCurrentIndex(0);
}

void LimitPanel::keep() {
    if (!quantity_) {
        return;
    }
    const auto typed = [](const QLineEdit& edit) {
        const QString text = edit.text().trimmed();
        return text.isEmpty() ? std::optional<std::string>() : text.toStdString();
    };
    LimitRecord limit;
    limit.quantity = quantity_->id;
    limit.low = typed(*low_);
    limit.high = typed(*high_);
    if (unit_->count() > 0) {
        limit.unit = unit_->currentText().toStdString();
    } else if (!quantity_->unit.empty()) {
        limit.unit = quantity_->unit;
    }
    limit.serviceable = parts_->currentIndex() == 1;
    if (where_->currentIndex() == 1) {
        limit.position = position_;
    }
    limit.source = source_->text().trimmed().toStdString();
    if (builds_->currentIndex() == 0) {
        limit.build_id = 0;
    }
    emit keep_wanted(limit);
}

void LimitPanel::remove() {
    if (const QListWidgetItem* chosen = kept_->currentItem()) {
        emit remove_wanted(chosen->data(Qt::UserRole).toLongLong());
    }
}

} // namespace rodway
