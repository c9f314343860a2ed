#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/clearance/certified_minimum.h"

namespace rodway {

/// What the thing beside a rod is fixed to.
enum class FixedTo { block, head, intake, rocker };

/// A place where a rod is nearest to something, at one lobe lift: what it takes to say how the
/// clearance there changes. Millimetres, the train's bank frame K, everything where it stands now.
struct ClearancePlace {
    double lobe_lift_mm = 0.0;
    bool at_full_lift = false;
    double clearance_mm = 0.0;
    double station_mm = 0.0;     ///< of the nearest point of the rod's axis, from its lower ball
    double ball_radius_mm = 0.0; ///< of the rod there
    Vec3 p_rod_K = Vec3::Zero();
    Vec3 p_wall_K = Vec3::Zero();
    Vec3 normal_K = Vec3::UnitX(); ///< unit, from the rod to the wall
    bool lifter_body = false;      ///< it is the lifter's body that is near, not the rod
    FixedTo fixed_to = FixedTo::intake;
    std::size_t bank = 0;          ///< of the head or intake flange that the thing belongs to
    std::string thing;             ///< name of the passage or obstacle
    std::optional<Bore> passage_K; ///< the passage, if it is one
    BoreEnd end = BoreEnd::top;
    Wall wall = Wall::front;
};

/// A clearance that was found at some lobe lift, from any of a train's surroundings, as a place.
[[nodiscard]] ClearancePlace place_of(const Engine& engine, const Train& train,
                                      const TrainSurroundings& surroundings,
                                      const RodClearance& found);

/// Two clearances that differ by less are the same: small beside what any part is made to, large
/// beside rounding.
constexpr double same_clearance_mm = 1e-6;

/// The least clearance's place first, then every other place over the whole turn that has the same
/// clearance within `within_mm`: another thing, another lobe lift, the other end, or the far side
/// of the same rim. `all` are the train's certified minima, as `certified_minima` gives them; empty
/// if one has no answer. In its port tube every local minimum of a straight rod in a round bore is
/// looked at, polished to 1e-11 mm of lobe lift; beside anything else the minimum, the heel and
/// full lift.
[[nodiscard]] std::vector<ClearancePlace> places_that_tie(const Engine& engine, const Train& train,
                                                          const TrainSurroundings& surroundings,
                                                          const std::vector<CertifiedMinimum>& all,
                                                          double within_mm = same_clearance_mm);

} // namespace rodway
