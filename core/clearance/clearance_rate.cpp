#include "core/clearance/clearance_rate.h"

#include <algorithm>
#include <cmath>

#include "core/castings/moving_castings.h"

// How it is worked out
// --------------------
// The rocker is a rigid body on its shaft, so whatever happens moves it by dO (its pivot), a lean ω
// (its shaft) and some turn about the shaft. With r = B - O and q the tip arm, n the shaft, v the
// valve, û the rod, and what the parameter itself moves known, setting the train on the heel asks
//     tip:  v·(dO + x·t + ω × q + ψ·n × q + dq) = d(lash) + v·d(valve)
//     rod:  û·(dO + x·t + ω × r + ψ·n × r + dr + x·j - dP) = dL
// of ψ and of what gives way: the screw's x along j, the nut's x along t, a plunger's travel (in
// dP), or the rod's length L. Which angle the rocker has on the heel doesn't matter afterwards: at
// the place's lobe lift it turns by whatever
//     û·(dB - dP) = dL
// asks, with the sizes just found. The rod's station t then moves by dP + (t/L)·(dB - dP - dL·û),
// the wall as its casting does, and
//     dc = normal·(d(wall) - d(axis)) - d(radius) + [at full lift] ∂c/∂s·d(full lift).

namespace rodway {
namespace {

/// What moves rod or tip by less than this share of itself sets nothing.
constexpr double least_lever = 1e-6;

struct FreeMoves {
    double adjuster_in = 0.0;
    double plunger_down = 0.0;
    double rod_length = 0.0;
};

Vec3 turned(const Vec3& vector, const Vec3& axis, const Pose& pose) {
    const Vec3 along = vector.dot(axis) * axis;
    const Vec3 beside = vector - along;
    return along + pose.cos_turned * beside + pose.sin_turned * axis.cross(beside);
}

class RateOfPlace {
  public:
    RateOfPlace(const Train& train, const Linkage& linkage, const ClearancePlace& place)
        : train_(train), linkage_(linkage), place_(place), n_(linkage.shaft_axis_K()) {}

    std::optional<double> rate(const ParameterRates& rates, Held held) const {
        const auto moves = free_moves(rates, held);
        const auto pose = linkage_.at(place_.lobe_lift_mm);
        if (!moves || !pose) {
            return std::nullopt;
        }
        const double direct = at_pose(*pose, rates, *moves);
        if (!place_.at_full_lift || rates.full_lift == 0.0) {
            return direct;
        }
        ParameterRates lifted;
        lifted.foot_K = linkage_.lifter_axis_K();
        return direct + rates.full_lift * at_pose(*pose, lifted, {});
    }

  private:
    bool has_screw() const { return train_.adjuster.kind == AdjusterKind::screw; }
    bool has_nut() const { return train_.adjuster.kind == AdjusterKind::nut; }
    bool hydraulic() const { return train_.lifter.kind == LifterKind::hydraulic; }

    Vec3 lower_ball_rate(const ParameterRates& rates, const FreeMoves& moves, double s) const {
        const Vec3& a = linkage_.lifter_axis_K();
        const double above_foot = (linkage_.at(0.0)->lower_ball_K - train_.lifter.foot_K).dot(a);
        return rates.foot_K + (above_foot + s) * rates.lifter_axis_K +
               (rates.seat_height - moves.plunger_down) * a;
    }

    Vec3 pivot_rate(const ParameterRates& rates, const FreeMoves& moves) const {
        return has_nut() ? Vec3(rates.pivot_K + moves.adjuster_in * train_.adjuster.axis_K)
                         : rates.pivot_K;
    }

    std::optional<FreeMoves> free_moves(const ParameterRates& rates, Held held) const {
        FreeMoves given;
        given.adjuster_in = rates.adjuster_in;
        const bool turned_in = rates.adjuster_in != 0.0;
        const bool settable = train_.adjuster.kind != AdjusterKind::none || hydraulic();
        if (held == Held::nothing_reset ||
            (turned_in && held == Held::adjuster_reset && !hydraulic())) {
            return given;
        }
        if (held == Held::rod_rechosen) {
            return rates.rod_length == 0.0 ? solved(rates, given, &FreeMoves::rod_length)
                                           : std::nullopt;
        }
        if (!settable) { // the lash is what the rod leaves, and can't be asked for
            return rates.lash == 0.0 ? std::optional(given) : std::nullopt;
        }
        const bool by_plunger = train_.adjuster.kind == AdjusterKind::none || turned_in;
        return solved(rates, given,
                      by_plunger ? &FreeMoves::plunger_down : &FreeMoves::adjuster_in);
    }

