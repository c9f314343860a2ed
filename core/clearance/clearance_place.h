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

/// A clearance in the port tube as a place. `found` is the rod's at some lobe lift.
[[nodiscard]] ClearancePlace place_in_tube(const Train& train, const RodInTube& rod,
                                           const RodClearance& found);

/// The same beside any of a train's surroundings. `found` is a clearance of one of them.
[[nodiscard]] ClearancePlace place_beside(const Engine& engine, const Train& train,
                                          const TrainSurroundings& surroundings,
                                          const RodClearance& found);

/// Two clearances that differ by less are the same: small beside what any part is made to, large
/// beside rounding.
constexpr double same_clearance_mm = 1e-6;

/// The minimum's place first, then every other place of the same rod in its tube, over the whole
/// turn, that has the same clearance within `within_mm`: other lobe lift, other end, or the far
/// side of the same rim. Each is a local minimum, polished to 1e-11 mm of lobe lift. Of a rod that
/// isn't straight, or in an obround bore, only heel, full lift and the minimum itself are looked
/// at.
[[nodiscard]] std::vector<ClearancePlace> places_that_tie(const Train& train, const RodInTube& rod,
                                                          const CertifiedMinimum& found,
                                                          double within_mm = same_clearance_mm);

/// Places of the minimum that decides (`deciding`), its own first: where it ties in the port tube,
/// and heel, full lift and minimum beside everything else that comes within `within_mm` of it.
/// Empty if a minimum is missing. `all` are the `certified_minima` of `surroundings`.
[[nodiscard]] std::vector<ClearancePlace> places_of_minimum(
    const Engine& engine, const Train& train, const TrainSurroundings& surroundings,
    const std::vector<CertifiedMinimum>& all, double within_mm = same_clearance_mm);

} // namespace rodway
