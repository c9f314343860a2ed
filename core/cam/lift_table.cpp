#include "core/cam/lift_table.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <span>
#include <string>

namespace rodway {
namespace {

constexpr std::size_t fewest_rows = 8;
constexpr double least_full_lift_mm = 1.0;
constexpr double greatest_full_lift_mm = 20.0;

/// 0.0002 in: what a careful dial scatters by (common practice, no source).
constexpr double scatter_mm = 0.00508;

/// 0.0012 in: the runout of a sound base circle (0.001 in) and a dial's scatter on top. Also how
/// far a flank may seem to fall back: two rows that scatter by 0.0002 in, at their worst.
constexpr double allowed_wander_mm = 0.0305;

constexpr std::size_t fewest_heel_rows = 4;
constexpr double least_heel_deg = 3.0;

/// A quarter of what the slowest ramps in use rise by (common practice, no source); ten times what
/// a runout of 0.001 in makes.
constexpr double least_ramp_mm_per_deg = 0.00254;

using Rows = std::vector<LiftRow>;

Error fail(ErrorCode code, std::size_t row, double value) {
    return Error{code, "lift_table", std::to_string(value), {}, static_cast<int>(row) + 1, {}};
}

/// The straight line that fits best: its slope, mm per degree, and the slope's doubt (one standard
/// deviation) where each row scatters as a dial does.
struct Slope {
    double mm_per_deg = 0.0;
    double doubt = 0.0;
};
Slope slope(std::span<const LiftRow> rows) {
    double mean_deg = 0.0;
    double mean_mm = 0.0;
    for (const LiftRow& row : rows) {
        mean_deg += row.cam_deg / static_cast<double>(rows.size());
        mean_mm += row.lift_mm / static_cast<double>(rows.size());
    }
    double above = 0.0;
    double below = 0.0;
    for (const LiftRow& row : rows) {
        above += (row.cam_deg - mean_deg) * (row.lift_mm - mean_mm);
        below += (row.cam_deg - mean_deg) * (row.cam_deg - mean_deg);
    }
    return {above / below, scatter_mm / std::sqrt(below)};
}

double median(std::span<const LiftRow> rows) {
    std::vector<double> lifts;
    for (const LiftRow& row : rows) {
        lifts.push_back(row.lift_mm);
    }
    std::sort(lifts.begin(), lifts.end());
    return (lifts[(lifts.size() - 1) / 2] + lifts[lifts.size() / 2]) / 2.0;
}

/// What an end of a table is, seen from outside: `rows` run from that end to the peak, and their
/// angles grow that way.
struct End {
    bool heel = false;
    double zero_mm = 0.0;      ///< reading of the heel
    std::size_t heel_rows = 0; ///< rows that stay within the wander of that reading
};

/// How many rows from the end stay together.
std::size_t level_rows(std::span<const LiftRow> rows, double wander_mm) {
    double low = rows.front().lift_mm;
    double high = low;
    std::size_t count = 0;
    for (const LiftRow& row : rows) {
        low = std::min(low, row.lift_mm);
        high = std::max(high, row.lift_mm);
        if (high - low > wander_mm) {
            break;
        }
        ++count;
    }
    return count;
}

/// Free of any rise that a dial's scatter doesn't explain.
bool is_flat(std::span<const LiftRow> rows) {
    const Slope found = slope(rows);
    return std::abs(found.mm_per_deg) < std::max(least_ramp_mm_per_deg, 3.0 * found.doubt);
}

std::optional<End> read_end(std::span<const LiftRow> rows, double resolution_mm) {
    const double zero = std::max(resolution_mm, scatter_mm);
    const std::size_t level = level_rows(rows, std::max(allowed_wander_mm, 2.0 * resolution_mm));
    // The innermost of the level rows may already be lifted.
    const auto flat = rows.first(level > fewest_heel_rows ? level - 1 : level);
    const double level_deg = rows[level - 1].cam_deg - rows.front().cam_deg;
    if (level >= fewest_heel_rows && level_deg > least_heel_deg - 1e-6 && is_flat(flat)) {
        const double reading = median(flat);
        return End{true, std::abs(reading) <= zero ? 0.0 : reading, level};
    }
    if (std::abs(rows.front().lift_mm) <= zero) {
        return End{true, 0.0, level};
    }
    const bool rises = rows.size() >= fewest_heel_rows && rows[1].lift_mm > rows[0].lift_mm &&
                       slope(rows.first(fewest_heel_rows)).mm_per_deg >= least_ramp_mm_per_deg;
    const double first = rows.front().lift_mm;
    if (rises && first > 0.0 && first <= greatest_cut_lift_mm) {
        return End{};
    }
    // A heel of a row or two, by its scatter.
    if (std::abs(first) <= std::max(zero, allowed_wander_mm)) {
        return End{true, 0.0, level};
    }
    return std::nullopt;
}

/// The heel's innermost row: from where the lobe clearly stands off it, back down as long as it
/// falls.
std::size_t innermost_heel_row(std::span<const LiftRow> rows, double zero_mm,
                               double resolution_mm) {
    const double about_zero = std::max(resolution_mm, scatter_mm);
    std::size_t at = rows.size() - 1;
    while (at > 0 && rows[at - 1].lift_mm - zero_mm > allowed_wander_mm) {
        --at;
    }
    const auto falls = [&](const LiftRow& outer, const LiftRow& inner) {
        // Half the slowest ramp: more than runout does.
        return inner.lift_mm - outer.lift_mm >
               least_ramp_mm_per_deg / 2.0 * (inner.cam_deg - outer.cam_deg);
    };
    while (at > 0 && rows[at].lift_mm - zero_mm > about_zero && falls(rows[at - 1], rows[at])) {
        --at;
    }
    // One row further, where there is one: what reads 'about zero' may be the ramp's first breath.
    return at > 0 ? at - 1 : 0;
}

Result<std::size_t> peak_row(const LiftTable& table, double zero_mm) {
    const Rows& rows = table.rows;
    const auto peak =
        std::max_element(rows.begin(), rows.end(),
                         [](const LiftRow& a, const LiftRow& b) { return a.lift_mm < b.lift_mm; });
    const auto at = static_cast<std::size_t>(peak - rows.begin());
    const double lift = peak->lift_mm - zero_mm;
    if (!(lift >= least_full_lift_mm && lift <= greatest_full_lift_mm)) {
        Error error = fail(ErrorCode::out_of_range, at, lift);
        error.limits = Limits{least_full_lift_mm, greatest_full_lift_mm, "mm"};
        return error;
    }
    return at;
}

Result<Done> check_rows(const Rows& rows) {
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
        if (!std::isfinite(rows[at].cam_deg) ||
            (at > 0 && !(rows[at].cam_deg > rows[at - 1].cam_deg))) {
            return fail(ErrorCode::order_wrong, at, rows[at].cam_deg);
        }
    }
    if (rows.back().cam_deg - rows.front().cam_deg > 360.0) {
        Error error = fail(ErrorCode::out_of_range, rows.size() - 1, rows.back().cam_deg);
        error.limits = Limits{rows.front().cam_deg, rows.front().cam_deg + 360.0, "cam_deg"};
        return error;
    }
    return Done{};
}

/// The first row on the way from the heel to the peak that falls back, if any.
std::optional<std::size_t> falls_back(std::span<const LiftRow> rows, std::size_t from,
                                      double wander_mm) {
    double highest = rows[from].lift_mm;
    for (std::size_t at = from; at < rows.size(); ++at) {
        highest = std::max(highest, rows[at].lift_mm);
        if (rows[at].lift_mm < highest - wander_mm) {
            return at;
        }
    }
    return std::nullopt;
}

/// The rows from the table's last to its peak, seen from the end.
Rows mirrored(const Rows& rows, std::size_t peak) {
    Rows turned;
    for (std::size_t at = rows.size(); at-- > peak;) {
        turned.push_back({-rows[at].cam_deg, rows[at].lift_mm});
    }
    return turned;
}

} // namespace