    struct HeelErrors {
        double tip;
        double rod;
    };
    /// What is left of the two heel equations without any turn of the rocker.
    HeelErrors heel_errors(const ParameterRates& rates, const FreeMoves& moves) const {
        const Vec3& q = linkage_.tip_arm_K();
        const Vec3& r = linkage_.ball_arm_K();
        const Vec3& v = linkage_.valve_axis_K();
        const Vec3 pivot = pivot_rate(rates, moves);
        const Vec3 tip = pivot + rates.rocker_lean_K.cross(q) + rates.tip_arm * unit_across(q, n_);
        const Vec3 grows = unit_across(has_screw() ? train_.rocker.ball_arm_K : r, n_);
        Vec3 ball = pivot + rates.rocker_lean_K.cross(r) + rates.ball_arm * grows;
        if (has_screw()) {
            ball += moves.adjuster_in * train_.adjuster.axis_K;
        }
        return {v.dot(tip - rates.valve_K) - rates.lash,
                heel_rod().dot(ball - lower_ball_rate(rates, moves, 0.0)) - rates.rod_length -
                    moves.rod_length};
    }

    Vec3 heel_rod() const {
        const Pose heel = *linkage_.at(0.0);
        return (heel.upper_ball_K - heel.lower_ball_K) / linkage_.rod_length_mm();
    }

    std::optional<FreeMoves> solved(const ParameterRates& rates, FreeMoves given,
                                    double FreeMoves::*free) const {
        const HeelErrors known = heel_errors(rates, given);
        FreeMoves unit;
        unit.*free = 1.0;
        const HeelErrors by_free = heel_errors({}, unit);
        const double tip_turn = linkage_.valve_axis_K().dot(n_.cross(linkage_.tip_arm_K()));
        const double rod_turn = heel_rod().dot(n_.cross(linkage_.ball_arm_K()));
        // Two equations in ψ and the free move; ψ itself isn't wanted.
        const double determinant = tip_turn * by_free.rod - rod_turn * by_free.tip;
        if (!(std::abs(determinant) > least_lever * linkage_.tip_arm_K().norm())) {
            return std::nullopt;
        }
        given.*free = (rod_turn * known.tip - tip_turn * known.rod) / determinant;
        return given;
    }

    double at_pose(const Pose& pose, const ParameterRates& rates, const FreeMoves& moves) const {
        const double L = linkage_.rod_length_mm();
        const Vec3 rod = (pose.upper_ball_K - pose.lower_ball_K) / L;
        const Vec3 r = pose.upper_ball_K - linkage_.pivot_K();
        const Vec3 lower = lower_ball_rate(rates, moves, pose_lift(pose));
        const Vec3 pivot = pivot_rate(rates, moves);
        const Vec3 grows = has_screw() ? turned(unit_across(train_.rocker.ball_arm_K, n_), n_, pose)
                                       : unit_across(r, n_);
        Vec3 upper = pivot + rates.rocker_lean_K.cross(r) + rates.ball_arm * grows;
        if (has_screw()) {
            upper += moves.adjuster_in * turned(train_.adjuster.axis_K, n_, pose);
        }
        const double longer = rates.rod_length + moves.rod_length;
        const Vec3 turn = n_.cross(r);
        const double turning = (longer - rod.dot(upper - lower)) / rod.dot(turn);
        upper += turning * turn;

        const Vec3 wall = wall_rate(rates, pivot, rates.rocker_lean_K + turning * n_);
        const Vec3& normal = place_.normal_K;
        if (place_.lifter_body) {
            const double up = (place_.p_rod_K - train_.lifter.foot_K).dot(linkage_.lifter_axis_K());
            return normal.dot(wall - rates.foot_K - up * rates.lifter_axis_K);
        }
        const bool at_upper_ball = place_.station_mm >= L - 1e-9;
        const Vec3 axis =
            at_upper_ball ? upper
                          : Vec3(lower + place_.station_mm / L * (upper - lower - longer * rod));
        return normal.dot(wall - axis) - rates.rod_radius;
    }

    double pose_lift(const Pose& pose) const {
        return (pose.lower_ball_K - linkage_.at(0.0)->lower_ball_K).dot(linkage_.lifter_axis_K());
    }

