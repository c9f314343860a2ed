#include "core/clearance/clearance_place.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/geometry/rim.h"

namespace rodway {
namespace {

constexpr int looks = 48;
constexpr double least_sin_tilt = 1e-14;
/// Places nearer together than this are one place.
constexpr double same_place_mm = 1e-4;

/// What the walk of rims needs: a straight rod in a round bore.
struct PlainRod {
    const Linkage& linkage;
    const Bore& tube;
    double rod_radius_mm;
    double full_lift_mm;
};

FixedTo fixed_to(Casting casting) {
    switch (casting) {
        case Casting::head:
            return FixedTo::head;
        case Casting::intake:
            return FixedTo::intake;
        case Casting::block:
            return FixedTo::block;
    }
    return FixedTo::block;
}

/// A local minimum of the distance from the rod's axis to one rim, and how it changes with lift.
struct RimPlace {
    double s = 0.0;
    double distance_mm = 0.0; ///< axis to wall
    double slope = 0.0;       ///< by lobe lift
    Vec3 p_axis_K;
    Vec3 p_wall_K;
    BoreEnd end = BoreEnd::top;
    double station_mm = 0.0; ///< along the rod, from its lower ball
};

/// Each end has two sides, told apart by which half of the rim is near.
constexpr std::size_t branches = 4;
using RimPlaces = std::array<std::optional<RimPlace>, branches>;

class RimWalk {
  public:
    explicit RimWalk(const PlainRod& rod) : rod_(rod) {}

    /// Every local minimum over a turn.
    std::vector<RimPlace> local_minima() const {
        std::vector<RimPlace> minima;
        std::array<RimPlaces, looks + 1> seen;
        for (std::size_t look = 0; look <= looks; ++look) {
            seen[look] = at(rod_.full_lift_mm * static_cast<double>(look) / looks);
        }
        for (std::size_t branch = 0; branch < branches; ++branch) {
            const auto& first = seen[0][branch];
            const auto& last = seen[looks][branch];
            if (first && first->slope >= 0.0) {
                minima.push_back(*first);
            }
            if (last && last->slope <= 0.0) {
                minima.push_back(*last);
            }
            for (std::size_t look = 1; look <= looks; ++look) {
                const auto& low = seen[look - 1][branch];
                const auto& high = seen[look][branch];
                if (low && high && low->slope < 0.0 && high->slope > 0.0) {
                    minima.push_back(polished(*low, *high, branch));
                }
            }
        }
        return minima;
    }

  private:
    RimPlaces at(double s) const {
        RimPlaces places;
        if (const auto pose = rod_.linkage.at(s)) {
            look_at_end(places, *pose, s, BoreEnd::top);
            look_at_end(places, *pose, s, BoreEnd::bottom);
        }
        return places;
    }

    /// As `axis_to_wall` finds it, but both local minima and each end by itself. A rounded edge is
    /// a sharp one moved into the wall by its radius, the distance less by as much.
    void look_at_end(RimPlaces& places, const Pose& pose, double s, BoreEnd end) const {
        const Bore& tube = rod_.tube;
        const double outward = end == BoreEnd::top ? 1.0 : -1.0;
        const double edge =
            end == BoreEnd::top ? tube.top_edge_radius_mm : tube.bottom_edge_radius_mm;
        const Vec3& e = tube.axis_K;
        const Vec3 centre = tube.centre_K + outward * (tube.length_mm / 2.0 - edge) * e;
        const Vec3 axis = (pose.upper_ball_K - pose.lower_ball_K).normalized();
        const double cos_tilt = axis.dot(e);
        const Vec3 leaning = axis - cos_tilt * e;
        const double sin_tilt = leaning.norm();
        if (!(cos_tilt > 0.0)) {
            return;
        }
        const Vec3 along_K =
            sin_tilt > least_sin_tilt ? Vec3(leaning / sin_tilt) : e.unitOrthogonal();
        const Vec3 beside_K = e.cross(along_K);
        const double to_plane = (centre - pose.lower_ball_K).dot(e) / cos_tilt;
        const Vec3 crossing = pose.lower_ball_K + to_plane * axis - centre;
        const double R = tube.bore_radius_mm + edge;
        const double beside = crossing.dot(beside_K);
        const double along = crossing.dot(along_K);
        if (!(std::hypot(beside, along) < R)) {
            return;
        }
        const auto offer = [&](const EllipseFoot& foot) {
            const double rim_along = foot.y / cos_tilt;
            const double foot_mm = (rim_along - along) * sin_tilt;
            const double station = to_plane + foot_mm;
            if (outward * foot_mm < -1e-9 || station < 0.0 || station > rod_length()) {
                return; // the nearest point of the axis is inside the bore, or past the rod's end
            }
            RimPlace place;
            place.s = s;
            place.end = end;
            place.station_mm = station;
            place.p_axis_K = pose.lower_ball_K + station * axis;
            const Vec3 rim = centre + foot.x * beside_K + rim_along * along_K;
            const Vec3 normal = (rim - place.p_axis_K) / foot.distance;
            place.distance_mm = foot.distance - edge;
            place.p_wall_K = rim - edge * normal;
            const PoseRates rates = rod_.linkage.rates(pose);
            const Vec3& a = rod_.linkage.lifter_axis_K();
            place.slope = -normal.dot(a + station / rod_length() * (rates.upper_ball_K - a));
            const std::size_t side = foot.y >= 0.0 ? 0 : 1;
            places[(end == BoreEnd::top ? 0 : 2) + side] = place;
        };
        offer(nearest_on_ellipse(R, R * cos_tilt, beside, along * cos_tilt));
        if (const auto other =
                second_nearest_on_ellipse(R, R * cos_tilt, beside, along * cos_tilt)) {
            offer(*other);
        }
    }

