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
    explicit RimWalk(const RodInTube& rod) : rod_(rod) {}

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

    const RodInTube& rod_;
};

RodClearance clearance_of(const RodInTube& rod, const RimPlace& place) {
    RodClearance found;
    found.lobe_lift_mm = place.s;
    found.clearance_mm = place.distance_mm - rod.rod_radius_mm;
    found.normal_K = (place.p_wall_K - place.p_axis_K).normalized();
    found.p_wall_K = place.p_wall_K;
    found.p_rod_K = place.p_axis_K + rod.rod_radius_mm * found.normal_K;
    found.feature = rod.name;
    found.ball_radius_mm = rod.rod_radius_mm;
    found.station_mm = place.station_mm;
    PlaceInPassage in_passage;
    in_passage.end = place.end;
    in_passage.wall = wall_direction(rod.tube, place.p_wall_K, rod.outboard_y_sign).wall;
    found.in_passage = in_passage;
    return found;
}

bool is_straight(const RodInTube& rod) {
    return std::all_of(rod.profile.begin(), rod.profile.end(), [&](const RoundSection& section) {
        return section.radius_from_mm == rod.rod_radius_mm &&
               section.radius_to_mm == rod.rod_radius_mm;
    });
}

/// What a clearance says of its place by itself.
ClearancePlace place_of(const RodClearance& found, double full_lift_mm) {
    ClearancePlace place;
    place.lobe_lift_mm = found.lobe_lift_mm;
    place.at_full_lift = found.lobe_lift_mm >= full_lift_mm;
    place.clearance_mm = found.clearance_mm;
    place.ball_radius_mm = found.ball_radius_mm;
    place.station_mm = found.station_mm;
    place.p_rod_K = found.p_rod_K;
    place.p_wall_K = found.p_wall_K;
    place.normal_K = found.normal_K;
    place.lifter_body = found.part == MovedPart::lifter_body;
    place.thing = found.feature;
    if (found.in_passage) {
        place.end = found.in_passage->end;
        place.wall = found.in_passage->wall;
    }
    return place;
}

/// Whether a place is one of those known already.
bool known_among(const std::vector<ClearancePlace>& places, const RodClearance& other) {
    return std::any_of(places.begin(), places.end(), [&](const ClearancePlace& known) {
        return known.thing == other.feature &&
               std::abs(known.lobe_lift_mm - other.lobe_lift_mm) < same_place_mm &&
               (known.p_wall_K - other.p_wall_K).norm() < same_place_mm;
    });
}

} // namespace

ClearancePlace place_in_tube(const Train& train, const RodInTube& rod, const RodClearance& found) {
    ClearancePlace place = place_of(found, rod.full_lift_mm);
    place.fixed_to = fixed_to(train.tube.casting);
    place.bank = train.bank;
    place.thing = train.tube.name;
    place.passage_K = rod.tube;
    return place;
}

ClearancePlace place_beside(const Engine& engine, const Train& train,
                            const TrainSurroundings& surroundings, const RodClearance& found) {
    ClearancePlace place = place_of(found, surroundings.full_lift_mm);
    place.bank = train.bank;
    for (const Feature& feature : surroundings.features) {
        if (feature.kind == found.kind && feature.name == found.feature) {
            if (const Bore* bore = std::get_if<Bore>(&feature.shape)) {
                place.passage_K = *bore;
            }
        }
    }
    switch (found.kind) {
        case FeatureKind::port_tube:
            place.fixed_to = fixed_to(train.tube.casting);
            break;
        case FeatureKind::passage:
            for (const Passage& passage : train.further_passages) {
                if (passage.name == found.feature) {
                    place.fixed_to = fixed_to(passage.casting);
                }
            }
            break;
        case FeatureKind::obstacle:
            for (const Obstacle& obstacle : engine.obstacles) {
                if (obstacle.name == found.feature) {
                    place.fixed_to = fixed_to(obstacle.casting);
                    place.bank = obstacle.bank;
                }
            }
            break;
        case FeatureKind::rocker_body:
            place.fixed_to = FixedTo::rocker;
            break;
    }
    return place;
}

std::vector<ClearancePlace> places_that_tie(const Train& train, const RodInTube& rod,
                                            const CertifiedMinimum& found, double within_mm) {
    std::vector<ClearancePlace> places;
    if (!found.minimum) {
        return places;
    }
    places.push_back(place_in_tube(train, rod, *found.minimum));
    const auto offer = [&](const RodClearance& other) {
        if (other.clearance_mm > found.minimum->clearance_mm + within_mm) {
            return;
        }
        if (known_among(places, other)) {
            return;
        }
        places.push_back(place_in_tube(train, rod, other));
    };
    if (rod.tube.half_straight_mm > 0.0 || !is_straight(rod)) {
        offer(*found.on_heel);
        offer(*found.at_full_lift);
        return places;
    }
    for (const RimPlace& place : RimWalk(rod).local_minima()) {
        offer(clearance_of(rod, place));
    }
    return places;
}

std::vector<ClearancePlace> places_of_minimum(const Engine& engine, const Train& train,
                                              const TrainSurroundings& surroundings,
                                              const std::vector<CertifiedMinimum>& all,
                                              double within_mm) {
    std::vector<ClearancePlace> places;
    const CertifiedMinimum& rules = deciding(all);
    if (!rules.minimum) {
        return places;
    }
    const Result<TrainInTube> in_tube = rod_in_tube(engine, train);
    if (rules.kind == FeatureKind::port_tube && in_tube && in_tube->rod) {
        places = places_that_tie(train, *in_tube->rod, rules, within_mm);
    } else {
        places.push_back(place_beside(engine, train, surroundings, *rules.minimum));
    }
    const double most_mm = rules.minimum->clearance_mm + within_mm;
    for (const CertifiedMinimum& found : all) {
        for (const auto& other : {found.minimum, found.on_heel, found.at_full_lift}) {
            if (other && other->clearance_mm <= most_mm && !known_among(places, *other)) {
                places.push_back(place_beside(engine, train, surroundings, *other));
            }
        }
    }
    return places;
}

} // namespace rodway
