#pragma once

#include <cstddef>

#include "core/engine/valve_position.h"
#include "core/geometry/tube.h"

namespace rodway {

/// All points and axes of a train: millimetres, bank frame K, on the heel with the lash set.
/// Axes are unit vectors.

/// A solid lifter. `foot_K` is where its axis meets its face; the rod's lower ball sits
/// `seat_height_mm` above that, along `axis_K`, which points the way the lifter rises.
struct Lifter {
    Vec3 foot_K = Vec3::Zero();
    Vec3 axis_K = Vec3::UnitZ();
    double seat_height_mm = 0.0;

    [[nodiscard]] Vec3 lower_ball_K() const { return foot_K + seat_height_mm * axis_K; }
};

/// A straight rod of one diameter.
struct Pushrod {
    double length_mm = 0.0; ///< between ball centres
    double diameter_mm = 0.0;
};

/// A rocker that turns on a shaft.
struct Rocker {
    Vec3 pivot_K = Vec3::Zero();
    Vec3 axis_K = Vec3::UnitX();    ///< of the shaft
    Vec3 ball_arm_K = Vec3::Zero(); ///< pivot to the rod's upper ball, adjuster as found
    Vec3 tip_arm_K = Vec3::Zero(); ///< pivot to the centre of the roller, or of the pad's curvature
};

/// The screw in the rocker. Turned in, it moves the upper ball along `axis_K`, towards the rod.
struct Adjuster {
    Vec3 axis_K = -Vec3::UnitZ();
    double can_go_in_mm = 0.0;  ///< thread left towards the rod
    double can_go_out_mm = 0.0; ///< thread left away from it
};

/// Which casting a tube moves with.
enum class TubeCasting { head, intake };

struct PortTube {
    TubeCasting casting = TubeCasting::intake;
    RoundTube bore;
};

/// Everything between one lobe and one valve.
struct Train {
    ValvePosition position;
    std::size_t bank = 0;
    Lifter lifter;
    Pushrod rod;
    Rocker rocker;
    Adjuster adjuster;
    Vec3 valve_axis_K = Vec3::UnitZ(); ///< from head to tip
    double lash_mm = 0.0;              ///< gap at the valve on the heel
    PortTube tube;
};

} // namespace rodway
