#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "core/clearance/rod_clearance.h"

namespace rodway {

/// One thing that a rod or a lifter's body may touch, where it stands. Bank frame K of the train,
/// whichever bank it belongs to; a rocker's body: from its pivot, on the heel.
struct Feature {
    FeatureKind kind = FeatureKind::port_tube;
    std::string name;
    std::variant<Bore, Solid> shape;
};

/// A lifter's body on the heel: the union of balls of its radius along its axis from foot to rim,
/// which contains it.
struct LifterBody {
    Vec3 foot_K = Vec3::Zero();
    double length_mm = 0.0;
    double radius_mm = 0.0;
};

/// One moved part against one feature, by its index.
struct TouchPair {
    std::size_t feature = 0;
    MovedPart part = MovedPart::rod;
};

/// A train that closes, its rod, and everything that the rod or the lifter's body may touch.
struct TrainSurroundings {
    Linkage linkage;
    RoundSections rod; ///< from ball to ball, without gaps
    double full_lift_mm = 0.0;
    double outboard_y_sign = 1.0;
    std::vector<Feature> features; ///< the port tube first
    std::optional<LifterBody> lifter_body;

    /// The rod against every feature, then the lifter's body against every obstacle.
    [[nodiscard]] std::vector<TouchPair> pairs() const;
    [[nodiscard]] RodPair rod_pair(const Feature& feature) const;
};

/// The surroundings of one train as the engine stands, or why there are none.
struct ClosedSurroundings {
    TrainStatus status = TrainStatus::answered;
    std::optional<double> adjuster_needed_mm; ///< where the thread is the trouble
    std::optional<TrainSurroundings> surroundings;
};
/// Error: banks_parallel.
[[nodiscard]] Result<ClosedSurroundings> train_surroundings(const Engine& engine,
                                                            const Train& train);

/// Clearance of one pair at one lobe lift. Empty if the train doesn't close there, or the rod's
/// axis doesn't go through the passage, or a size is no number.
[[nodiscard]] std::optional<RodClearance> pair_clearance_at(const TrainSurroundings& surroundings,
                                                            const TouchPair& pair,
                                                            double lobe_lift_mm);

/// The least of all pairs at one lobe lift; empty if one of them has none.
[[nodiscard]] std::optional<RodClearance> least_clearance_at(const TrainSurroundings& surroundings,
                                                             double lobe_lift_mm);

} // namespace rodway
