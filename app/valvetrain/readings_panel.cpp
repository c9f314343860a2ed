#include "app/valvetrain/readings_panel.h"

#include <QComboBox>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QSignalBlocker>
#include <QVBoxLayout>
#include <cmath>

#include "app/command_line/fit_text.h"
#include "app/valvetrain/row_table.h"
#include "app/valvetrain/work_bar.h"
#include "app/words/clearance_words.h"
#include "app/words/error_text.h"
#include "app/words/lengths.h"
#include "core/sheets/rod_gap_reading.h"
#include "db/record_fields.h"

namespace rodway {
namespace {

/// A twentieth of a thou: nobody feels it.
constexpr double felt_mm = 0.00127;

QLineEdit* box(const char* name, const QString& accessible_name, const QString& hint) {
    auto* edit = new QLineEdit;
    edit->setObjectName(name);
    edit->setAccessibleName(accessible_name);
    edit->setPlaceholderText(hint);
    return edit;
}

QComboBox* choice(const char* name, const QString& accessible_name, const QStringList& words) {
    auto* combo = new QComboBox;
    combo->setObjectName(name);
    combo->setAccessibleName(accessible_name);
    combo->addItems(words);
    return combo;
}

/// What the fit says of one reading: the gap there, and by how much it misses what was felt.
struct AtPose {
    QString gap;
    QString off;
};

AtPose at_pose_of(const FitAnswer& answer, const std::string& reading) {
    const ReadingFit& fit = answer.fit;
    const FittedPose* pose = fit.nearest ? &*fit.nearest : nullptr;
    pose = !fit.poses.empty() ? &fit.poses.front() : pose;
    if (pose != nullptr) {
        for (const GapAtPose& gap : pose->gaps) {
            if (gap.name == reading) {
                return {words::size(std::round(gap.gap_mm / felt_mm) * felt_mm),
                        std::abs(gap.outside_mm) < felt_mm ? ReadingsPanel::tr("agrees")
                                                           : words::signed_inches(gap.outside_mm)};
            }
        }
    }
    return {};
}

} // namespace

ReadingsPanel::ReadingsPanel(ValvetrainModel* model, QWidget* parent)
    : TrainPanel(model, parent),
      title_(new QLabel),
      trouble_(new QLabel),
      table_(new RowTable("gap_readings", tr("Gaps felt at this valve"),
                          {tr("Where"), tr("Felt"), tr("By the fit"), tr("Off")})),
      work_(new WorkBar(tr("Fitting…"))),
      outcome_(new QPlainTextEdit),
      accept_(new QPushButton(tr("Take this place as a set-up"))) {
    title_->setObjectName("subtitle");
    trouble_->setObjectName("trouble");
    trouble_->setWordWrap(true);
    trouble_->hide();
    outcome_->setObjectName("fit_outcome");
    outcome_->setAccessibleName(tr("What the fit says"));
    outcome_->setReadOnly(true);
    outcome_->setTabChangesFocus(true);
    outcome_->setMinimumHeight(140);
    accept_->setObjectName("fit_accept");
    accept_->setToolTip(
        tr("Writes the first place that fits into a new set-up, which becomes the "
           "one in hand; checks passed with the old one become stale"));
    table_->setMinimumHeight(110);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 4, 0, 0);
    layout->setSpacing(4);
    layout->addWidget(title_);
    layout->addWidget(make_entry());
    layout->addWidget(trouble_);
    layout->addWidget(table_, 3);
    layout->addWidget(make_stated());
    layout->addWidget(work_);
    layout->addWidget(outcome_, 4);
    layout->addWidget(accept_, 0, Qt::AlignLeft);
    connect(work_, &WorkBar::stop_wanted, this, [this] {
        request_.stop();
        work_->end();
        outcome_->setPlainText(tr("Stopped."));
    });
    connect(accept_, &QPushButton::clicked, this, &ReadingsPanel::accept);
}

