#pragma once

#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/fasteners/bolt_stretch.h"
#include "core/sheets/reading_interval.h"
#include "core/units/figure_band.h"

namespace rodway {

/// A bolt as it lies on the bench, before it goes in. What wasn't looked at is empty.
struct BoltCondition {
    int bolt = 0;
    std::optional<bool> reused;            ///< was in an engine before
    std::optional<Interval> shank_mm;      ///< diameter where it isn't worn or stretched
    std::optional<Interval> narrowest_mm;  ///< where it is thinnest, shank or threads alike
    std::optional<Interval> new_length_mm; ///< free length when new
    std::optional<Interval> length_now_mm; ///< free length now
};

/// What a bolt may look like. .002 in of necking is common practice, no source; the maker's figure
/// rules.
struct BoltRules {
    bool single_use = false; ///< tightened beyond yield: never a second time
    double most_necking_mm = 0.0508;
    FigureSource necking_source = FigureSource::common_practice;
    SetLimit set;
};

enum class BoltFault {
    necked,        ///< refused
    may_be_necked, ///< the readings' doubt leaves it open
    stretched,     ///< stayed longer than it was new by more than it may: refused
    may_be_stretched,
    shorter_than_new, ///< another bolt, or a wrong reading
    used_twice,       ///< a bolt of one use that was in an engine before: refused
    reuse_unknown,    ///< a bolt of one use, and nobody has said whether it is new
};

struct BoltStanding {
    int bolt = 0;
    bool refused = false;
    std::vector<BoltFault> faults;
    std::optional<Interval> necking_mm; ///< empty: not measured
    std::optional<PermanentSet> set;    ///< empty: not measured
};

/// Judges a bolt by what was measured; what wasn't is no fault and no pass.
/// Errors: not_a_number, out_of_range; fields "shank", "narrowest" (1 to 60 mm), "necking" (the
/// limit, 0 to 5 mm), and those of `permanent_set`.
Result<BoltStanding> judge_bolt(const BoltCondition& condition, const BoltRules& rules);

} // namespace rodway
