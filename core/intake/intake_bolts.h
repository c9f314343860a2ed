#pragma once

#include <optional>

#include "core/base/result.h"
#include "core/units/interval.h"

namespace rodway {

/// One intake bolt and its hole, by plain lengths along the bolt, mm. Where a rod stands against a
/// bolt's end in space is the clearance survey's business.
struct IntakeBolt {
    Interval under_head_mm; ///< length from under its head to its end, 5 to 300
    Interval grip_mm;       ///< washer, flange and gasket between head of the bolt and the casting
    Interval threaded_mm;   ///< depth of good thread in the casting from its face, 0 to 200
    std::optional<Interval> hole_bottom_mm; ///< of a blind hole, from the face, 0 to 200
    /// From the face to where the hole breaks into a rod's passage, or to the rod itself where it
    /// runs across the hole, 0 to 200.
    std::optional<Interval> passage_mm;
};

enum class BoltEnd {
    clear,
    in_passage, ///< its end stands in the rod's passage
    undecided,
    not_known, ///< nobody said how far the passage is
};

struct IntakeBoltReach {
    Interval into_casting_mm;              ///< negative: it doesn't reach the casting
    Interval engaged_mm;                   ///< thread in thread, not below 0
    std::optional<Interval> to_bottom_mm;  ///< negative: it bottoms before it clamps
    std::optional<Interval> to_passage_mm; ///< negative: so much of it stands in the passage
    BoltEnd end = BoltEnd::not_known;
    /// The longest bolt that leaves `wanted` before the passage, and bottoms nowhere; empty if
    /// neither passage nor bottom is known.
    std::optional<double> longest_mm;
};

/// `wanted_mm`: what is to be left before a passage, 0 to 50. Errors: out_of_range, not_a_number,
/// order_wrong ("under_head", "grip", 0 to 200; "threaded", "hole_bottom", "passage", "wanted").
Result<IntakeBoltReach> intake_bolt_reach(const IntakeBolt& bolt, double wanted_mm);

} // namespace rodway
