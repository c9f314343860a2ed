#include "core/clearance/rod_removal.h"

#include <algorithm>
#include <limits>

#include "core/clearance/rod_clearance.h"

namespace rodway {
namespace {

/// Something of the rod between two stations, mm from the lower ball's centre.
struct Outside {
    RodPart part;
    double from_mm;
    double diameter_mm;
};

std::vector<Outside> outsides(const Pushrod& rod, double below_mm) {
    std::vector<Outside> all;
    for (const RoundSection& section : rod_sections(rod)) {
        // Of a taper, what is below counts up to where it ends.
        const double to = std::min(section.to_mm, std::max(section.from_mm, below_mm));
        all.push_back({RodPart::body, section.from_mm,
                       2.0 * std::max(section.radius_from_mm, section.radius_at(to))});
    }
    if (rod.lower_ball_diameter_mm) {
        all.push_back({RodPart::lower_ball, 0.0, *rod.lower_ball_diameter_mm});
    }
    if (rod.cup_at_top && rod.cup_outside_mm) {
        all.push_back({RodPart::cup, rod.length_mm, *rod.cup_outside_mm});
    } else if (rod.upper_ball_diameter_mm) {
        all.push_back({rod.cup_at_top ? RodPart::cup : RodPart::upper_ball, rod.length_mm,
                       *rod.upper_ball_diameter_mm});
    }
    return all;
}

/// The thickest of what begins below a station.
Outside thickest_below(const Pushrod& rod, double below_mm) {
    Outside thickest{RodPart::body, 0.0, 0.0};
    for (const Outside& outside : outsides(rod, below_mm)) {
        if (outside.from_mm < below_mm && outside.diameter_mm > thickest.diameter_mm) {
            thickest = outside;
        }
    }
    return thickest;
}

PassageRoom room_in(const Passage& passage, const Train& train) {
    const Bore& bore = passage.bore;
    // The rod stands on the heel from the lower ball towards the upper ball as found.
    const Vec3 lower_K = train.lifter.lower_ball_K();
    const Vec3 along = (train.rocker.pivot_K + train.rocker.ball_arm_K - lower_K).normalized();
    const double upper_end = (bore.centre_K - lower_K).dot(bore.axis_K) + bore.length_mm / 2.0;
    const double rises = along.dot(bore.axis_K);
    const double whole = std::numeric_limits<double>::infinity();
    const double below = rises > 0.0 ? upper_end / rises : whole;
    const Outside thickest = thickest_below(train.rod, whole);
    const Outside lower = thickest_below(train.rod, below);
    const double width = 2.0 * bore.bore_radius_mm;
    return {passage.name, width - thickest.diameter_mm, thickest.part, width - lower.diameter_mm,
            lower.part};
}

} // namespace

RodRemoval rod_removal(const Train& train) {
    RodRemoval removal;
    removal.cup_outside_unknown = train.rod.cup_at_top && !train.rod.cup_outside_mm;
    removal.passages.push_back(room_in(train.tube, train));
    for (const Passage& passage : train.further_passages) {
        removal.passages.push_back(room_in(passage, train));
    }
    removal.comes_out = std::all_of(removal.passages.begin(), removal.passages.end(),
                                    [](const PassageRoom& room) { return room.drawn_up_mm > 0.0; });
    return removal;
}

} // namespace rodway
