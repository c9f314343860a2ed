#include "core/sheets/kinds/built_in.h"
#include "core/sheets/kinds/work_out.h"
#include "core/sheets/kinds/worked_figures.h"
#include "core/valvetrain/checker_turns.h"
#include "core/valvetrain/lash_setting.h"

namespace rodway {
namespace {

/// The checker's closed length and its turns. What a turn is has to be measured or read off its
/// thread: .050 in is common, but no more than that.
std::optional<Interval> by_checker(const TakenReadings& readings, const std::string& valve) {
    const auto closed_mm = readings.number("checker_closed_length");
    const auto turns = readings.number("pushrod_checker_turns", valve);
    const auto thread = readings.word("checker_thread");
    const auto pitch_mm = thread ? parse_thread_pitch(*thread) : Result<double>(Error{});
    if (!closed_mm || !turns || !pitch_mm) {
        return std::nullopt;
    }
    const auto length_mm = checker_length_mm({*closed_mm, not_below_zero(*turns), *pitch_mm});
    return length_mm ? std::optional(*length_mm) : std::nullopt;
}

SheetOutcome work_out(const SheetFacts& facts) {
    WorkedFigures figures(facts.readings);
    std::vector<Interval> lengths_mm;
    for (const std::string& valve :
         valves_read(facts.readings, {"pushrod_length", "pushrod_checker_turns"})) {
        const auto checked_mm = by_checker(facts.readings, valve);
        figures.add_beside_reading("pushrod_length", valve, checked_mm);
        const auto written_mm = facts.readings.number("pushrod_length", valve);
        if (written_mm || checked_mm) {
            lengths_mm.push_back(written_mm ? *written_mm : *checked_mm);
        }
    }
    if (!facts.readings.of("pushrod_checker_turns").empty() &&
        !facts.readings.word("checker_thread")) {
        figures.point_out(PointedOut::needs_reading, "pushrod_length", {""}, {}, "checker_thread");
    }
    if (lengths_mm.size() > 1) {
        figures.add("pushrod_length_spread", "", spread_of(lengths_mm));
    }
    return figures.outcome();
}

/// .003 in on the indicator, turned on vee blocks.
std::vector<SheetLimit> usual_limits(const SheetFacts&) {
    return {common_practice("pushrod_runout", {}, 0.003 * inch_mm)};
}

} // namespace

SheetKind pushrods_sheet() {
    return {
        "pushrods",
        {
            {"pushrod_diameter", Form::length, Place::valve, "in"},
            {"pushrod_wall", Form::length, Place::valve, "in"},
            {"checker_closed_length", Form::length, Place::engine, "in"},
            {"checker_thread", Form::words, Place::engine},
            {"pushrod_checker_turns", Form::number, Place::valve, "turns"},
            {"pushrod_length", Form::length, Place::valve, "in"},
            {"pushrod_length_definition", Form::choice, Place::valve, "",
             "overall gauge effective"},
            {"pushrod_length_spread", Form::length, Place::engine, "in", "", Origin::worked_out},
            {"pushrod_cup_depth", Form::length, Place::valve, "in"},
            {"pushrod_ball_diameter", Form::length, Place::valve, "in"},
            {"pushrod_runout", Form::length, Place::valve, "in"},
        },
        work_out,
        usual_limits};
}

} // namespace rodway
