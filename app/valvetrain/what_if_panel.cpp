#include "app/valvetrain/what_if_panel.h"

#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>
#include <algorithm>
#include <cmath>

#include "app/words/error_text.h"
#include "app/words/lengths.h"
#include "core/units/length.h"
#include "core/units/typed_text.h"

namespace rodway {
namespace {

/// Rounding of sizes that were made of others.
constexpr double same_size = 1e-6;

bool one_size(const std::vector<double>& sizes) {
    const auto [least, most] = std::minmax_element(sizes.begin(), sizes.end());
    return !sizes.empty() && *most - *least <= same_size;
}

bool has_sign(const QString& text) {
    // The plain signs, and the minus and the dash that word processors make of it.
    return !text.isEmpty() && QStringLiteral("+-\u2212\u2013").contains(text.front());
}

QString number_text(double value, bool ratio) {
    return ratio ? QString::number(value, 'f', 3) : words::size(value);
}

} // namespace

WhatIfPanel::WhatIfPanel(QWidget* parent)
    : QWidget(parent),
      row_(new QHBoxLayout),
      answer_(new QLabel),
      trouble_(new QLabel),
      keep_(new QPushButton(tr("Keep…"))),
      back_(new QPushButton(tr("As it stands"))) {
    setObjectName("what_if");
    auto* title = new QLabel(tr("What if"));
    title->setObjectName("subtitle");
    answer_->setObjectName("what_if_answer");
    answer_->setAccessibleName(tr("What comes of it"));
    answer_->setWordWrap(true);
    answer_->setMinimumWidth(140);
    trouble_->setObjectName("trouble");
    trouble_->setWordWrap(true);
    trouble_->hide();
    keep_->setObjectName("what_if_keep");
    keep_->setToolTip(tr("Keep what is being tried as a variant of this build"));
    back_->setObjectName("what_if_back");
    back_->setToolTip(tr("Empty all boxes"));
    auto* across = new QHBoxLayout;
    across->setSpacing(8);
    across->addWidget(title);
    across->addLayout(row_);
    across->addWidget(answer_, 1);
    across->addWidget(keep_);
    across->addWidget(back_);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(2);
    layout->addLayout(across);
    layout->addWidget(trouble_);
    connect(keep_, &QPushButton::clicked, this, &WhatIfPanel::keep_wanted);
    connect(back_, &QPushButton::clicked, this, [this] {
        for (QLineEdit* edit : edits_) {
            edit->clear();
        }
        read();
    });
}

void WhatIfPanel::clear() {
    while (QLayoutItem* item = row_->takeAt(0)) {
        delete item->widget();
        delete item;
    }
    boxes_.clear();
    edits_.clear();
    shown_.clear();
    read_.clear();
    trouble_->hide();
}

void WhatIfPanel::set_answer(const QString& text, bool trying) {
    answer_->setText(text);
    QFont look = font();
    look.setBold(trying);
    answer_->setFont(look);
    keep_->setEnabled(trying);
}

void WhatIfPanel::focus_first() {
    if (!edits_.empty()) {
        edits_.front()->setFocus(Qt::ShortcutFocusReason);
    }
}

void WhatIfPanel::add_box(Box box, const QString& tip) {
    auto* cell = new QWidget;
    auto* column = new QVBoxLayout(cell);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    auto* label = new QLabel(box.name);
    box.edit = new QLineEdit;
    box.edit->setAccessibleName(tr("What if: %1").arg(box.name));
    box.edit->setToolTip(tip);
    box.edit->setMinimumWidth(70);
    box.edit->setMaximumWidth(108);
    box.edit->setPlaceholderText(
        !one_size(box.stands) ? tr("+ or −") : number_text(box.stands.front(), box.ratio));
    label->setBuddy(box.edit);
    column->addWidget(label);
    column->addWidget(box.edit);
    row_->addWidget(cell);
    edits_.push_back(box.edit);
    connect(box.edit, &QLineEdit::editingFinished, this, &WhatIfPanel::read);
    boxes_.push_back(std::move(box));
}

void WhatIfPanel::set_engine(const Engine& as_it_stands) {
    std::vector<std::vector<double>> sizes;
    const auto add = [&](const auto& size_of) {
        sizes.emplace_back();
        for (const Train& train : as_it_stands.trains) {
            sizes.back().push_back(size_of(train));
        }
    };
    add([](const Train& train) { return train.lifter.seat_height_mm; });
    add([](const Train& train) { return train.rod.diameter_mm; });
    add([](const Train& train) { return arm_ratio(train); });
    add([](const Train& train) { return adjuster_sets_lash(train) ? 1.0 : 0.0; });
    for (std::size_t bank = 0; bank < as_it_stands.layout.banks.size(); ++bank) {
        const bool flange = bank < as_it_stands.flanges.size() && as_it_stands.flanges[bank];
        sizes.push_back(flange ? std::vector<double>{as_it_stands.flanges[bank]->gasket_mm}
                               : std::vector<double>());
    }
    if (sizes == shown_) {
        return;
    }
    // What was typed was typed for other sizes: it is kept, and read anew.
    QStringList typed;
    for (const QLineEdit* edit : edits_) {
        typed << edit->text();
    }
    const bool same_boxes = sizes.size() == shown_.size();
    clear();
    shown_ = sizes;
    add_boxes(as_it_stands);
    for (std::size_t at = 0; same_boxes && at < edits_.size(); ++at) {
        edits_[at]->setText(typed.value(static_cast<int>(at)));
    }
    if (!same_boxes) {
        read_ = QStringList(static_cast<int>(edits_.size()), QString());
    }
}

void WhatIfPanel::add_train_boxes(const Engine& engine) {
    const QString size_tip = tr("A new size (.075, 3/8, 2 mm), or a change with its sign (+.015)");
    const auto& lifters = shown_[0];
    add_box({nullptr, tr("Lifter height"), lifters, false,
             [](Variant& variant) -> double& { return variant.lifter_taller_mm; }},
            tr("From the lifter's foot to the rod's seat. %1").arg(size_tip));
    edits_.back()->setObjectName("what_if_lifter");
    add_box({nullptr, tr("Rod diameter"), shown_[1], false,
             [](Variant& variant) -> double& { return variant.rod_thicker_mm; }},
            size_tip);
    edits_.back()->setObjectName("what_if_rod");
    add_box({nullptr, tr("Rocker ratio"), shown_[2], true,
             [](Variant& variant) -> double& { return variant.ratio_more; }},
            tr("By the arms' lengths; made by another ball arm. A new ratio (1.65), or a change "
               "with its sign (+.05)"));
    edits_.back()->setObjectName("what_if_ratio");
    const bool sets = std::all_of(engine.trains.begin(), engine.trains.end(), adjuster_sets_lash);
    add_box({nullptr,
             tr("Adjuster in"),
             {},
             false,
             [](Variant& variant) -> double& { return variant.adjuster_in_more_mm; }},
            sets ? tr("How much further in the adjusters stand, with its sign (+.050): each rod is "
                      "then chosen again to leave the lash")
                 : tr("No adjuster sets the lash here"));
    edits_.back()->setObjectName("what_if_adjuster");
    edits_.back()->setEnabled(sets);
    if (!sets) {
        edits_.back()->setPlaceholderText(tr("none"));
    }
}

void WhatIfPanel::add_boxes(const Engine& engine) {
    if (engine.trains.empty()) {
        return;
    }
    add_train_boxes(engine);
    const std::size_t banks = engine.layout.banks.size();
    for (std::size_t bank = 0; bank < banks; ++bank) {
        if (bank >= engine.flanges.size() || !engine.flanges[bank]) {
            continue;
        }
        const QString name = QString::fromStdString(engine.layout.banks[bank].name);
        add_box({nullptr,
                 tr("Gasket, %1").arg(name),
                 {engine.flanges[bank]->gasket_mm},
                 false,
                 [bank, banks](Variant& variant) -> double& {
                     variant.gasket_thicker_mm.resize(banks, 0.0);
                     return variant.gasket_thicker_mm[bank];
                 }},
                tr("Intake gasket. A new size (.075, 2 mm), or a change with its sign (+.015)"));
        edits_.back()->setObjectName("what_if_gasket_" + name);
    }
}

std::optional<double> WhatIfPanel::change_of(const Box& box, QString& trouble) {
    const QString text = box.edit->text().trimmed();
    if (text.isEmpty()) {
        return 0.0;
    }
    double typed = 0.0;
    if (box.ratio) {
        const auto number = parse_number(text.toStdString());
        if (!number) {
            trouble = words::error_text(number.error());
            return std::nullopt;
        }
        typed = *number;
    } else {
        const auto length = parse_length(text.toStdString(), BareNumber::inches);
        if (!length || length->is_interval()) {
            trouble =
                length ? tr("One size is needed, not a range.") : words::error_text(length.error());
            return std::nullopt;
        }
        typed = length->middle().in_mm();
    }
    if (has_sign(text)) {
        return typed;
    }
    if (!one_size(box.stands)) {
        trouble = tr("They haven't all one size: give the change with its sign, such as +.015.");
        return std::nullopt;
    }
    return typed - box.stands.front();
}

void WhatIfPanel::read() {
    QStringList typed;
    for (const QLineEdit* edit : edits_) {
        typed << edit->text().trimmed();
    }
    if (boxes_.empty() || typed == read_) {
        return;
    }
    read_ = typed;
    QStringList troubles;
    Variant variant;
    for (const Box& box : boxes_) {
        QString trouble;
        if (const auto change = change_of(box, trouble)) {
            box.of(variant) = *change;
        } else {
            troubles << tr("%1: %2").arg(box.name, trouble);
        }
    }
    trouble_->setText(troubles.join(' '));
    trouble_->setVisible(!troubles.isEmpty());
    if (!troubles.isEmpty()) {
        emit variant_changed({}, tr("one of the boxes can't be read."));
        return;
    }
    emit variant_changed(variant, {});
}

void WhatIfPanel::put(const Variant& variant) {
    Variant shown = variant;
    for (const Box& box : boxes_) {
        const double change = box.of(shown);
        const double value = box.ratio ? change : Length::mm(change).in_inches();
        const QString number = QString::number(std::abs(value), 'g', 10);
        box.edit->setText(change == 0.0
                              ? QString()
                              : (change > 0.0 ? "+" : "-") + number + (box.ratio ? "" : " in"));
    }
    read();
}

} // namespace rodway