Result<LiftTableEnds> read_lift_table_ends(const LiftTable& table) {
    const Rows& rows = table.rows;
    if (const auto checked = check_rows(rows); !checked) {
        return checked.error();
    }
    const double resolution = std::isfinite(table.resolution_mm) ? table.resolution_mm : 0.0;
    const auto about_peak = static_cast<std::size_t>(
        std::max_element(rows.begin(), rows.end(),
                         [](const LiftRow& a, const LiftRow& b) { return a.lift_mm < b.lift_mm; }) -
        rows.begin());
    const std::size_t last = rows.size() - 1;
    const Rows closing_rows = mirrored(rows, about_peak);
    const auto rising = std::span(rows).first(about_peak + 1);
    const auto opening = read_end(rising, resolution);
    const auto closing = read_end(closing_rows, resolution);

    // A table of the wrong thing is told by its height before its ends are looked at.
    const double zero = opening && opening->heel   ? opening->zero_mm
                        : closing && closing->heel ? closing->zero_mm
                                                   : 0.0;
    if (const auto peak = peak_row(table, zero); !peak) {
        return peak.error();
    }
    if (!opening) {
        return fail(ErrorCode::not_zero_at_ends, 0, rows.front().lift_mm);
    }
    if (!closing) {
        return fail(ErrorCode::not_zero_at_ends, last, rows.back().lift_mm);
    }
    LiftTableEnds ends;
    ends.opening_ramp_measured = opening->heel;
    ends.closing_ramp_measured = closing->heel;
    ends.zero_shift_mm = zero;
    if (opening->heel && closing->heel) {
        const double apart = closing->zero_mm - opening->zero_mm;
        if (std::abs(apart) > allowed_wander_mm) {
            const bool opening_is_off = std::abs(opening->zero_mm) > std::abs(closing->zero_mm);
            const std::size_t row = opening_is_off ? 0 : last;
            return fail(ErrorCode::not_zero_at_ends, row, rows[row].lift_mm);
        }
        // Each end counts by its rows: two rows that are zero by chance don't outweigh a heel.
        const auto a = static_cast<double>(opening->heel_rows);
        const auto b = static_cast<double>(closing->heel_rows);
        ends.zero_shift_mm = opening->zero_mm + apart * b / (a + b);
    }
    ends.opening_row =
        opening->heel ? innermost_heel_row(rising, ends.zero_shift_mm, resolution) : 0;
    const std::size_t closing_row =
        closing->heel ? innermost_heel_row(closing_rows, ends.zero_shift_mm, resolution) : 0;
    ends.closing_row = last - closing_row;

    const double wander = std::max(2.0 * resolution, allowed_wander_mm);
    if (const auto at = falls_back(rising, ends.opening_row, wander)) {
        return fail(ErrorCode::not_single_peak, *at, rows[*at].lift_mm);
    }
    if (const auto at = falls_back(closing_rows, closing_row, wander)) {
        return fail(ErrorCode::not_single_peak, last - *at, rows[last - *at].lift_mm);
    }
    std::vector<double> heel;
    for (std::size_t at = 0; at < rows.size(); ++at) {
        if ((opening->heel && at <= ends.opening_row) ||
            (closing->heel && at >= ends.closing_row)) {
            heel.push_back(rows[at].lift_mm);
        }
    }
    if (!heel.empty()) {
        const auto [low, high] = std::minmax_element(heel.begin(), heel.end());
        ends.heel_wander_mm = *high - *low;
    }
    return ends;
}

Result<Done> check_lift_table(const LiftTable& table) {
    if (const auto ends = read_lift_table_ends(table); !ends) {
        return ends.error();
    }
    return Done{};
}

} // namespace rodway
