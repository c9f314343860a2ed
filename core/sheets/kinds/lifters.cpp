#include "core/sheets/kinds/built_in.h"
#include "core/sheets/kinds/set_up_lift.h"
#include "core/sheets/kinds/work_out.h"
#include "core/sheets/kinds/worked_figures.h"
#include "core/valvetrain/lash_setting.h"
#include "core/valvetrain/preload_turns.h"

namespace rodway {
namespace {

/// How a nut or screw is turned for preload; nothing unless thread and kind are known, and, for a
/// nut, the rocker's ratio.
std::optional<PreloadTurning> turning_of(const SheetFacts& facts, const std::string& valve) {
    const auto thread = facts.readings.word("preload_thread");
    const auto kind = facts.readings.word("preload_set_by");
    const auto pitch_mm = thread ? parse_thread_pitch(*thread) : Result<double>(Error{});
    if (!pitch_mm || !kind) {
        return std::nullopt;
    }
    if (kind == "rocker_screw") {
        return PreloadTurning{PreloadThread::rocker_screw, *pitch_mm, 1.0};
    }
    const auto ratio = rocker_ratio(facts, valve);
    return ratio ? std::optional(
                       PreloadTurning{PreloadThread::fulcrum_nut, *pitch_mm, ratio->middle()})
                 : std::nullopt;
}

void add_preload(WorkedFigures& figures, const SheetFacts& facts, const std::string& valve) {
    std::optional<Interval> preload_mm;
    const auto turns = facts.readings.number("preload_turns", valve);
    const auto turning = turns ? turning_of(facts, valve) : std::nullopt;
    if (turning) {
        const auto turned = preload_for_turns(*turning, not_below_zero(*turns));
        if (turned) {
            preload_mm = turned->preload_mm;
            figures.add_beside_reading("lifter_preload", valve, preload_mm,
                                       PointedOut::methods_differ);
        }
    }
    if (const auto written_mm = facts.readings.number("lifter_preload", valve)) {
        preload_mm = written_mm;
    }
    const auto travel_mm = facts.readings.number("lifter_plunger_travel", valve);
    if (preload_mm && travel_mm) {
        figures.add("plunger_travel_left", valve, *travel_mm - *preload_mm);
    }
}

SheetOutcome work_out(const SheetFacts& facts) {
    WorkedFigures figures(facts.readings);
    for (const std::string& valve :
         valves_read(facts.readings, {"lifter_diameter", "preload_turns", "lifter_preload"})) {
        const auto bore_mm = facts.readings.number("lifter_bore_diameter", valve);
        const auto body_mm = facts.readings.number("lifter_diameter", valve);
        if (bore_mm && body_mm) {
            figures.add_beside_reading("lifter_clearance", valve, *bore_mm - *body_mm);
        }
        add_preload(figures, facts, valve);
    }
    return figures.outcome();
}

/// A plunger on its bottom holds the valve open.
std::vector<SheetLimit> usual_limits(const SheetFacts&) {
    const FigureBand preload = usual_preload_mm();
    return {common_practice("lifter_clearance", 0.0010 * inch_mm, 0.0020 * inch_mm),
            common_practice("lifter_preload", preload.low, preload.high),
            common_practice("plunger_travel_left", 0.0, {})};
}

} // namespace

SheetKind lifters_sheet() {
    return {"lifters",
            {
                {"lifter_marking", Form::words, Place::valve},
                {"lifter_seat_height", Form::length, Place::valve, "in"},
                {"lifter_diameter", Form::length, Place::valve, "in"},
                {"lifter_clearance", Form::length, Place::valve, "in"},
                {"lifter_plunger_travel", Form::length, Place::valve, "in"},
                {"preload_set_by", Form::choice, Place::engine, "", "fulcrum_nut rocker_screw"},
                {"preload_thread", Form::words, Place::engine},
                {"preload_turns", Form::number, Place::valve, "turns"},
                {"lifter_preload", Form::length, Place::valve, "in"},
                {"plunger_travel_left", Form::length, Place::valve, "in", "", Origin::worked_out},
                {"lifter_spins", Form::yes_no, Place::valve},
            },
            work_out,
            usual_limits};
}

} // namespace rodway
