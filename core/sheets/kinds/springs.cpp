#include "core/heads/installed_height.h"
#include "core/heads/retainer_room.h"
#include "core/loads/spring_shims.h"
#include "core/sheets/kinds/built_in.h"
#include "core/sheets/kinds/set_up_lift.h"
#include "core/sheets/kinds/spring_curve.h"
#include "core/sheets/kinds/spring_page.h"
#include "core/sheets/kinds/work_out.h"
#include "core/sheets/kinds/worked_figures.h"

namespace rodway {
namespace {

/// What is left above guide or seal at full lift, from what it was with the valve closed.
std::optional<Interval> room_at_full_lift(const TakenReadings& readings, const std::string& valve,
                                          const std::optional<Interval>& lift_mm) {
    const auto closed_mm = readings.number("retainer_to_guide_closed", valve);
    if (!closed_mm || !lift_mm) {
        return std::nullopt;
    }
    const auto room = retainer_room({*closed_mm, *lift_mm, Interval::exactly(0.0)},
                                    *usual_retainer_room_mm().low);
    return room ? std::optional(room->at_full_lift_mm) : std::nullopt;
}

void add_loads_and_room(WorkedFigures& figures, const SheetFacts& facts, const std::string& valve) {
    const TakenReadings& readings = facts.readings;
    const auto height_mm = readings.number("spring_installed_height", valve);
    const auto lift_mm = full_valve_lift_mm(facts, valve);
    figures.add_beside_reading("retainer_to_guide", valve,
                               room_at_full_lift(readings, valve, lift_mm),
                               PointedOut::methods_differ);
    if (!height_mm) {
        return;
    }
    const auto curve = spring_curve(facts, valve);
    if (curve) {
        figures.add_beside_reading("spring_seat_load", valve, curve->load_N(*height_mm),
                                   PointedOut::methods_differ);
    }
    if (!lift_mm) {
        return;
    }
    const Interval open_mm = *height_mm - *lift_mm;
    if (curve) {
        figures.add_beside_reading("spring_open_load", valve, curve->load_N(open_mm),
                                   PointedOut::methods_differ);
    }
    if (const auto bind_mm = readings.number("spring_bind_height", valve)) {
        figures.add("spring_bind_margin", valve, open_mm - *bind_mm);
    }
}

/// A spring as it would stand without its shims, to choose them anew.
std::optional<ValveSpring> bare_spring(const SheetFacts& facts, const std::string& valve,
                                       const Interval& lift_mm) {
    const auto height_mm = facts.readings.number("spring_installed_height", valve);
    const auto fitted_mm = facts.readings.number("spring_shim", valve);
    const auto curve =
        height_mm ? spring_curve_or_loads(facts, valve, *height_mm, lift_mm) : std::nullopt;
    if (!fitted_mm || !curve) {
        return std::nullopt;
    }
    ValveSpring spring;
    spring.installed_height_mm = height_mm->middle() + fitted_mm->middle();
    spring.loads = curve->middle_loads();
    if (const auto bind_mm = facts.readings.number("spring_bind_height", valve)) {
        spring.bind_height_mm = bind_mm->middle();
    }
    return spring;
}

void point_out_shims(WorkedFigures& figures, const std::string& valve, const ShimChoice& choice,
                     const Interval& wanted_N) {
    if (choice.status == ShimStatus::in_band) {
        return;
    }
    const bool bind = choice.status != ShimStatus::not_in_band;
    figures.point_out(PointedOut::out_of_reach, "spring_seat_load_with_shims", {valve},
                      {choice.seat_load_N, wanted_N.low, wanted_N.high},
                      bind ? "spring_bind_margin" : "");
}

/// Chooses a valve's stack; says what reading is missing for it.
void add_shims_at(WorkedFigures& figures, const SheetFacts& facts, const std::string& valve,
                  const Interval& wanted_N) {
    const auto lift_mm = full_valve_lift_mm(facts, valve);
    const auto spring = lift_mm ? bare_spring(facts, valve, *lift_mm) : std::nullopt;
    if (!spring) {
        return;
    }
    const ShimAim aim{ShimAim::Of::seat_load, wanted_N.low, wanted_N.high, {}};
    const auto choice = choose_shims(*spring, aim, {}, lift_mm->middle());
    if (!choice) {
        return;
    }
    if (!choice->bind_checked) {
        figures.point_out(PointedOut::needs_reading, "spring_shims_to_fit", {valve}, {},
                          "spring_bind_height");
        return;
    }
    if (choice->status != ShimStatus::binds_bare) {
        figures.add("spring_shims_to_fit", valve, Interval::exactly(choice->stack_mm));
        figures.add("spring_seat_load_with_shims", valve, Interval::exactly(choice->seat_load_N));
    }
    point_out_shims(figures, valve, *choice, wanted_N);
}

void add_shims(WorkedFigures& figures, const SheetFacts& facts,
               const std::vector<std::string>& valves) {
    const Taken* wanted = facts.readings.at("spring_seat_load_wanted", "");
    if (wanted == nullptr || !wanted->value.is_number()) {
        return;
    }
    std::vector<std::string> shims_unknown;
    for (const std::string& valve : valves) {
        if (facts.readings.number("spring_installed_height", valve) &&
            !facts.readings.number("spring_shim", valve)) {
            shims_unknown.push_back(valve);
        }
        // As typed: a band's ends aren't in doubt.
        add_shims_at(figures, facts, valve, {wanted->value.low, wanted->value.high});
    }
    if (!shims_unknown.empty()) {
        figures.point_out(PointedOut::needs_reading, "spring_shims_to_fit", shims_unknown, {},
                          "spring_shim");
    }
}

SheetOutcome work_out(const SheetFacts& facts) {
    WorkedFigures figures(facts.readings);
    const auto valves =
        valves_read(facts.readings, {"spring_installed_height", "retainer_to_guide_closed"});
    for (const std::string& valve : valves) {
        add_loads_and_room(figures, facts, valve);
    }
    add_shims(figures, facts, valves);
    judge_page(figures, facts);
    return figures.outcome();
}

std::vector<SheetLimit> usual_limits(const SheetFacts&) {
    return {common_practice("spring_bind_margin", usual_to_bind_mm().low, {}),
            common_practice("retainer_to_guide", usual_retainer_room_mm().low, {})};
}

} // namespace

SheetKind springs_sheet() {
    const Origin follows = Origin::worked_out;
    return {"springs",
            {
                {"spring_marking", Form::words, Place::valve},
                {"spring_installed_height", Form::length, Place::valve, "in"},
                {"spring_shim", Form::length, Place::valve, "in"},
                {"retainer_and_lock", Form::words, Place::valve},
                {"full_valve_lift", Form::length, Place::valve, "in"},
                {"spring_seat_load", Form::force, Place::valve, "lbf"},
                {"spring_open_load", Form::force, Place::valve, "lbf"},
                {"spring_load_at_height", Form::force, Place::spring_height, "lbf"},
                {"spring_bind_height", Form::length, Place::valve, "in"},
                {"spring_bind_margin", Form::length, Place::valve, "in", "", follows},
                {"retainer_to_guide_closed", Form::length, Place::valve, "in"},
                {"retainer_to_guide", Form::clearance, Place::valve, "in"},
                {"spring_pocket_fit", Form::words, Place::valve},
                {"spring_seat_load_wanted", Form::force, Place::engine, "lbf"},
                {"spring_shims_to_fit", Form::length, Place::valve, "in", "", follows},
                {"spring_seat_load_with_shims", Form::force, Place::valve, "lbf", "", follows},
                {"page_closed_height_metric", Form::length, Place::engine, "mm"},
                {"page_closed_height_inch", Form::length, Place::engine, "in"},
                {"page_closed_load_metric", Form::force, Place::engine, "N"},
                {"page_closed_load_inch", Form::force, Place::engine, "lbf"},
                {"page_open_height_metric", Form::length, Place::engine, "mm"},
                {"page_open_height_inch", Form::length, Place::engine, "in"},
                {"page_open_load_metric", Form::force, Place::engine, "N"},
                {"page_open_load_inch", Form::force, Place::engine, "lbf"},
                {"page_rate_metric", Form::spring_rate, Place::engine, "N/mm", "", follows},
                {"page_rate_inch", Form::spring_rate, Place::engine, "lb/in", "", follows},
            },
            work_out,
            usual_limits};
}

} // namespace rodway
