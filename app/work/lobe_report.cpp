#include "app/work/lobe_report.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace rodway {
namespace {

AtCamAngle greatest_over_lobe(const Lobe& lobe, double (*value)(const LobeMotion&)) {
    AtCamAngle found = least_over_lobe(lobe, [=](const LobeMotion& here) { return -value(here); });
    found.value = -found.value;
    return found;
}

AtCamAngle not_below_zero(AtCamAngle found) {
    found.value = std::max(0.0, found.value);
    return found;
}

LobeSource source_of(const Lobe& lobe) {
    if (lobe.estimated()) {
        return LobeSource::card;
    }
    return lobe.smoothing() ? LobeSource::table : LobeSource::law;
}

/// The lifters of a lobe's valves, like with like.
std::vector<LobeFollower> followers_of(const Engine& engine, LobeReport& report) {
    std::vector<LobeFollower> followers;
    for (const ValvePosition& valve : report.valves) {
        const Train* train = engine.train(valve);
        if (!train) {
            report.without_train.push_back(valve);
            continue;
        }
        LobeFollower follower;
        follower.kind = train->lifter.follower;
        (follower.kind == FollowerKind::flat ? follower.face_diameter_mm
                                             : follower.roller_radius_mm) =
            follower.kind == FollowerKind::flat ? train->lifter.face_diameter_mm
                                                : train->lifter.roller_radius_mm;
        const auto like =
            std::find_if(followers.begin(), followers.end(), [&](const LobeFollower& other) {
                return other.kind == follower.kind &&
                       other.face_diameter_mm == follower.face_diameter_mm &&
                       other.roller_radius_mm == follower.roller_radius_mm;
            });
        LobeFollower& taken =
            like == followers.end() ? followers.emplace_back(std::move(follower)) : *like;
        taken.valves.push_back(valve);
    }
    return followers;
}

} // namespace

LobePeaks lobe_peaks(const Lobe& lobe) {
    LobePeaks peaks;
    const auto velocity = [](const LobeMotion& here) { return here.velocity; };
    const auto falling = [](const LobeMotion& here) { return -here.velocity; };
    const auto acceleration = [](const LobeMotion& here) { return here.acceleration; };
    peaks.opening_velocity = not_below_zero(greatest_over_lobe(lobe, velocity));
    peaks.closing_velocity = not_below_zero(greatest_over_lobe(lobe, falling));
    peaks.greatest_acceleration = greatest_over_lobe(lobe, acceleration);
    peaks.least_acceleration = least_over_lobe(lobe, acceleration);
    peaks.greatest_jerk =
        greatest_over_lobe(lobe, [](const LobeMotion& here) { return std::abs(here.jerk); });
    return peaks;
}

Result<LobeReport> lobe_report(const Engine& engine, const CamLobes& lobes,
                               std::vector<ValvePosition> valves) {
    LobeReport report;
    report.source = source_of(lobes.lobe);
    report.lobes = &lobes;
    report.valves = std::move(valves);
    report.peaks = lobe_peaks(lobes.lobe);
    report.followers = followers_of(engine, report);
    for (LobeFollower& follower : report.followers) {
        if (follower.kind == FollowerKind::flat) {
            const auto survey = survey_flat_face(lobes.lobe, lobes.base_circle_radius_mm);
            if (!survey) {
                return survey.error();
            }
            follower.flat = *survey;
        } else if (follower.roller_radius_mm) {
            const auto survey =
                survey_roller(lobes.lobe, lobes.base_circle_radius_mm, *follower.roller_radius_mm);
            if (!survey) {
                return survey.error();
            }
            follower.roller = *survey;
        }
    }
    return report;
}

} // namespace rodway
