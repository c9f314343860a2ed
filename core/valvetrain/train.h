#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "core/castings/obstacle.h"
#include "core/castings/passage.h"
#include "core/engine/valve_position.h"

namespace rodway {

/// All points and axes of a train: millimetres, bank frame K, on the heel with the lash set.
/// Axes are unit vectors.

enum class LifterKind {
    solid,     ///< runs with lash
    hydraulic, ///< its plunger stands `preload_mm` below its stop, and there is no lash
};

enum class FollowerKind { flat, roller };

/// What rides on the lobe. `foot_K` is where the lifter's axis meets its face (or the roller's
/// lowest point); the rod's lower ball sits `seat_height_mm` above that along `axis_K`, which
/// points the way the lifter rises. A hydraulic lifter's seat height is taken with its plunger up
/// against its stop.
struct Lifter {
    Vec3 foot_K = Vec3::Zero();
    Vec3 axis_K = Vec3::UnitZ();
    double seat_height_mm = 0.0;
    LifterKind kind = LifterKind::solid;
    double preload_mm = 0.0;        ///< hydraulic: how far the plunger is to stand below its stop
    double plunger_travel_mm = 0.0; ///< hydraulic: from the stop to the bottom
    FollowerKind follower = FollowerKind::flat;
    std::optional<double> face_diameter_mm; ///< flat
    std::optional<double> roller_radius_mm; ///< roller
    std::optional<double> body_diameter_mm;
    std::optional<double> body_length_mm; ///< from the foot to its upper rim

    /// Lower ball on the heel, plunger where it is to stand.
    [[nodiscard]] Vec3 lower_ball_K() const {
        return foot_K + (seat_height_mm - preload_mm) * axis_K;
    }
};

/// One length of a rod over which its diameter runs evenly from one value to another: straight,
/// a taper, or, with the next section's start, a step. Counted from the lower ball's centre.
struct RodSection {
    double from_mm = 0.0;
    double to_mm = 0.0;
    double diameter_from_mm = 0.0;
    double diameter_to_mm = 0.0;
};

struct Pushrod {
    double length_mm = 0.0;   ///< between ball centres
    double diameter_mm = 0.0; ///< the greatest along it
    /// Empty: straight, `diameter_mm` all along.
    std::vector<RodSection> profile;
    std::optional<double> lower_ball_diameter_mm;
    std::optional<double> upper_ball_diameter_mm; ///< of the adjuster's ball if the rod has a cup
    bool cup_at_top = false;                      ///< the ball is the adjuster's, the cup the rod's
    std::optional<double> cup_depth_mm;           ///< of the cup, from its lip to its bottom
    std::optional<double> cup_outside_mm;         ///< of the cup, where it is widest
    std::optional<double> gauge_hole_mm;          ///< of the gauges with which it is measured
};

enum class RockerMount {
    shaft,      ///< turns about `axis_K`
    stud,       ///< trunnion on a stud: turns about `axis_K`; a nut moves it along the stud
    ball_pivot, ///< sits on a half ball, and has no axis of its own: see `Guide`
};

/// What keeps a ball-pivot rocker in line; it swings square to the stud and to what is guided.
enum class Guide {
    shaft,       ///< shaft or trunnion: nothing else is needed
    guide_plate, ///< the rod is held in a slot: the ball arm's end
    tip_rails,   ///< rails embrace the valve's tip: the tip arm's end
};

struct Rocker {
    RockerMount mount = RockerMount::shaft;
    Guide guide = Guide::shaft;
    std::string shaft; ///< which shaft it sits on; by default all of a bank sit on one
    Vec3 pivot_K = Vec3::Zero();
    Vec3 axis_K = Vec3::UnitX();    ///< about which it turns
    Vec3 ball_arm_K = Vec3::Zero(); ///< pivot to the rod's upper ball, adjuster as found
    Vec3 tip_arm_K = Vec3::Zero();  ///< pivot to the centre of the roller, or of the pad's curve
    double end_float_mm = 0.0;      ///< along the shaft, from one side to the other
    /// The ball arm's body as something the rod may touch, on the heel; it turns with the rocker.
    std::optional<Capsule> body_K;
};

enum class AdjusterKind {
    screw, ///< in the rocker: turned in, it moves the upper ball along `axis_K`, towards the rod
    nut,   ///< on the stud: turned in, it moves the pivot along `axis_K`, towards the head
    none,  ///< nothing to turn: a hydraulic plunger takes up what the rod leaves
};

struct Adjuster {
    AdjusterKind kind = AdjusterKind::screw;
    Vec3 axis_K = -Vec3::UnitZ();
    double can_go_in_mm = 0.0;      ///< thread left that way
    double can_go_out_mm = 0.0;     ///< thread left the other way
    std::optional<double> pitch_mm; ///< of its thread: travel for one turn
    /// Greatest angle between the rod and the adjuster's axis (or the cup's) that the cup allows.
    std::optional<double> cup_limit_rad;
};

struct Valve {
    Vec3 axis_K = Vec3::UnitZ(); ///< from head to tip
    std::optional<Vec3> tip_K;   ///< middle of the tip, valve closed
    double lash_mm = 0.0;        ///< gap at the valve on the heel
};

/// Everything between one lobe and one valve.
struct Train {
    ValvePosition position;
    std::size_t bank = 0;
    Lifter lifter;
    Pushrod rod;
    Rocker rocker;
    Adjuster adjuster;
    Valve valve;
    Passage tube;                          ///< the port tube
    std::vector<Passage> further_passages; ///< whatever else the rod goes through
};

/// The axis about which a ball-pivot rocker swings: square to the stud and to the arm that is
/// guided. Zero if those two are in one line.
[[nodiscard]] Vec3 ball_pivot_axis_K(Guide guide, const Vec3& stud_axis_K, const Vec3& ball_arm_K,
                                     const Vec3& tip_arm_K);

} // namespace rodway
