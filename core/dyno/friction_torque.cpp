#include "core/dyno/friction_torque.h"

#include <array>

#include "core/units/length.h"
#include "core/units/within.h"

namespace rodway {
namespace {

constexpr double step_ft_per_min = 1000.0;
constexpr std::array lbf_ft_per_ci{0.088, 0.120, 0.170, 0.233, 0.308, 0.433, 0.573, 0.725};
static_assert((lbf_ft_per_ci.size() - 1) * step_ft_per_min == greatest_piston_speed_ft_per_min);

constexpr double mm_per_s_in_ft_per_min = 12.0 * Length::mm_per_inch / 60.0;
/// A speed at the table's very end, converted, may come out a hair beyond it.
constexpr double rounding_mm_per_s = 1e-6;

} // namespace

Result<Torque> friction_torque(Volume displacement, double mean_piston_speed_mm_per_s) {
    if (const auto bad = outside("displacement", displacement.in_cc(), {10.0, 200000.0, "cc"})) {
        return *bad;
    }
    const double most_mm_per_s = greatest_piston_speed_ft_per_min * mm_per_s_in_ft_per_min;
    if (const auto bad = outside("piston_speed", mean_piston_speed_mm_per_s,
                                 {0.0, most_mm_per_s + rounding_mm_per_s, "mm/s"})) {
        return *bad;
    }
    const double steps = mean_piston_speed_mm_per_s / mm_per_s_in_ft_per_min / step_ft_per_min;
    const auto below = std::min(static_cast<std::size_t>(steps), lbf_ft_per_ci.size() - 2);
    const double share = steps - static_cast<double>(below);
    const double there =
        lbf_ft_per_ci[below] + share * (lbf_ft_per_ci[below + 1] - lbf_ft_per_ci[below]);
    return Torque::lbf_ft(there * displacement.in_cubic_inches());
}

Torque corrected_beside_friction(Torque raw, Torque friction, double factor) {
    return (raw + friction) * factor - friction;
}

Result<Pull> corrected_beside_friction(const Pull& pull, Volume displacement, double stroke_mm,
                                       double factor) {
    if (const auto good = check_pull(pull); !good) {
        return good.error();
    }
    if (const auto bad = outside("stroke", stroke_mm, {10.0, 1000.0, "mm"})) {
        return *bad;
    }
    if (const auto bad = outside("factor", factor, {0.5, 2.0, {}})) {
        return *bad;
    }
    Pull corrected = pull;
    for (std::size_t at = 0; at < pull.rows.size(); ++at) {
        const auto friction =
            friction_torque(displacement, 2.0 * stroke_mm * pull.rows[at].speed_rpm / 60.0);
        if (!friction) {
            Error error = friction.error();
            error.line = static_cast<int>(at) + 1;
            return error;
        }
        corrected.rows[at].torque =
            corrected_beside_friction(pull.rows[at].torque, *friction, factor);
    }
    return corrected;
}

} // namespace rodway