    Vec3 wall_rate(const ParameterRates& rates, const Vec3& pivot_rate_K,
                   const Vec3& rocker_turning_K) const {
        Vec3 rate = rates.thing_K;
        if (place_.fixed_to == FixedTo::rocker) {
            rate += pivot_rate_K + rocker_turning_K.cross(place_.p_wall_K - linkage_.pivot_K());
        }
        if (place_.passage_K) {
            const Bore& bore = *place_.passage_K;
            Vec3 from_centre = place_.p_wall_K - bore.centre_K;
            rate += rates.thing_lean_K.cross(from_centre);
            if (bore.half_straight_mm > 0.0) {
                const double along = from_centre.dot(bore.long_way_K);
                from_centre -= std::clamp(along, -bore.half_straight_mm, bore.half_straight_mm) *
                               bore.long_way_K;
            }
            rate += rates.bore_radius * unit_across(from_centre, bore.axis_K);
        }
        return rate;
    }

    const Train& train_;
    const Linkage& linkage_;
    const ClearancePlace& place_;
    const Vec3& n_;
};

Vec3 between_banks(const Engine& engine, std::size_t from, std::size_t to, const Vec3& vector_K) {
    const auto& banks = engine.layout.banks;
    return from == to ? vector_K : banks[to].frame.from_block(banks[from].frame.to_block(vector_K));
}

/// How the intake casting moves over one bank for a unit gained at another's flange.
std::optional<Vec3> intake_rate_K(const Engine& engine, std::size_t bank, std::size_t gained_at) {
    std::vector<IntakeFace> faces;
    for (std::size_t at = 0; at < engine.flanges.size(); ++at) {
        if (engine.flanges[at] && (engine.one_intake_for_all || at == bank)) {
            faces.push_back({engine.layout.banks[at].frame.to_block(engine.flanges[at]->normal_K),
                             at == gained_at ? 1.0 : 0.0});
        }
    }
    const Result<Vec3> moved_E = intake_movement_E(faces);
    return moved_E ? std::optional(engine.layout.banks[bank].frame.from_block(*moved_E))
                   : std::nullopt;
}

bool gasket_rates(ParameterRates& rates, const Engine& engine, const Train& train,
                  const ClearancePlace& place, const EngineParameter& parameter) {
    const std::size_t bank = parameter.bank;
    if (bank >= engine.layout.banks.size()) {
        return false;
    }
    const bool has_flange = bank < engine.flanges.size() && engine.flanges[bank].has_value();
    const bool head = parameter.kind == ParameterKind::head_gasket;
    if (!head && !has_flange) {
        return false;
    }
    if (place.fixed_to == FixedTo::intake && has_flange) {
        const auto moves = intake_rate_K(engine, place.bank, bank);
        if (!moves) {
            return false;
        }
        rates.thing_K = between_banks(engine, place.bank, train.bank, *moves) *
                        (head ? engine.flanges[bank]->normal_K.z() : 1.0);
    }
    if (!head) {
        return true;
    }
    if (bank == train.bank) {
        rates.pivot_K = rates.valve_K = Vec3::UnitZ();
    }
    if (place.fixed_to == FixedTo::head && place.bank == bank) {
        rates.thing_K = between_banks(engine, bank, train.bank, Vec3::UnitZ());
    }
    return true;
}

bool lifter_rates(ParameterRates& rates, const Train& train, ParameterKind kind,
                  double outboard_y_sign) {
    const Vec3& a = train.lifter.axis_K;
    const AcrossAxis across = across_axis(a, outboard_y_sign);
    switch (kind) {
        case ParameterKind::lifter_height:
            rates.seat_height = 1.0;
            return true;
        case ParameterKind::lifter_rearward:
            rates.foot_K = across.rearward_K;
            return true;
        case ParameterKind::lifter_outboard:
            rates.foot_K = across.outboard_K;
            return true;
        case ParameterKind::lifter_lean_rearward:
            rates.lifter_axis_K = across.rearward_K;
            return true;
        case ParameterKind::lifter_lean_outboard:
            rates.lifter_axis_K = across.outboard_K;
            return true;
        case ParameterKind::base_circle:
            rates.foot_K = a;
            return true;
        default:
            return false;
    }
}

bool rod_and_rocker_rates(ParameterRates& rates, const Train& train, ParameterKind kind,
                          double outboard_y_sign) {
    switch (kind) {
        case ParameterKind::lobe_lift:
            rates.full_lift = 1.0;
            return true;
        case ParameterKind::rod_length:
            rates.rod_length = 1.0;
            return true;
        case ParameterKind::rod_diameter:
            rates.rod_radius = 0.5;
            return true;
        case ParameterKind::pivot_height:
            rates.pivot_K = Vec3::UnitZ();
            return true;
        case ParameterKind::pivot_outboard:
            rates.pivot_K = outboard_y_sign * Vec3::UnitY();
            return true;
        case ParameterKind::pivot_rearward:
            rates.pivot_K = Vec3::UnitX();
            return true;
        case ParameterKind::ball_arm_length:
            rates.ball_arm = 1.0;
            return true;
        case ParameterKind::tip_arm_length:
            rates.tip_arm = 1.0;
            return true;
        case ParameterKind::shaft_tilt_up:
        case ParameterKind::shaft_tilt_outboard:
            rates.rocker_lean_K = shaft_lean_K(train.rocker, kind, outboard_y_sign);
            return !rates.rocker_lean_K.isZero();
        case ParameterKind::lash:
            rates.lash = 1.0;
            return train.lifter.kind == LifterKind::solid;
        case ParameterKind::adjuster:
            rates.adjuster_in = 1.0;
            return train.adjuster.kind != AdjusterKind::none;
        default:
            return false;
    }
}

bool thing_rates(ParameterRates& rates, const Engine& engine, const Train& train,
                 const ClearancePlace& place, const EngineParameter& parameter) {
    if (parameter.thing != place.thing) {
        return false;
    }
    if (parameter.kind == ParameterKind::obstacle_away) {
        rates.thing_K = between_banks(engine, place.bank, train.bank, parameter.direction_K);
        return !place.passage_K.has_value();
    }
    if (!place.passage_K) {
        return false;
    }
    const Vec3& e = place.passage_K->axis_K;
    const AcrossAxis across = across_axis(e, engine.outboard_y_sign(train));
    switch (parameter.kind) {
        case ParameterKind::passage_rearward:
            rates.thing_K = across.rearward_K;
            return true;
        case ParameterKind::passage_outboard:
            rates.thing_K = across.outboard_K;
            return true;
        case ParameterKind::passage_slide:
            rates.thing_K = e;
            return true;
        case ParameterKind::passage_lean_rearward:
            rates.thing_lean_K = e.cross(across.rearward_K);
            return true;
        case ParameterKind::passage_lean_outboard:
            rates.thing_lean_K = e.cross(across.outboard_K);
            return true;
        case ParameterKind::passage_bore:
            rates.bore_radius = 0.5;
            return true;
        default:
            return false;
    }
}

} // namespace

std::optional<ParameterRates> parameter_rates(const Engine& engine, const Train& train,
                                              const ClearancePlace& place,
                                              const EngineParameter& parameter) {
    ParameterRates rates;
    const ParameterKind kind = parameter.kind;
    if (kind == ParameterKind::intake_gasket || kind == ParameterKind::head_gasket) {
        return gasket_rates(rates, engine, train, place, parameter) ? std::optional(rates)
                                                                    : std::nullopt;
    }
    if (parameter.valve && *parameter.valve != train.position) {
        return std::nullopt;
    }
    const double outboard = engine.outboard_y_sign(train);
    const bool known = lifter_rates(rates, train, kind, outboard) ||
                       rod_and_rocker_rates(rates, train, kind, outboard) ||
                       thing_rates(rates, engine, train, place, parameter);
    return known ? std::optional(rates) : std::nullopt;
}

std::optional<double> clearance_rate(const Train& train, const Linkage& linkage,
                                     const ClearancePlace& place, const ParameterRates& rates,
                                     Held held) {
    return RateOfPlace(train, linkage, place).rate(rates, held);
}

std::optional<double> lash_float_effect_mm(const Train& train, const Linkage& linkage,
                                           const ClearancePlace& place) {
    if (place.lobe_lift_mm > 0.0 || train.lifter.kind == LifterKind::hydraulic ||
        place.lifter_body || !(linkage.lash_mm() > 0.0)) {
        return std::nullopt;
    }
    const Vec3& n = linkage.shaft_axis_K();
    const Pose heel = *linkage.at(0.0);
    const double L = linkage.rod_length_mm();
    const Vec3 rod = (heel.upper_ball_K - heel.lower_ball_K) / L;
    const double lever = linkage.valve_axis_K().dot(n.cross(linkage.tip_arm_K()));
    if (!(std::abs(lever) >= 0.02 * linkage.tip_arm_K().norm())) {
        return std::nullopt;
    }
    const double turned = -linkage.lash_mm() / lever;
    const Vec3 upper = turned * n.cross(linkage.ball_arm_K());
    const Vec3 lower = rod.dot(upper) * rod;
    Vec3 wall = Vec3::Zero();
    if (place.fixed_to == FixedTo::rocker) {
        wall = turned * n.cross(place.p_wall_K - linkage.pivot_K());
    }
    const Vec3 axis = lower + place.station_mm / L * (upper - lower);
    return place.normal_K.dot(wall - axis);
}

} // namespace rodway
