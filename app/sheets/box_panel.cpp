#include "app/sheets/box_panel.h"

#include <QLabel>
#include <QLineEdit>
#include <QVBoxLayout>

#include "app/edit_stack/waiting_records.h"
#include "app/words/box_words.h"
#include "app/words/error_text.h"
#include "app/words/hold_words.h"
#include "app/work/build_sheets.h"
#include "core/sheets/sheet_kinds.h"

namespace rodway {
namespace {

QLabel* wrapped() {
    auto* label = new QLabel;
    label->setWordWrap(true);
    label->setTextInteractionFlags(Qt::TextSelectableByMouse);
    return label;
}

/// What the box in hand says: what was typed, in both units, by whom; the verdict and its limits.
QString state_text(const SheetBox& box, const Quantity& quantity) {
    QStringList lines;
    if (box.taken) {
        const Reading& reading = box.taken->reading;
        lines << BoxPanel::tr("%1: %2, %3 %4")
                     .arg(words::sheet_position(box.position, quantity.place),
                          QString::fromStdString(reading.text),
                          QString::fromStdString(reading.taken_by),
                          words::day_of(reading.taken_at));
        if (reading.id >= id_to_come) {
            lines << BoxPanel::tr("Not saved yet.");
        }
        lines << words::both_units(box.taken->value, quantity);
    }
    if (box.figure) {
        lines << BoxPanel::tr("Worked out: %1").arg(words::amount(*box.figure, quantity));
    }
    if (is_numeric(quantity.form)) {
        lines << words::sheet_verdict(box.verdict);
    }
    if (box.new_limit) {
        lines << words::limit(*box.new_limit, quantity);
    }
    if (box.used_limit) {
        lines << words::limit(*box.used_limit, quantity);
    }
    lines.removeAll(QString());
    return lines.join('\n');
}

} // namespace

BoxPanel::BoxPanel(QWidget* parent)
    : QWidget(parent),
      title_(new QLabel),
      meaning_(wrapped()),
      state_(wrapped()),
      note_(new QLineEdit) {
    title_->setObjectName("subtitle");
    title_->setWordWrap(true);
    state_->setObjectName("line_state");
    note_->setObjectName("reading_note");
    note_->setAccessibleName(tr("Note on this reading"));
    note_->setPlaceholderText(tr("note on this reading, Enter keeps it"));
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    for (QWidget* part : std::initializer_list<QWidget*>{title_, meaning_, state_, note_}) {
        layout->addWidget(part);
    }
    connect(note_, &QLineEdit::returnPressed, this,
            [this] { emit note_wanted(note_->text().trimmed()); });
}

void BoxPanel::show_spot(const std::optional<SheetTable::Spot>& spot,
                         const words::OwnTitles& titles) {
    title_->setText(spot ? words::sheet_title(spot->quantity.id, titles) : QString());
    meaning_->clear();
    state_->clear();
    note_->clear();
    // A note is an edit of its own, which a reading without its id can't have yet.
    note_->setEnabled(spot && spot->box && spot->box->taken &&
                      spot->box->taken->reading.id < id_to_come);
    if (!spot) {
        return;
    }
    if (const SheetKind* kind = sheet_of_quantity(spot->quantity.id)) {
        const words::QuantityText& text =
            words::sheet_text(kind->id).quantities.at(spot->quantity.id);
        meaning_->setText(text.measured.isEmpty() ? text.meaning
                                                  : text.meaning + "\n" + text.measured);
    }
    if (spot->box) {
        state_->setText(state_text(*spot->box, spot->quantity));
        if (spot->box->taken && spot->box->taken->reading.note) {
            note_->setText(QString::fromStdString(*spot->box->taken->reading.note));
        }
    }
}

void BoxPanel::show_typing(const SheetTable::Spot& spot, const QString& text) {
    const auto reading = reading_to_keep(spot.quantity, spot.box->position, text.toStdString());
    if (!reading) {
        state_->setText(words::error_text(reading.error()));
        return;
    }
    Taken taken;
    taken.value = *read_value(*reading, spot.quantity);
    const auto range = taken.range();
    QString says = range ? words::amount(*range, spot.quantity) : text;
    if (const QString both = words::both_units(taken.value, spot.quantity); !both.isEmpty()) {
        says += '\n' + both;
    }
    if (const auto reach = taken.reach()) {
        const SheetJudgement judged = judge_both(*reach, spot.box->new_limit, spot.box->used_limit);
        if (judged.limit) {
            says += '\n' + words::sheet_verdict(judged.verdict) + '\n' +
                    words::limit(*judged.limit, spot.quantity);
        }
    }
    state_->setText(says);
}

} // namespace rodway