QWidget* ReadingsPanel::make_entry() {
    passage_ = choice("gap_passage", tr("In which passage"), {});
    turn_ = choice("gap_turn", tr("Where in the turn"),
                   {tr("on the heel"), tr("at full lift"), tr("crank as it stands")});
    end_ = choice("gap_end", tr("At which end"), {tr("rocker end"), tr("lifter end")});
    clock_ = box("gap_clock", tr("Clock direction, 12 to the front, seen from the rocker down"),
                 tr("3, 3:30 or tightest"));
    clock_->setToolTip(clock_->accessibleName());
    felt_ = box("gap_felt", tr("Gap felt"), tr(".008 goes .010 no"));
    felt_->setToolTip(
        tr(".008, .008-.010, “.008 goes .010 no”, touch, “tape .006 survived”. Enter "
           "keeps it"));
    auto* keep = new QPushButton(tr("Keep"));
    keep->setObjectName("gap_keep");
    auto* where = new QHBoxLayout;
    where->setSpacing(4);
    for (QWidget* widget : {static_cast<QWidget*>(passage_), static_cast<QWidget*>(turn_),
                            static_cast<QWidget*>(end_)}) {
        where->addWidget(widget, 1);
    }
    auto* felt = new QHBoxLayout;
    felt->setSpacing(4);
    felt->addWidget(new QLabel(tr("Clock")));
    felt->addWidget(clock_, 1);
    felt->addWidget(new QLabel(tr("Felt")));
    felt->addWidget(felt_, 1);
    felt->addWidget(keep);
    auto* entry = new QWidget;
    auto* rows = new QVBoxLayout(entry);
    rows->setContentsMargins(0, 0, 0, 0);
    rows->setSpacing(2);
    rows->addLayout(where);
    rows->addLayout(felt);
    connect(passage_, &QComboBox::activated, this, &ReadingsPanel::fit);
    connect(clock_, &QLineEdit::returnPressed, felt_, qOverload<>(&QWidget::setFocus));
    connect(felt_, &QLineEdit::returnPressed, this, &ReadingsPanel::keep_reading);
    connect(keep, &QPushButton::clicked, this, &ReadingsPanel::keep_reading);
    return entry;
}

QWidget* ReadingsPanel::make_stated() {
    sideways_ =
        box("fit_sideways", tr("How well the set-up's place is known sideways: ±, 19 times in 20"),
            tr(".039"));
    lean_ = box("fit_lean", tr("How well its lean is known: ± degrees, 19 times in 20"), tr("1.1"));
    auto* stated = new QWidget;
    auto* row = new QHBoxLayout(stated);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(4);
    row->addWidget(new QLabel(tr("Set-up's place known to ±")));
    for (QLineEdit* edit : {sideways_, lean_}) {
        edit->setToolTip(edit->accessibleName());
        edit->setMaximumWidth(76);
        connect(edit, &QLineEdit::editingFinished, this, &ReadingsPanel::fit);
    }
    row->addWidget(sideways_);
    row->addWidget(new QLabel(tr("in, lean ±")));
    row->addWidget(lean_);
    row->addWidget(new QLabel(QString(u'\u00b0')));
    row->addStretch();
    return stated;
}

void ReadingsPanel::set_build(ShopSession* session, std::int64_t build_id) {
    session_ = session;
    build_id_ = build_id;
    refresh();
}

void ReadingsPanel::offer_passages() {
    const QSignalBlocker quiet(passage_);
    const QString before = passage_->currentText();
    passage_->clear();
    const Train& train = *model_->as_it_stands()->train(*model_->selected());
    passage_->addItem(QString::fromStdString(train.tube.name));
    for (const Passage& passage : train.further_passages) {
        passage_->addItem(QString::fromStdString(passage.name));
    }
    passage_->setCurrentIndex(std::max(0, passage_->findText(before)));
}

void ReadingsPanel::show_valve() {
    if (!session_ || !model_->as_it_stands() || !model_->selected() ||
        !model_->as_it_stands()->train(*model_->selected())) {
        request_.stop();
        work_->end();
        answer_.reset();
        title_->setText(tr("No valve selected"));
        return;
    }
    offer_passages();
    fit();
}

void ReadingsPanel::show_crank() {
    turn_->setItemText(2, tr("crank at %1").arg(words::crank_degrees(model_->crank().in_deg())));
}

FitOptions ReadingsPanel::options() const {
    FitOptions options;
    options.build = std::to_string(build_id_);
    options.valve = position_name(*model_->selected());
    options.passage = passage_->currentText().toStdString();
    options.sideways = sideways_->text().trimmed().toStdString();
    options.lean = lean_->text().trimmed().toStdString();
    return options;
}

void ReadingsPanel::complain(const Error& error) {
    trouble_->setText(words::error_text(error));
    trouble_->show();
}

void ReadingsPanel::fit() {
    request_.stop();
    work_->end();
    answer_.reset();
    outcome_->clear();
    accept_->setEnabled(false);
    trouble_->hide();
    if (!session_ || !model_->selected()) {
        return;
    }
    title_->setText(tr("%1: gaps felt").arg(words::valve(*model_->selected())));
    const auto prepared = prepared_fit(session_->shop(), options());
    if (!prepared) {
        table_->set_rows({});
        complain(prepared.error());
        return;
    }
    show_readings(*prepared);
    if (prepared->used.empty()) {
        outcome_->setPlainText(
            tr("No reading counts yet. Push a feeler or pin gauge between rod and wall at either "
               "end of the passage, on the heel and at full lift, and type what goes and what "
               "doesn't: the passage's place follows from a few of them."));
        return;
    }
    request_.ask<Fitted>(
        [prepared = *prepared](const std::stop_token&) { return Fitted{with_fit(prepared)}; },
        [this](const Fitted& fitted) {
            work_->end();
            if (!fitted.answer) {
                complain(fitted.answer.error());
                return;
            }
            answer_ = *fitted.answer;
            show_fit();
        });
    work_->begin();
}

