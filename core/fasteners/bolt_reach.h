#pragma once

#include <optional>

#include "core/base/result.h"
#include "core/sheets/reading_interval.h"

namespace rodway {

/// A bolt through a part into a threaded hole. Lengths in mm, as far as readings tell.
struct BoltInHole {
    Interval length_mm;    ///< under the head, 1 to 1000
    Interval washer_mm;    ///< thickness, 0 to 50; 0: none
    Interval stack_mm;     ///< of all it goes through: part, gasket, spacer; 0 to 1000
    double pitch_mm = 0.0; ///< 0.2 to 6
    /// Threaded length of the bolt, from its end, 1 to 1000. Empty: threaded to the head.
    std::optional<Interval> threaded_mm;
    Interval counterbore_mm; ///< of the hole, before its thread begins; 0 to 200
    Interval thread_to_mm;   ///< depth to which full thread goes, from the hole's face; 0 to
                             ///< 500, no less than the counterbore
    /// Depth at which a bolt meets the bottom, for a blind hole; no less than `thread_to_mm`.
    /// Empty: the hole is open, and what is longer than its thread stands out at the other end.
    std::optional<Interval> bottom_mm;
};

enum class Happens {
    no,
    too_close_to_call, ///< the readings' doubt leaves it open
    yes,
};

/// What becomes of the bolt.
struct BoltReach {
    Interval into_hole_mm;    ///< from the hole's face; negative: it doesn't reach
    Interval engaged_mm;      ///< thread in thread, 0 or more
    Interval engaged_threads; ///< the same by the pitch, a plain number
    /// It meets the bottom, or runs out of thread in the hole, before the head clamps.
    Happens bottoms = Happens::no;
    /// Its plain shank meets the thread before the head clamps.
    Happens shank_jams = Happens::no;
    std::optional<Interval> to_bottom_mm; ///< left; negative: too long. Empty: open hole
    /// Beyond the thread of an open hole, into whatever is there (a pushrod hole, a passage,
    /// water); 0 or more. Empty: blind hole.
    std::optional<Interval> sticks_out_mm;
    Happens sticks_out = Happens::no;
};

/// Arithmetic of lengths: length - washer - stack is in the hole; thread engages where bolt and
/// hole both have it. A bolt that bottoms is held there: what it engages is up to the hole's
/// thread. Errors: not_a_number, out_of_range; the fields are the members' names without their
/// unit.
Result<BoltReach> bolt_reach(const BoltInHole& joint);

/// Least engagement in diameters of the bolt: one in steel and iron, one and a half to two in
/// aluminium. Common practice, no source.
constexpr double least_engagement_iron = 1.0;
constexpr double least_engagement_aluminium = 1.5;

} // namespace rodway
