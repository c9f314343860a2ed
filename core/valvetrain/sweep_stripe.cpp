#include "core/valvetrain/sweep_stripe.h"

#include <array>
#include <cmath>

#include "core/units/length.h"
#include "core/valvetrain/lash_setting.h"

namespace rodway {
namespace {

std::optional<Error> wrong_readings(const StripeReadings& readings, double tolerance_mm) {
    const Limits contacts{-30.0, 30.0, "mm"};
    return first_outside(
        {{"on_heel", readings.on_heel_mm, contacts},
         {"half_lift", readings.half_lift_mm, contacts},
         {"full_lift", readings.full_lift_mm, contacts},
         {"tip_diameter", readings.tip_diameter_mm, {2.0, 30.0, "mm"}},
         {"net_lift", readings.net_lift_mm, {1.0, 50.0, "mm"}},
         {"tip_arm", readings.tip_arm_mm.value_or(Interval::exactly(10.0)), {10.0, 150.0, "mm"}},
         {"ratio", Interval::exactly(readings.rocker_ratio.value_or(1.0)), {0.5, 4.0, {}}},
         {"tolerance", Interval::exactly(tolerance_mm), {0.0, 5.0, "mm"}}});
}

/// One set of values that the readings allow.
struct Contact {
    double on_heel_mm;
    double full_lift_mm;
    double lift_mm;
    double arm_mm;

    [[nodiscard]] double gained_mm() const { return full_lift_mm - on_heel_mm; }
    /// √(q²/c² - 1/4); empty if the arm is shorter than half the chord.
    [[nodiscard]] std::optional<double> pivot_per_chord() const {
        const double chord_mm = std::hypot(gained_mm(), lift_mm);
        const double square = arm_mm * arm_mm / (chord_mm * chord_mm) - 0.25;
        return square > 0.0 ? std::optional(std::sqrt(square)) : std::nullopt;
    }
    [[nodiscard]] std::optional<double> pivot_low_by_mm() const {
        const auto share = pivot_per_chord();
        return share ? std::optional(gained_mm() * *share) : std::nullopt;
    }
    /// With the arm square at half lift the contact runs from √(q² - L²/4) to q from the pivot.
    [[nodiscard]] std::optional<double> middle_once_square_mm() const {
        const auto share = pivot_per_chord();
        if (!share) {
            return std::nullopt;
        }
        const double pivot_mm = (on_heel_mm + full_lift_mm) / 2.0 - lift_mm * *share;
        return pivot_mm + (arm_mm + std::sqrt(arm_mm * arm_mm - lift_mm * lift_mm / 4.0)) / 2.0;
    }
};

std::array<double, 3> ends_and_middle(const Interval& value) {
    return {value.low, value.middle(), value.high};
}

/// What all readings allow at their ends and middles; empty if one set has no answer.
template <typename Of>
std::optional<Interval> over_doubts(const StripeReadings& readings, const Of& of) {
    std::optional<Interval> all;
    for (const double heel : ends_and_middle(readings.on_heel_mm)) {
        for (const double full : ends_and_middle(readings.full_lift_mm)) {
            for (const double lift : ends_and_middle(readings.net_lift_mm)) {
                for (const double arm : ends_and_middle(*readings.tip_arm_mm)) {
                    const std::optional<double> value = of(Contact{heel, full, lift, arm});
                    if (!value) {
                        return std::nullopt;
                    }
                    const Interval here = Interval::exactly(*value);
                    all = all ? hull(*all, here) : here;
                }
            }
        }
    }
    return all;
}

PivotStanding pivot_standing(const Interval& gained_mm, const FigureBand& tolerance) {
    switch (standing(gained_mm, tolerance)) {
        case BandStanding::inside:
            return PivotStanding::right;
        case BandStanding::below:
            return PivotStanding::high;
        case BandStanding::above:
            return PivotStanding::low;
        default:
            return PivotStanding::undecided;
    }
}

StripeReach reach_of(const SweepStripe& stripe, const FigureBand& tolerance) {
    if (!stripe.middle_once_square_mm && stripe.pivot != PivotStanding::right) {
        return StripeReach::undecided;
    }
    switch (standing(stripe.middle_once_square_mm.value_or(stripe.middle_mm), tolerance)) {
        case BandStanding::inside:
            return StripeReach::centred;
        case BandStanding::below:
            return StripeReach::towards_pivot;
        case BandStanding::above:
            return StripeReach::beyond_middle;
        default:
            return StripeReach::undecided;
    }
}

std::vector<StripeCause> likely_causes(const SweepStripe& stripe, RockerMount mount) {
    const bool shaft = mount == RockerMount::shaft;
    std::vector<StripeCause> causes;
    if (stripe.pivot == PivotStanding::low) {
        causes = {shaft ? StripeCause::stand_low : StripeCause::rod_short,
                  StripeCause::valve_tip_high};
    } else if (stripe.pivot == PivotStanding::high) {
        causes = {shaft ? StripeCause::stand_high : StripeCause::rod_long,
                  StripeCause::valve_tip_low};
    }
    if (stripe.reach == StripeReach::beyond_middle) {
        causes.push_back(StripeCause::pivot_near_valve);
    } else if (stripe.reach == StripeReach::towards_pivot) {
        causes.push_back(StripeCause::pivot_far_from_valve);
    }
    return causes;
}

/// Angle whose tangent is d/L; it rises with d, and towards zero with L.
Interval lean_rad(const Interval& gained_mm, const Interval& lift_mm) {
    const Interval tangent = *quotient(gained_mm, lift_mm);
    return {std::atan(tangent.low), std::atan(tangent.high)};
}

} // namespace

Result<SweepStripe> sweep_stripe(const StripeReadings& readings, double tolerance_mm) {
    if (const auto bad = wrong_readings(readings, tolerance_mm)) {
        return *bad;
    }
    const std::vector<Interval> contacts{readings.on_heel_mm, readings.half_lift_mm,
                                         readings.full_lift_mm};
    const Interval gained_mm = readings.full_lift_mm - readings.on_heel_mm;
    const FigureBand tolerance{-tolerance_mm, tolerance_mm, FigureSource::shop};
    SweepStripe stripe;
    stripe.width_mm = spread_of(contacts);
    stripe.middle_mm = (least_of(contacts) + greatest_of(contacts)) / 2.0;
    stripe.to_edge_mm =
        readings.tip_diameter_mm / 2.0 -
        greatest_of({magnitude(contacts[0]), magnitude(contacts[1]), magnitude(contacts[2])});
    stripe.half_lift_arm_rad = lean_rad(gained_mm, readings.net_lift_mm);
    if (readings.tip_arm_mm) {
        stripe.raise_pivot_mm =
            over_doubts(readings, [](const Contact& contact) { return contact.pivot_low_by_mm(); });
        stripe.middle_once_square_mm = over_doubts(
            readings, [](const Contact& contact) { return contact.middle_once_square_mm(); });
    }
    if (readings.mount != RockerMount::shaft && readings.rocker_ratio && stripe.raise_pivot_mm) {
        stripe.rod_longer_mm =
            *stripe.raise_pivot_mm * *nut_lever_rule_of_thumb(*readings.rocker_ratio);
    }
    stripe.pivot = pivot_standing(gained_mm, tolerance);
    stripe.reach = reach_of(stripe, tolerance);
    stripe.likely = likely_causes(stripe, readings.mount);
    return stripe;
}

FigureBand usual_stripe_offset_mm() {
    const double offset_mm = Length::inches(0.020).in_mm();
    return {-offset_mm, offset_mm, FigureSource::common_practice};
}

} // namespace rodway
