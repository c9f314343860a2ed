#pragma once

#include <optional>

#include "core/base/result.h"
#include "core/units/interval.h"

namespace rodway {

/// Pressure held in or round a tube, and what became of it. Over the air's own, 0 to 1000 kPa.
struct LeakTest {
    Interval start_kPa;
    Interval end_kPa;
    Interval minutes; ///< above 0, up to 1440
};

enum class LeakFinding { held, leaked, undecided };

struct LeakRate {
    Interval lost_kPa; ///< below zero: it rose, as it does when it warms
    Interval lost_kPa_per_min;
    LeakFinding finding = LeakFinding::undecided;
};

/// `allowed_kPa_per_min`: 0 to 100; a loss up to it counts as held. Errors: out_of_range,
/// not_a_number, order_wrong ("start", "end", "minutes", "allowed").
Result<LeakRate> leak_rate(const LeakTest& test, double allowed_kPa_per_min);

/// What two tests of one tube say together: before it was relieved, and after.
enum class TubeLeakFinding {
    held,                  ///< after, whatever came before
    leaked_from_the_start, ///< before and after
    leaks_since_relief,    ///< held before
    leaks_nothing_before,  ///< leaks now; nobody tested before, or that left it open
    not_tested_after,      ///< the relief may have opened it
    undecided,             ///< the test after left it open
};
[[nodiscard]] TubeLeakFinding tube_leak(const std::optional<LeakRate>& before_relief,
                                        const std::optional<LeakRate>& after_relief);

} // namespace rodway
