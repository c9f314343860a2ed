#include "core/intake/intake_bolts.h"

#include <algorithm>

namespace rodway {
namespace {

BoltEnd end_of(const std::optional<Interval>& to_passage_mm) {
    if (!to_passage_mm) {
        return BoltEnd::not_known;
    }
    if (to_passage_mm->low >= 0.0) {
        return BoltEnd::clear;
    }
    return to_passage_mm->high < 0.0 ? BoltEnd::in_passage : BoltEnd::undecided;
}

} // namespace

Result<IntakeBoltReach> intake_bolt_reach(const IntakeBolt& bolt, double wanted_mm) {
    const Limits depths{0.0, 200.0, "mm"};
    const Interval good = Interval::exactly(0.0);
    if (const auto bad =
            first_outside({{"under_head", bolt.under_head_mm, {5.0, 300.0, "mm"}},
                           {"grip", bolt.grip_mm, depths},
                           {"threaded", bolt.threaded_mm, depths},
                           {"hole_bottom", bolt.hole_bottom_mm.value_or(good), depths},
                           {"passage", bolt.passage_mm.value_or(good), depths},
                           {"wanted", Interval::exactly(wanted_mm), {0.0, 50.0, "mm"}}})) {
        return *bad;
    }
    IntakeBoltReach reach;
    reach.into_casting_mm = bolt.under_head_mm - bolt.grip_mm;
    reach.engaged_mm = not_below_zero(least_of({reach.into_casting_mm, bolt.threaded_mm}));
    // At the worst of the doubts: a bolt is bought, not measured twice.
    if (bolt.hole_bottom_mm) {
        reach.to_bottom_mm = *bolt.hole_bottom_mm - reach.into_casting_mm;
        reach.longest_mm = bolt.grip_mm.low + bolt.hole_bottom_mm->low;
    }
    if (bolt.passage_mm) {
        reach.to_passage_mm = *bolt.passage_mm - reach.into_casting_mm;
        const double longest_mm = bolt.grip_mm.low + bolt.passage_mm->low - wanted_mm;
        reach.longest_mm = std::min(reach.longest_mm.value_or(longest_mm), longest_mm);
    }
    reach.end = end_of(reach.to_passage_mm);
    return reach;
}

} // namespace rodway
