#include "core/cam/lift_table.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace rodway {
namespace {

constexpr std::size_t fewest_rows = 8;
constexpr double least_full_lift_mm = 1.0;
constexpr double greatest_full_lift_mm = 20.0;

/// A dial scatters by a couple of ten-thousandths of an inch either way, and reads to one more.
constexpr double allowed_wander_mm = 0.02;

} // namespace

Result<Done> check_lift_table(const LiftTable& table) {
    const auto& rows = table.rows;
    const auto fail = [&](ErrorCode code, std::size_t row, double value) {
        return Error{code, "lift_table", std::to_string(value), {}, static_cast<int>(row) + 1, {}};
    };
    if (rows.empty()) {
        return Error{ErrorCode::empty_file, "lift_table", {}, {}, {}, {}};
    }
    if (rows.size() < fewest_rows) {
        return Error{ErrorCode::too_few_rows,     "lift_table", std::to_string(rows.size()),
                     std::to_string(fewest_rows), {},           {}};
    }
    for (std::size_t at = 0; at < rows.size(); ++at) {
        if (!std::isfinite(rows[at].lift_mm)) {
            return fail(ErrorCode::not_a_number, at, rows[at].lift_mm);
        }
        if (at > 0 && !(rows[at].cam_deg > rows[at - 1].cam_deg)) {
            return fail(ErrorCode::order_wrong, at, rows[at].cam_deg);
        }
    }
    if (rows.back().cam_deg - rows.front().cam_deg > 360.0) {
        Error error = fail(ErrorCode::out_of_range, rows.size() - 1, rows.back().cam_deg);
        error.limits = Limits{rows.front().cam_deg, rows.front().cam_deg + 360.0, "cam_deg"};
        return error;
    }
    const auto peak =
        std::max_element(rows.begin(), rows.end(),
                         [](const LiftRow& a, const LiftRow& b) { return a.lift_mm < b.lift_mm; });
    const auto peak_at = static_cast<std::size_t>(peak - rows.begin());
    if (!(peak->lift_mm >= least_full_lift_mm && peak->lift_mm <= greatest_full_lift_mm)) {
        Error error = fail(ErrorCode::out_of_range, peak_at, peak->lift_mm);
        error.limits = Limits{least_full_lift_mm, greatest_full_lift_mm, "mm"};
        return error;
    }
    const double zero = std::max(table.resolution_mm, 1e-6);
    for (const std::size_t end : {std::size_t{0}, rows.size() - 1}) {
        if (std::abs(rows[end].lift_mm) > zero) {
            return fail(ErrorCode::not_zero_at_ends, end, rows[end].lift_mm);
        }
    }
    const double wander = std::max(2.0 * table.resolution_mm, allowed_wander_mm);
    double highest = rows.front().lift_mm;
    for (std::size_t at = 1; at <= peak_at; ++at) {
        highest = std::max(highest, rows[at].lift_mm);
        if (rows[at].lift_mm < highest - wander) {
            return fail(ErrorCode::not_single_peak, at, rows[at].lift_mm);
        }
    }
    highest = rows.back().lift_mm;
    for (std::size_t at = rows.size() - 1; at > peak_at; --at) {
        highest = std::max(highest, rows[at].lift_mm);
        if (rows[at].lift_mm < highest - wander) {
            return fail(ErrorCode::not_single_peak, at, rows[at].lift_mm);
        }
    }
    return Done{};
}

} // namespace rodway
