#include "core/fasteners/bolt_reach.h"

#include <algorithm>

#include "core/units/within.h"

namespace rodway {
namespace {

/// Sums of lengths typed in inches don't come out even.
constexpr double rounding_mm = 1e-6;

std::optional<Error> wrong_joint(const BoltInHole& joint) {
    struct Part {
        const char* field;
        const Interval* size_mm;
        double least_mm;
        double most_mm;
    };
    const Part parts[] = {
        {"length", &joint.length_mm, 1.0, 1000.0},
        {"washer", &joint.washer_mm, 0.0, 50.0},
        {"stack", &joint.stack_mm, 0.0, 1000.0},
        {"threaded", joint.threaded_mm ? &*joint.threaded_mm : nullptr, 1.0, 1000.0},
        {"counterbore", &joint.counterbore_mm, 0.0, 200.0},
        {"thread_to", &joint.thread_to_mm, joint.counterbore_mm.low, 500.0},
        {"bottom", joint.bottom_mm ? &*joint.bottom_mm : nullptr, joint.thread_to_mm.low, 1000.0},
    };
    for (const Part& part : parts) {
        if (!part.size_mm) {
            continue;
        }
        if (auto bad =
                wrong_interval(part.field, *part.size_mm, {part.least_mm, part.most_mm, "mm"})) {
            return bad;
        }
    }
    return outside("pitch", joint.pitch_mm, {0.2, 6.0, "mm"});
}

/// Whether something longer than 0 happens.
Happens happens(const Interval& over_mm) {
    return over_mm.low > rounding_mm    ? Happens::yes
           : over_mm.high > rounding_mm ? Happens::too_close_to_call
                                        : Happens::no;
}

Interval no_less_than_nothing(const Interval& length_mm) {
    return {std::max(0.0, length_mm.low), std::max(0.0, length_mm.high)};
}

/// From where both have thread to where either ends. Over how far the bolt reaches this rises, is
/// level and falls again (as its plain shank comes in), so it is least at an end and greatest on
/// the level.
Interval engaged(const BoltInHole& joint, const Interval& into_mm) {
    constexpr double to_the_head_mm = 1e6;
    const auto threaded_mm = joint.threaded_mm.value_or(Interval::exactly(to_the_head_mm));
    const auto least_mm = [&](double into) {
        const double from = std::max(joint.counterbore_mm.high, into - threaded_mm.low);
        return std::max(0.0, std::min(into, joint.thread_to_mm.low) - from);
    };
    const auto most_mm = [&](double into) {
        const double from = std::max(joint.counterbore_mm.low, into - threaded_mm.high);
        return std::max(0.0, std::min(into, joint.thread_to_mm.high) - from);
    };
    const double level_mm =
        std::min(joint.thread_to_mm.high, threaded_mm.high + joint.counterbore_mm.low);
    return {std::min(least_mm(into_mm.low), least_mm(into_mm.high)),
            most_mm(std::clamp(level_mm, into_mm.low, into_mm.high))};
}

} // namespace

Result<BoltReach> bolt_reach(const BoltInHole& joint) {
    if (const auto bad = wrong_joint(joint)) {
        return *bad;
    }
    BoltReach reach;
    reach.into_hole_mm = joint.length_mm - joint.washer_mm - joint.stack_mm;
    reach.engaged_mm = engaged(joint, reach.into_hole_mm);
    reach.engaged_threads = reach.engaged_mm * (1.0 / joint.pitch_mm);
    if (joint.threaded_mm) {
        // The shank's end may go into the counterbore, no further.
        reach.shank_jams = happens(reach.into_hole_mm - *joint.threaded_mm - joint.counterbore_mm);
    }
    const Interval beyond_thread_mm = reach.into_hole_mm - joint.thread_to_mm;
    if (joint.bottom_mm) {
        reach.to_bottom_mm = *joint.bottom_mm - reach.into_hole_mm;
        // A full-sized bolt can't pass the end of the thread, whatever the drill left below.
        reach.bottoms = happens(beyond_thread_mm);
    } else {
        reach.sticks_out_mm = no_less_than_nothing(beyond_thread_mm);
        reach.sticks_out = happens(beyond_thread_mm);
    }
    return reach;
}

} // namespace rodway
