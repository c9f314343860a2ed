#include "core/clearance/causes.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/units/length.h"

namespace rodway {
namespace {

constexpr std::array of_every_train{ParameterKind::lifter_height,
                                    ParameterKind::lifter_rearward,
                                    ParameterKind::lifter_outboard,
                                    ParameterKind::lifter_lean_rearward,
                                    ParameterKind::lifter_lean_outboard,
                                    ParameterKind::base_circle,
                                    ParameterKind::lobe_lift,
                                    ParameterKind::rod_length,
                                    ParameterKind::rod_diameter,
                                    ParameterKind::pivot_height,
                                    ParameterKind::pivot_outboard,
                                    ParameterKind::pivot_rearward,
                                    ParameterKind::ball_arm_length,
                                    ParameterKind::tip_arm_length,
                                    ParameterKind::shaft_tilt_up,
                                    ParameterKind::shaft_tilt_outboard,
                                    ParameterKind::lash,
                                    ParameterKind::adjuster};
constexpr std::array of_passages{
    ParameterKind::passage_rearward,      ParameterKind::passage_outboard,
    ParameterKind::passage_slide,         ParameterKind::passage_lean_rearward,
    ParameterKind::passage_lean_outboard, ParameterKind::passage_bore};

/// Nothing moves a place that isn't the parameter's.
std::optional<double> rate_of_place(const Engine& engine, const Train& train,
                                    const Linkage& linkage, const ClearancePlace& place,
                                    const EngineParameter& parameter, Held held) {
    const bool of_a_thing = !parameter.thing.empty();
    if (of_a_thing && parameter.thing != place.thing) {
        return 0.0;
    }
    const auto rates = parameter_rates(engine, train, place, parameter);
    return rates ? clearance_rate(train, linkage, place, *rates, held) : std::nullopt;
}

std::optional<CauseRate> rate_of_minimum(const Engine& engine, const Train& train,
                                         const Linkage& linkage,
                                         const std::vector<ClearancePlace>& places,
                                         const EngineParameter& parameter, Held held) {
    std::optional<CauseRate> rate;
    for (std::size_t at = 0; at < places.size(); ++at) {
        const auto here = rate_of_place(engine, train, linkage, places[at], parameter, held);
        if (!here) {
            return std::nullopt;
        }
        const SideRate side{*here, at};
        if (!rate) {
            rate = CauseRate{side, side};
        }
        if (side.per_unit < rate->when_more.per_unit) {
            rate->when_more = side;
        }
        if (side.per_unit > rate->when_less.per_unit) {
            rate->when_less = side;
        }
    }
    return rate;
}

double rank_of(const Cause& cause) {
    const auto& rate = cause.adjuster_reset ? cause.adjuster_reset : cause.rod_rechosen;
    return rate->size() / (is_angle(cause.parameter.kind) ? Length::mm_per_inch : 1.0);
}

} // namespace

double CauseRate::size() const {
    return std::max(std::abs(when_less.per_unit), std::abs(when_more.per_unit));
}

std::vector<EngineParameter> parameters_at(const Engine& engine, const Train& train,
                                           const ClearancePlace& place) {
    std::vector<EngineParameter> parameters;
    for (const ParameterKind kind : of_every_train) {
        const bool no_lash =
            kind == ParameterKind::lash && train.lifter.kind == LifterKind::hydraulic;
        const bool no_adjuster =
            kind == ParameterKind::adjuster && train.adjuster.kind == AdjusterKind::none;
        if (!no_lash && !no_adjuster) {
            parameters.push_back({kind, train.position});
        }
    }
    for (std::size_t bank = 0; bank < engine.layout.banks.size(); ++bank) {
        const bool flange = place.fixed_to == FixedTo::intake && bank < engine.flanges.size() &&
                            engine.flanges[bank] &&
                            (engine.one_intake_for_all || bank == place.bank);
        const bool head = place.fixed_to == FixedTo::head && bank == place.bank;
        if (bank == train.bank || flange || head) {
            parameters.push_back({ParameterKind::head_gasket, {}, bank});
        }
        if (flange) {
            parameters.push_back({ParameterKind::intake_gasket, {}, bank});
        }
    }
    if (place.passage_K) {
        for (const ParameterKind kind : of_passages) {
            parameters.push_back({kind, train.position, 0, place.thing});
        }
    } else if (place.fixed_to != FixedTo::rocker) {
        const auto& banks = engine.layout.banks;
        const Vec3 away =
            banks[place.bank].frame.from_block(banks[train.bank].frame.to_block(place.normal_K));
        parameters.push_back({ParameterKind::obstacle_away, {}, place.bank, place.thing, away});
    }
    return parameters;
}

MinimumCauses causes_at(const Engine& engine, const Train& train, const Linkage& linkage,
                        std::vector<ClearancePlace> places) {
    MinimumCauses found;
    std::vector<EngineParameter> parameters;
    for (const ClearancePlace& place : places) {
        for (const EngineParameter& parameter : parameters_at(engine, train, place)) {
            if (std::find(parameters.begin(), parameters.end(), parameter) == parameters.end()) {
                parameters.push_back(parameter);
            }
        }
    }
    for (const EngineParameter& parameter : parameters) {
        Cause cause;
        cause.parameter = parameter;
        cause.adjuster_reset =
            rate_of_minimum(engine, train, linkage, places, parameter, Held::adjuster_reset);
        cause.rod_rechosen =
            rate_of_minimum(engine, train, linkage, places, parameter, Held::rod_rechosen);
        if (cause.adjuster_reset || cause.rod_rechosen) {
            found.causes.push_back(cause);
        }
    }
    std::stable_sort(found.causes.begin(), found.causes.end(),
                     [](const Cause& a, const Cause& b) { return rank_of(a) > rank_of(b); });
    found.places = std::move(places);
    return found;
}

Result<std::optional<MinimumCauses>> causes_of(const Engine& engine, const Train& train) {
    const Result<ClosedSurroundings> closed = train_surroundings(engine, train);
    if (!closed) {
        return closed.error();
    }
    if (!closed->surroundings) {
        return std::optional<MinimumCauses>();
    }
    const TrainSurroundings& surroundings = *closed->surroundings;
    auto places = places_of_minimum(engine, train, surroundings, certified_minima(surroundings));
    if (places.empty()) {
        return std::optional<MinimumCauses>();
    }
    return std::optional(causes_at(engine, train, surroundings.linkage, std::move(places)));
}

} // namespace rodway