void ReadingsPanel::show_readings(const FitAnswer& prepared) {
    std::vector<QStringList> rows;
    for (const KeptGap& kept : prepared.used) {
        const AtPose at = at_pose_of(prepared, kept.gap->name);
        rows.push_back({words::gap_place(*kept.gap), QString::fromStdString(kept.reading.text),
                        at.gap, at.off});
    }
    for (const KeptGap& kept : prepared.left_out) {
        const QString why =
            kept.standing == GapStanding::holds ? tr("another passage") : words::standing(kept);
        const QString where =
            kept.gap ? words::gap_place(*kept.gap) : QString::fromStdString(kept.reading.position);
        rows.push_back({tr("%1. Left out: %2").arg(where, why),
                        QString::fromStdString(kept.reading.text), QString(), QString()});
    }
    table_->set_rows(rows);
}

void ReadingsPanel::show_fit() {
    show_readings(*answer_);
    const ReadingFit& fit = answer_->fit;
    QStringList lines{words::fit_outcome(fit)};
    for (std::size_t at = 0; at < fit.poses.size(); ++at) {
        lines += pose_lines(*answer_, fit.poses[at], tr("Place %1").arg(at + 1), true);
    }
    if (fit.nearest) {
        lines += pose_lines(*answer_, *fit.nearest, tr("Nearest"), false);
    }
    lines += disagreeing_lines(*answer_);
    lines += next_lines(*answer_);
    outcome_->setPlainText(lines.join("\n"));
    accept_->setEnabled(has_fitted_place(fit));
}

Result<Reading> ReadingsPanel::typed_reading() const {
    const auto clock = parse_clock(clock_->text().trimmed().toStdString());
    if (!clock) {
        return clock.error();
    }
    RodGapPosition position;
    position.valve = *model_->selected();
    position.passage = passage_->currentText().toStdString();
    position.end = end_->currentIndex() == 0 ? BoreEnd::top : BoreEnd::bottom;
    position.clock_minutes = *clock;
    position.place = static_cast<TurnPlace>(turn_->currentIndex());
    if (position.place == TurnPlace::at_crank_angle) {
        position.crank = model_->crank();
    }
    const auto text = rod_gap_position_text(position);
    if (!text) {
        return text.error();
    }
    const auto set_up = prepared_fit(session_->shop(), options());
    if (!set_up) {
        return set_up.error();
    }
    Reading reading;
    reading.build_id = build_id_;
    reading.set_up_id = set_up->hand.set_up.id;
    reading.quantity = std::string(rod_gap_quantity);
    reading.position = *text;
    reading.text = felt_->text().trimmed().toStdString();
    reading.unit = "in";
    reading.taken_by = session_->who().toStdString();
    reading.taken_at = session_->now();
    const auto read = read_rod_gap(reading);
    return read ? Result<Reading>(reading) : Result<Reading>(read.error());
}

void ReadingsPanel::keep_reading() {
    if (!session_ || !model_->selected() || !model_->as_it_stands()) {
        return;
    }
    if (!model_->variant().changes_nothing()) {
        trouble_->setText(
            tr("Something is being tried. What is felt belongs to the engine as it "
               "stands: empty the what-if boxes first."));
        trouble_->show();
        return;
    }
    const auto typed = typed_reading();
    if (!typed) {
        complain(typed.error());
        return;
    }
    Reading reading = *typed;
    const QString text = QString::fromStdString(reading.text);
    const auto id = session_->create(
        RecordKind::reading,
        [&](std::int64_t new_id) {
            reading.id = new_id;
            return edits_to_create(reading);
        },
        tr("gap reading"));
    if (!id && !is_waiting(id.error())) {
        complain(id.error());
        return;
    }
    felt_->clear();
    clock_->selectAll();
    clock_->setFocus();
    emit said(tr("Kept %1.").arg(text));
    fit();
}

void ReadingsPanel::accept() {
    if (!session_ || !answer_ || !has_fitted_place(answer_->fit)) {
        return;
    }
    const auto name = keep_fitted_place(*session_, *answer_);
    if (!name) {
        emit failed(words::error_text(name.error()));
        return;
    }
    emit said(tr("“%1” is now the set-up in hand; the ones before are kept. The readings it was "
                 "fitted to have had their say.")
                  .arg(*name));
}

} // namespace rodway
