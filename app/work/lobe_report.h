#pragma once

#include <optional>
#include <vector>

#include "core/cam/flat_follower.h"
#include "core/cam/roller_follower.h"
#include "core/engine/engine.h"

namespace rodway {

/// Where a lobe's curve comes from.
enum class LobeSource {
    table, ///< measured, and smoothed
    card,  ///< made from the numbers of a cam card: an estimate
    law,   ///< an exact law of motion
};

/// The fastest and sharpest places of a lobe: mm by powers of a radian of cam.
struct LobePeaks {
    AtCamAngle opening_velocity; ///< ≥ 0
    AtCamAngle closing_velocity; ///< ≥ 0, how fast it falls
    AtCamAngle greatest_acceleration;
    AtCamAngle least_acceleration; ///< below zero: over the nose
    AtCamAngle greatest_jerk;      ///< whichever way, ≥ 0
};
[[nodiscard]] LobePeaks lobe_peaks(const Lobe& lobe);

/// Lifters of one kind and size on a lobe.
struct LobeFollower {
    FollowerKind kind = FollowerKind::flat;
    std::optional<double> face_diameter_mm; ///< flat; nothing if it isn't in the set-up
    std::optional<double> roller_radius_mm; ///< roller; nothing if it isn't in the set-up
    std::vector<ValvePosition> valves;
    std::optional<FlatFaceSurvey> flat;
    std::optional<RollerSurvey> roller; ///< nothing if the radius isn't known
};

/// One lobe, and the lifters that ride on its like.
struct LobeReport {
    LobeSource source = LobeSource::table;
    const CamLobes* lobes = nullptr;
    std::vector<ValvePosition> valves; ///< worked by such a lobe
    LobePeaks peaks;
    std::vector<LobeFollower> followers;
    std::vector<ValvePosition> without_train; ///< their lifters aren't known
};

/// `valves` are those that `lobes`, of that engine, work; the engine must outlive the report.
/// Errors: those of the two surveys.
Result<LobeReport> lobe_report(const Engine& engine, const CamLobes& lobes,
                               std::vector<ValvePosition> valves);

} // namespace rodway
