#pragma once

#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/sheets/reading_interval.h"

namespace rodway {

/// One size in a chain of sizes that add up.
struct StackTerm {
    Interval size_mm;
    bool taken_off = false; ///< subtracted
};

/// What a chain of sizes comes to.
struct SizeStack {
    Interval worst_mm; ///< every size at its worst end
    /// Half-widths combined by squares: how far it is likely to be, if the sizes know nothing of
    /// each other.
    Interval likely_mm;
};

/// Worst case and root sum of squares (Shigley, chapter 1; JCGM 100:2008, 5.1.2).
/// Errors, field "term", `line` counted from 1: too_few_rows (none), not_a_number, out_of_range
/// (±10 000 mm, or ends out of order).
Result<SizeStack> stack_of(const std::vector<StackTerm>& terms);

/// A sum that somebody has written under a column of sizes, beside what they add up to.
struct StatedSum {
    Interval sum_mm;                ///< by the terms, at their worst
    double stated_more_by_mm = 0.0; ///< stated less the sum's middle
    bool contradicts = false;       ///< further apart than the steps of the numbers explain
    /// What each term would have to be for the stated sum to be true, the others as they are, mm:
    /// one that looks like the term with a digit slipped is the mistake.
    std::vector<double> would_have_to_be_mm;
};

/// Errors: those of `stack_of`; not_a_number, out_of_range, field "stated".
Result<StatedSum> compare_with_stated(const std::vector<StackTerm>& terms,
                                      const Interval& stated_mm);

} // namespace rodway
