#include "core/tubes/tube_leak.h"

#include "core/units/figure_band.h"

namespace rodway {

Result<LeakRate> leak_rate(const LeakTest& test, double allowed_kPa_per_min) {
    const Limits pressures{0.0, 1000.0, "kPa"};
    constexpr double least_min = 1e-3;
    if (const auto bad = first_outside(
            {{"start", test.start_kPa, pressures},
             {"end", test.end_kPa, pressures},
             {"minutes", test.minutes, {least_min, 1440.0, "min"}},
             {"allowed", Interval::exactly(allowed_kPa_per_min), {0.0, 100.0, "kPa/min"}}})) {
        return *bad;
    }
    LeakRate rate;
    rate.lost_kPa = test.start_kPa - test.end_kPa;
    rate.lost_kPa_per_min = *quotient(rate.lost_kPa, test.minutes);
    switch (standing(rate.lost_kPa_per_min, {{}, allowed_kPa_per_min, FigureSource::shop})) {
        case BandStanding::inside:
            rate.finding = LeakFinding::held;
            break;
        case BandStanding::above:
            rate.finding = LeakFinding::leaked;
            break;
        default:
            rate.finding = LeakFinding::undecided;
            break;
    }
    return rate;
}

TubeLeakFinding tube_leak(const std::optional<LeakRate>& before_relief,
                          const std::optional<LeakRate>& after_relief) {
    if (!after_relief) {
        return TubeLeakFinding::not_tested_after;
    }
    switch (after_relief->finding) {
        case LeakFinding::held:
            return TubeLeakFinding::held;
        case LeakFinding::undecided:
            return TubeLeakFinding::undecided;
        case LeakFinding::leaked:
            break;
    }
    if (!before_relief || before_relief->finding == LeakFinding::undecided) {
        return TubeLeakFinding::leaks_nothing_before;
    }
    return before_relief->finding == LeakFinding::leaked ? TubeLeakFinding::leaked_from_the_start
                                                         : TubeLeakFinding::leaks_since_relief;
}

} // namespace rodway
