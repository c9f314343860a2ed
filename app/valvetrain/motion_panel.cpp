#include "app/valvetrain/motion_panel.h"

#include <QLabel>

#include "app/valvetrain/row_table.h"
#include "app/valvetrain/work_bar.h"
#include "app/words/clearance_words.h"
#include "app/words/error_text.h"
#include "app/words/lengths.h"
#include "app/words/motion_words.h"
#include "app/words/spring_words.h"
#include "core/engine/running_fields.h"

namespace rodway {
namespace {

struct Answer {
    Result<RunningStated> stated;
    Result<std::vector<ValveInMotion>> valves;
};

Answer work_out(const Engine& engine, const SetUpFields& fields, const std::stop_token& stop) {
    const auto stated = read_running(fields, engine);
    if (!stated) {
        return {stated.error(), stated.error()};
    }
    return {*stated, running_clearances(engine, *stated, stop)};
}

StatedColumn of_kind(const std::string& kind, const QString& title) {
    const std::string rods = "running/rods/" + kind;
    const std::string masses = "running/masses/" + kind;
    return {
        title,
        {{rods + "/runout", MotionPanel::tr("Indicator reading, turned"), ".003 in"},
         {rods + "/wall", MotionPanel::tr("Wall of the rod"), ".080 in"},
         {rods + "/modulus", MotionPanel::tr("Modulus of its metal"), "207 GPa, 30 Msi"},
         {masses + "/rod", MotionPanel::tr("Mass of the rod"), "62 g"},
         {masses + "/valve_side", MotionPanel::tr("Valve, retainer, locks, ⅓ spring"), "190 g"},
         {masses + "/rocker_at_valve", MotionPanel::tr("Rocker's share at the valve"), "45 g"}}};
}

} // namespace

MotionPanel::MotionPanel(ValvetrainModel* model, QWidget* parent)
    : EstimatePanel(model,
                    {"motion",
                     tr("Working out loads and bows…"),
                     tr("State rods, masses, speed…"),
                     tr("What every rod has left in motion"),
                     {tr("Valve"), tr("Stands"), tr("Load"), tr("Bow"), tr("Left"), tr("Verdict")}},
                    parent) {
    table_->set_numbers({1, 2, 3, 4});
    table_->set_width(5, 110);
}

void MotionPanel::forget() {
    valves_.clear();
}

void MotionPanel::ask() {
    request_.ask<Answer>(
        [engine = model_->engine(), fields = *model_->fields()](const std::stop_token& stop) {
            return work_out(*engine, fields, stop);
        },
        [this](const Answer& answer) {
            work_->end();
            if (!answer.stated || !answer.valves) {
                const Error& error = answer.stated ? answer.valves.error() : answer.stated.error();
                show_rows(words::error_text(error), {});
                return;
            }
            valves_ = *answer.valves;
            std::vector<QStringList> rows;
            for (const ValveInMotion& valve : valves_) {
                const RunningPlace* least = valve.least();
                const auto thou = [](const std::optional<double>& mm) {
                    return mm ? words::inches(*mm).remove(" in") : tr("–");
                };
                rows.push_back(
                    {words::valve(valve.valve), stands(valve.valve),
                     valve.greatest_N ? words::spring_load(*valve.greatest_N) : tr("–"),
                     thou(valve.bow_most_mm),
                     thou(least ? std::optional(least->left.clearance_mm) : std::nullopt),
                     words::motion_verdict(valve)});
            }
            show_rows(words::motion(valves_, *answer.stated), rows);
        });
    work_->begin();
}

QString MotionPanel::of_valve() const {
    for (const ValveInMotion& valve : valves_) {
        if (model_->selected() == valve.valve && valve.status != RunningStatus::not_stated) {
            return tr("%1: %2").arg(words::valve(valve.valve),
                                    words::motion_of(valve, *model_->engine()));
        }
    }
    return {};
}

std::vector<ValvePosition> MotionPanel::rows() const {
    std::vector<ValvePosition> rows;
    for (const ValveInMotion& valve : valves_) {
        rows.push_back(valve.valve);
    }
    return rows;
}

void MotionPanel::state(ShopSession& session, const SetUpRecord& set_up) {
    const std::vector<StatedColumn> columns{
        of_kind("intake", tr("Intake")),
        of_kind("exhaust", tr("Exhaust")),
        {tr("All"), {{"running/speed", tr("Engine speed"), "6500 rpm"}}}};
    StatedDialog dialog(
        session, set_up, tr("What moves, and how stiff the rods are"),
        tr("Measured or from the maker's sheet. Steel has a modulus of 207 GPa (30 Msi), aluminium "
           "71.7 GPa, titanium alloys 114 GPa (Shigley, table A-5). Without masses and speed the "
           "load is the spring's alone."),
        columns, tr("masses and stiffness"), this);
    if (dialog.exec() == QDialog::Accepted) {
        emit said(tr("Stated in the set-up in hand; Undo takes it back."));
    }
}

} // namespace rodway