    RimPlace polished(RimPlace low, RimPlace high, std::size_t branch) const {
        while (high.s - low.s > 1e-11) {
            const double s = (low.s + high.s) / 2.0;
            const auto middle = at(s)[branch];
            if (!middle || s <= low.s || s >= high.s) {
                break;
            }
            (middle->slope < 0.0 ? low : high) = *middle;
        }
        return low.distance_mm < high.distance_mm ? low : high;
    }

    double rod_length() const { return rod_.linkage.rod_length_mm(); }

    PlainRod rod_;
};

RodClearance clearance_of(const TrainSurroundings& surroundings, double rod_radius_mm,
                          const RimPlace& place) {
    const Feature& tube = surroundings.features.front();
    RodClearance found;
    found.lobe_lift_mm = place.s;
    found.clearance_mm = place.distance_mm - rod_radius_mm;
    found.normal_K = (place.p_wall_K - place.p_axis_K).normalized();
    found.p_wall_K = place.p_wall_K;
    found.p_rod_K = place.p_axis_K + rod_radius_mm * found.normal_K;
    found.feature = tube.name;
    found.ball_radius_mm = rod_radius_mm;
    found.station_mm = place.station_mm;
    PlaceInPassage in_passage;
    in_passage.end = place.end;
    in_passage.wall =
        wall_direction(std::get<Bore>(tube.shape), place.p_wall_K, surroundings.outboard_y_sign)
            .wall;
    found.in_passage = in_passage;
    return found;
}

bool is_straight(const RoundSections& rod) {
    const double radius = rod.front().radius_from_mm;
    return std::all_of(rod.begin(), rod.end(), [&](const RoundSection& section) {
        return section.radius_from_mm == radius && section.radius_to_mm == radius;
    });
}

/// The thing's bank, and what it is fixed to.
void fix(ClearancePlace& place, const Engine& engine, const Train& train,
         const RodClearance& found) {
    const auto named = [&](const auto& thing) { return thing.name == found.feature; };
    place.bank = train.bank;
    switch (found.kind) {
        case FeatureKind::port_tube:
            place.fixed_to = fixed_to(train.tube.casting);
            return;
        case FeatureKind::passage: {
            const auto& passages = train.further_passages;
            const auto passage = std::find_if(passages.begin(), passages.end(), named);
            RODWAY_ASSERT(passage != passages.end());
            place.fixed_to = fixed_to(passage->casting);
            return;
        }
        case FeatureKind::obstacle: {
            const auto& obstacles = engine.obstacles;
            const auto obstacle = std::find_if(obstacles.begin(), obstacles.end(), named);
            RODWAY_ASSERT(obstacle != obstacles.end());
            place.fixed_to = fixed_to(obstacle->casting);
            place.bank = obstacle->bank;
            return;
        }
        case FeatureKind::rocker_body:
            place.fixed_to = FixedTo::rocker;
            return;
    }
}

} // namespace

ClearancePlace place_of(const Engine& engine, const Train& train,
                        const TrainSurroundings& surroundings, const RodClearance& found) {
    ClearancePlace place;
    place.lobe_lift_mm = found.lobe_lift_mm;
    place.at_full_lift = found.lobe_lift_mm >= surroundings.full_lift_mm;
    place.clearance_mm = found.clearance_mm;
    place.ball_radius_mm = found.ball_radius_mm;
    place.station_mm = found.station_mm;
    place.p_rod_K = found.p_rod_K;
    place.p_wall_K = found.p_wall_K;
    place.normal_K = found.normal_K;
    place.lifter_body = found.part == MovedPart::lifter_body;
    place.thing = found.feature;
    fix(place, engine, train, found);
    for (const Feature& feature : surroundings.features) {
        if (feature.kind == found.kind && feature.name == found.feature &&
            std::holds_alternative<Bore>(feature.shape)) {
            place.passage_K = std::get<Bore>(feature.shape);
        }
    }
    if (found.in_passage) {
        place.end = found.in_passage->end;
        place.wall = found.in_passage->wall;
    }
    return place;
}

std::vector<ClearancePlace> places_that_tie(const Engine& engine, const Train& train,
                                            const TrainSurroundings& surroundings,
                                            const std::vector<CertifiedMinimum>& all,
                                            double within_mm) {
    const CertifiedMinimum& least = deciding(all);
    std::vector<ClearancePlace> places;
    if (!least.minimum) {
        return places;
    }
    places.push_back(place_of(engine, train, surroundings, *least.minimum));
    const auto offer = [&](const RodClearance& other) {
        if (other.clearance_mm > least.minimum->clearance_mm + within_mm) {
            return;
        }
        const bool known =
            std::any_of(places.begin(), places.end(), [&](const ClearancePlace& place) {
                return std::abs(place.lobe_lift_mm - other.lobe_lift_mm) < same_place_mm &&
                       (place.p_wall_K - other.p_wall_K).norm() < same_place_mm &&
                       place.thing == other.feature;
            });
        if (!known) {
            places.push_back(place_of(engine, train, surroundings, other));
        }
    };
    for (const CertifiedMinimum& each : all) {
        offer(*each.minimum);
        offer(*each.on_heel);
        offer(*each.at_full_lift);
    }
    const Bore& tube = std::get<Bore>(surroundings.features.front().shape);
    if (tube.half_straight_mm == 0.0 && is_straight(surroundings.rod)) {
        const double radius = surroundings.rod.front().radius_from_mm;
        const PlainRod rod{surroundings.linkage, tube, radius, surroundings.full_lift_mm};
        for (const RimPlace& place : RimWalk(rod).local_minima()) {
            offer(clearance_of(surroundings, radius, place));
        }
    }
    return places;
}

} // namespace rodway
