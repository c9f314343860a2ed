#include "core/valvetrain/lift_loss.h"

#include "core/units/figure_band.h"

namespace rodway {
namespace {

std::optional<Error> wrong_readings(const LiftLossReadings& readings) {
    const Limits ratios{0.5, 4.0, {}};
    const auto or_good = [](const std::optional<Interval>& value, double good) {
        return value.value_or(Interval::exactly(good));
    };
    if (auto bad = first_outside(
            {{"card_lift", readings.card_lift_mm, {1.0, 50.0, "mm"}},
             {"card_ratio", Interval::exactly(readings.card_ratio), ratios},
             {"seen", readings.seen_mm, {0.0, 50.0, "mm"}},
             {"lobe_lift", or_good(readings.lobe_lift_mm, 1.0), {0.5, 30.0, "mm"}},
             {"ratio", or_good(readings.ratio, 1.0), ratios},
             {"lash", or_good(readings.lash_mm, 0.0), {0.0, 5.0, "mm"}},
             {"spring", or_good(readings.spring_N, 0.0), {0.0, 20000.0, "N"}},
             {"stiffness", or_good(readings.stiffness_N_per_mm, 10.0), {10.0, 1e6, "N/mm"}},
             {"dial_on_heel", or_good(readings.dial_on_heel_mm, 0.0), {-5.0, 5.0, "mm"}}})) {
        return bad;
    }
    if (readings.spring_N.has_value() != readings.stiffness_N_per_mm.has_value()) {
        return Error{
            ErrorCode::missing_field, readings.spring_N ? "stiffness" : "spring", {}, {}, {}, {}};
    }
    return std::nullopt;
}

} // namespace

Result<LiftAccount> account_for_lift(const LiftLossReadings& readings) {
    if (const auto bad = wrong_readings(readings)) {
        return *bad;
    }
    LiftAccount account;
    account.missing_mm = readings.card_lift_mm - readings.seen_mm;
    const auto add = [&](LiftLossCause cause, const std::optional<Interval>& lost_mm) {
        if (lost_mm) {
            account.losses.push_back({cause, *lost_mm});
        } else {
            account.not_looked_at.push_back(cause);
        }
    };
    const Interval card_lobe_mm = readings.card_lift_mm / readings.card_ratio;
    const Interval lobe_mm = readings.lobe_lift_mm.value_or(card_lobe_mm);
    const Interval ratio = readings.ratio.value_or(Interval::exactly(readings.card_ratio));
    std::optional<Interval> by_lobe_mm;
    if (readings.lobe_lift_mm) {
        by_lobe_mm = (card_lobe_mm - lobe_mm) * readings.card_ratio;
    }
    std::optional<Interval> by_ratio_mm;
    if (readings.ratio) {
        by_ratio_mm = product(Interval::exactly(readings.card_ratio) - ratio, lobe_mm);
    }
    std::optional<Interval> by_deflection_mm;
    if (readings.spring_N) {
        by_deflection_mm = quotient(*readings.spring_N, *readings.stiffness_N_per_mm);
    }
    std::optional<Interval> by_dial_mm;
    if (readings.dial_on_heel_mm) {
        by_dial_mm = -*readings.dial_on_heel_mm;
    }
    add(LiftLossCause::lobe, by_lobe_mm);
    add(LiftLossCause::ratio, by_ratio_mm);
    add(LiftLossCause::lash, readings.lash_mm);
    add(LiftLossCause::deflection, by_deflection_mm);
    add(LiftLossCause::dial_zero, by_dial_mm);
    const Interval none = Interval::exactly(0.0);
    const Interval expected_mm = product(lobe_mm, ratio) - readings.lash_mm.value_or(none) -
                                 by_deflection_mm.value_or(none) - by_dial_mm.value_or(none);
    account.unexplained_mm = expected_mm - readings.seen_mm;
    account.accounted_for =
        standing(none, {account.unexplained_mm.low, account.unexplained_mm.high, {}}) ==
        BandStanding::inside;
    return account;
}

} // namespace rodway
