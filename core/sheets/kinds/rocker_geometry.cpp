#include "core/sheets/kinds/built_in.h"
#include "core/sheets/kinds/set_up_lift.h"
#include "core/sheets/kinds/work_out.h"
#include "core/sheets/kinds/worked_figures.h"
#include "core/valvetrain/ratio_from_dials.h"
#include "core/valvetrain/sweep_stripe.h"

namespace rodway {
namespace {

std::optional<DialPair> dials_at(const TakenReadings& readings, const std::string& valve,
                                 const char* lift) {
    const std::string position = valve + ' ' + lift;
    const auto lifter_mm = readings.number("dial_at_lifter", position);
    const auto valve_mm = readings.number("dial_at_valve", position);
    return lifter_mm && valve_mm ? std::optional(DialPair{*lifter_mm, *valve_mm}) : std::nullopt;
}

/// The ratio up to full lift where dials were read on the heel and the lash is known; else that
/// between half and full lift, from which zero error and lash drop out.
std::optional<Interval> ratio_by_dials(const TakenReadings& readings, const std::string& valve) {
    const auto closed = dials_at(readings, valve, "closed");
    const auto half = dials_at(readings, valve, "half");
    const auto full = dials_at(readings, valve, "full");
    if (!full || (!closed && !half)) {
        return std::nullopt;
    }
    DialReadings dials;
    if (half) {
        dials.pairs.push_back(*half);
    }
    dials.pairs.push_back(*full);
    if (closed) {
        dials.on_heel = *closed;
        dials.lash_mm = readings.number("lash_at_dials", valve);
    }
    const auto ratios = ratio_from_dials(dials);
    if (!ratios) {
        return std::nullopt;
    }
    return ratios->back().overall ? ratios->back().overall : ratios->back().step;
}

struct Stripe {
    Interval closed_mm;
    Interval half_mm;
    Interval full_mm;
};

std::optional<Stripe> stripe_of(const TakenReadings& readings, const std::string& valve) {
    const auto closed_mm = readings.number("sweep_position", valve + " closed");
    const auto half_mm = readings.number("sweep_position", valve + " half");
    const auto full_mm = readings.number("sweep_position", valve + " full");
    return closed_mm && half_mm && full_mm ? std::optional(Stripe{*closed_mm, *half_mm, *full_mm})
                                           : std::nullopt;
}

/// How the rocker stands: needs to know on which side of the tip the pivot is, and how large the
/// tip is.
void add_pivot(WorkedFigures& figures, const SheetFacts& facts, const std::string& valve,
               const Stripe& stripe) {
    const TakenReadings& readings = facts.readings;
    const auto plus = readings.word("sweep_plus_points");
    const auto tip_mm = readings.number("valve_stem_diameter", valve);
    const auto lift_mm = full_valve_lift_mm(facts, valve);
    if (!plus || !tip_mm || !lift_mm) {
        return;
    }
    const double away = plus == "away_from_pivot" ? 1.0 : -1.0;
    StripeReadings read;
    read.on_heel_mm = stripe.closed_mm * away;
    read.half_lift_mm = stripe.half_mm * away;
    read.full_lift_mm = stripe.full_mm * away;
    read.tip_diameter_mm = *tip_mm;
    read.net_lift_mm = *lift_mm;
    read.tip_arm_mm = readings.number("rocker_valve_arm", valve);
    const auto found = sweep_stripe(read, *usual_stripe_offset_mm().high);
    if (found) {
        figures.add("stripe_to_edge", valve, found->to_edge_mm);
        figures.add("pivot_to_raise", valve, found->raise_pivot_mm);
    }
}

void add_stripe(WorkedFigures& figures, const SheetFacts& facts, const std::string& valve) {
    const auto stripe = stripe_of(facts.readings, valve);
    if (!stripe) {
        return;
    }
    const std::vector<Interval> contacts{stripe->closed_mm, stripe->half_mm, stripe->full_mm};
    // In between it may go a little further: a width seen on the dye isn't contradicted by it.
    figures.add("sweep_travel", valve, spread_of(contacts));
    figures.add("sweep_middle", valve, (least_of(contacts) + greatest_of(contacts)) / 2.0);
    add_pivot(figures, facts, valve, *stripe);
}

SheetOutcome work_out(const SheetFacts& facts) {
    WorkedFigures figures(facts.readings);
    for (const std::string& valve : valves_read(facts.readings, {"dial_at_lifter"})) {
        figures.add_beside_reading("rocker_ratio_measured", valve,
                                   ratio_by_dials(facts.readings, valve));
    }
    for (const std::string& valve : valves_read(facts.readings, {"sweep_position"})) {
        add_stripe(figures, facts, valve);
    }
    return figures.outcome();
}

std::vector<SheetLimit> usual_limits(const SheetFacts&) {
    const FigureBand offset = usual_stripe_offset_mm();
    return {common_practice("sweep_middle", offset.low, offset.high),
            common_practice("retainer_to_rocker", 0.030 * inch_mm, {})};
}

} // namespace

SheetKind rocker_geometry_sheet() {
    const Origin follows = Origin::worked_out;
    return {
        "rocker_geometry",
        {
            {"rocker_ratio_nominal", Form::ratio, Place::valve},
            {"dial_at_lifter", Form::length, Place::valve_lift, "in"},
            {"dial_at_valve", Form::length, Place::valve_lift, "in"},
            {"lash_at_dials", Form::length, Place::valve, "in"},
            {"rocker_ratio_measured", Form::ratio, Place::valve},
            {"rocker_valve_arm", Form::length, Place::valve, "in"},
            {"rocker_pushrod_arm", Form::length, Place::valve, "in"},
            {"adjuster_threads_showing", Form::number, Place::valve, "threads"},
            {"rocker_stand_height", Form::length, Place::spot, "in"},
            {"rocker_stand_shim", Form::length, Place::spot, "in"},
            {"rocker_shaft_clearance", Form::length, Place::valve, "in"},
            {"sweep_position", Form::length, Place::valve_lift, "in"},
            {"sweep_plus_points", Form::choice, Place::engine, "", "away_from_pivot towards_pivot"},
            {"sweep_travel", Form::length, Place::valve, "in", "", follows},
            {"sweep_middle", Form::length, Place::valve, "in", "", follows},
            {"stripe_to_edge", Form::length, Place::valve, "in", "", follows},
            {"pivot_to_raise", Form::length, Place::valve, "in", "", follows},
            {"sweep_width", Form::length, Place::valve, "in"},
            {"tip_centre_offset", Form::length, Place::valve, "in"},
            {"guide_plate", Form::words, Place::valve},
            {"stud_height", Form::length, Place::valve, "in"},
            {"retainer_to_rocker", Form::clearance, Place::valve, "in"},
        },
        work_out,
        usual_limits};
}

} // namespace rodway
