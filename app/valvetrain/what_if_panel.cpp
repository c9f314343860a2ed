#include "app/valvetrain/what_if_panel.h"

#include <QGridLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

#include "app/words/error_text.h"
#include "app/words/lengths.h"
#include "core/units/typed_text.h"

namespace rodway {

WhatIfPanel::WhatIfPanel(QWidget* parent) : QWidget(parent), rows_(new QVBoxLayout) {
    auto* title = new QLabel(tr("What if"));
    title->setObjectName("subtitle");
    auto* back = new QPushButton(tr("As it stands"));
    back->setToolTip(tr("Empty all boxes"));
    auto* top = new QHBoxLayout;
    top->addWidget(title);
    top->addStretch();
    top->addWidget(back);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(3);
    rows_->setSpacing(2);
    layout->addLayout(top);
    layout->addLayout(rows_);
    connect(back, &QPushButton::clicked, this, [this] {
        for (QLineEdit* edit : edits_) {
            edit->clear();
        }
        read();
    });
}

void WhatIfPanel::clear() {
    while (QLayoutItem* item = rows_->takeAt(0)) {
        if (item->widget()) {
            item->widget()->deleteLater();
        }
        delete item;
    }
    lifter_.reset();
    rod_.reset();
    gaskets_.clear();
    edits_.clear();
    shown_.clear();
}

WhatIfPanel::Box WhatIfPanel::add_box(const QString& label, double stands_mm, const QString& name) {
    auto* row = new QWidget;
    auto* grid = new QGridLayout(row);
    grid->setContentsMargins(0, 0, 0, 0);
    grid->setVerticalSpacing(0);
    auto* words = new QLabel(label);
    auto* edit = new QLineEdit;
    edit->setObjectName(name);
    edit->setAccessibleName(label);
    edit->setPlaceholderText(words::size(stands_mm));
    edit->setToolTip(tr("A new size (.075, 3/8, 2 mm), or a change with its sign (+.015)"));
    words->setBuddy(edit);
    auto* trouble = new QLabel;
    trouble->setObjectName("trouble");
    trouble->setWordWrap(true);
    trouble->hide();
    grid->addWidget(words, 0, 0);
    grid->addWidget(edit, 0, 1);
    grid->addWidget(trouble, 1, 0, 1, 2);
    grid->setColumnStretch(0, 1);
    edit->setMaximumWidth(120);
    rows_->addWidget(row);
    edits_.push_back(edit);
    connect(edit, &QLineEdit::editingFinished, this, &WhatIfPanel::read);
    return {edit, trouble, stands_mm};
}

void WhatIfPanel::set_engine(const Engine& as_it_stands) {
    const Train& first = as_it_stands.trains.front();
    std::vector<double> sizes{first.lifter.seat_height_mm, first.rod.diameter_mm};
    for (const auto& flange : as_it_stands.flanges) {
        sizes.push_back(flange ? flange->gasket_mm : -1.0);
    }
    if (sizes == shown_) {
        return; // what is typed stays
    }
    clear();
    shown_ = sizes;
    lifter_ = add_box(tr("Lifter height, foot to seat"), sizes[0], "what_if_lifter");
    rod_ = add_box(tr("Rod diameter"), sizes[1], "what_if_rod");
    for (std::size_t bank = 0; bank < as_it_stands.flanges.size(); ++bank) {
        gaskets_.emplace_back();
        if (as_it_stands.flanges[bank]) {
            const QString name = QString::fromStdString(as_it_stands.layout.banks[bank].name);
            gaskets_.back() = add_box(tr("Intake gasket, %1").arg(name), sizes[2 + bank],
                                      "what_if_gasket_" + name);
        }
    }
}

std::optional<double> WhatIfPanel::change_of(Box& box) {
    const QString text = box.edit->text().trimmed();
    box.trouble->hide();
    if (text.isEmpty()) {
        return 0.0;
    }
    const auto length = parse_length(text.toStdString(), BareNumber::inches);
    if (!length || length->is_interval()) {
        box.trouble->setText(length ? tr("One size is needed, not a range.")
                                    : words::error_text(length.error()));
        box.trouble->show();
        return std::nullopt;
    }
    const bool change = text.startsWith('+') || text.startsWith('-');
    return change ? length->middle().in_mm() : length->middle().in_mm() - box.stands_mm;
}

void WhatIfPanel::read() {
    if (!lifter_ || !rod_) {
        return;
    }
    const auto lifter = change_of(*lifter_);
    const auto rod = change_of(*rod_);
    bool good = lifter && rod;
    Variant variant;
    for (auto& gasket : gaskets_) {
        const auto change = gasket ? change_of(*gasket) : std::optional(0.0);
        good = good && change;
        variant.gasket_thicker_mm.push_back(change.value_or(0.0));
    }
    if (!good) {
        emit variant_changed({}, tr("one of the boxes can't be read."));
        return;
    }
    variant.lifter_taller_mm = *lifter;
    variant.rod_thicker_mm = *rod;
    emit variant_changed(variant, {});
}

} // namespace rodway
