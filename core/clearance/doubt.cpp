#include "core/clearance/doubt.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/clearance/passage_place.h"

namespace rodway {
namespace {

constexpr double coverage_factor = 2.0;
/// A rod that pushes its rocker along the shaft with less than this share of its load pushes it
/// nowhere for certain (common practice, no source: well below oiled friction).
constexpr double least_side_share = 0.005;

/// One place of one train, and what moves the parts there as the engine is assembled.
class DoubtOfPlace {
  public:
    DoubtOfPlace(const Engine& engine, const Train& train, const Linkage& linkage,
                 const ClearancePlace& place)
        : engine_(engine), train_(train), linkage_(linkage), place_(place) {}

    std::vector<DoubtContribution> intervals(const EngineDoubt& stated) const {
        std::vector<DoubtContribution> found;
        lash_float(found, stated);
        end_float(found, stated);
        seat_off_axis(found, stated);
        rod_bow(found, stated);
        lifter_bore_slop(found, stated);
        leak_down(found, stated);
        return found;
    }

    std::vector<DoubtContribution> inputs(const EngineDoubt& stated) const {
        std::vector<DoubtContribution> found;
        for (const EngineParameter& parameter : parameters_at(engine_, train_, place_)) {
            const auto size = stated.inputs.find(parameter.kind);
            if (size == stated.inputs.end() || !(size->second.size > 0.0) ||
                !std::isfinite(size->second.size) || told_by_fit(parameter.kind)) {
                continue;
            }
            const auto rates = parameter_rates(engine_, train_, place_, parameter);
            const auto rate =
                rates ? clearance_rate(train_, linkage_, place_, *rates, Held::adjuster_reset)
                      : std::nullopt;
            if (rate) {
                const double both = coverage_factor * std::abs(*rate) * size->second.size;
                found.push_back({DoubtKind::input, parameter, size->second.size,
                                 size->second.source, both, both});
            }
        }
        return found;
    }

    /// What the readings leave open of a fitted passage's place.
    [[nodiscard]] std::optional<DoubtContribution> of_fit() const {
        const Passage* passage = find_passage(train_, place_.thing);
        if (!passage || !passage->fitted_doubt_mm) {
            return std::nullopt;
        }
        const double both = *passage->fitted_doubt_mm;
        return DoubtContribution{DoubtKind::fit, {}, both, DoubtSource::measured, both, both};
    }

  private:
    [[nodiscard]] bool told_by_fit(ParameterKind kind) const {
        return (kind == ParameterKind::passage_rearward ||
                kind == ParameterKind::passage_outboard ||
                kind == ParameterKind::passage_lean_rearward ||
                kind == ParameterKind::passage_lean_outboard) &&
               of_fit().has_value();
    }
    /// d(clearance) for the parts moved so, the adjuster left as it is.
    double as_assembled(const ParameterRates& rates) const {
        return clearance_rate(train_, linkage_, place_, rates, Held::nothing_reset).value_or(0.0);
    }
    double lower_ball_moved(const Vec3& way_K) const {
        ParameterRates rates;
        rates.foot_K = way_K;
        return as_assembled(rates);
    }

    static void add(std::vector<DoubtContribution>& found, DoubtKind kind, const StatedSize& size,
                    double takes_mm, double gives_mm) {
        const bool acts = takes_mm > 0.0 || gives_mm > 0.0;
        if (acts && std::isfinite(takes_mm) && std::isfinite(gives_mm)) {
            found.push_back({kind, {}, size.size, size.source, takes_mm, gives_mm});
        }
    }
    /// An effect that acts one way only.
    static void add_one_way(std::vector<DoubtContribution>& found, DoubtKind kind,
                            const StatedSize& size, double effect_mm) {
        add(found, kind, size, std::max(0.0, -effect_mm), std::max(0.0, effect_mm));
    }

    void lash_float(std::vector<DoubtContribution>& found, const EngineDoubt& stated) const {
        const auto effect = lash_float_effect_mm(train_, linkage_, place_);
        if (stated.lash_float && effect) {
            add_one_way(found, DoubtKind::lash_float, {linkage_.lash_mm(), *stated.lash_float},
                        *effect);
        }
    }

    /// The pivot is taken to have been measured in the middle of its float; a rod that leans along
    /// the shaft keeps its rocker at the end towards which it leans.
    void end_float(std::vector<DoubtContribution>& found, const EngineDoubt& stated) const {
        const StatedSize size{train_.rocker.end_float_mm, stated.end_float};
        const auto pose = linkage_.at(place_.lobe_lift_mm);
        if (!(size.size > 0.0) || !pose) {
            return;
        }
        ParameterRates rates;
        rates.pivot_K = linkage_.shaft_axis_K();
        const double effect = as_assembled(rates) * size.size / 2.0;
        const double side_share =
            (pose->upper_ball_K - pose->lower_ball_K).normalized().dot(linkage_.shaft_axis_K());
        if (std::abs(side_share) < least_side_share) {
            add(found, DoubtKind::end_float, size, std::abs(effect), std::abs(effect));
        } else {
            add_one_way(found, DoubtKind::end_float, size, std::copysign(1.0, side_share) * effect);
        }
    }

    /// The seat goes round, so it stands the worst way some time.
    void seat_off_axis(std::vector<DoubtContribution>& found, const EngineDoubt& stated) const {
        if (!stated.seat_off_axis || train_.lifter.follower == FollowerKind::roller ||
            place_.lifter_body) {
            return;
        }
        const double effect = stated.seat_off_axis->size * sideways_rate();
        add(found, DoubtKind::seat_off_axis, *stated.seat_off_axis, effect, effect);
    }

    double sideways_rate() const {
        const AcrossAxis across = across_axis(linkage_.lifter_axis_K(), 1.0);
        return std::hypot(lower_ball_moved(across.rearward_K), lower_ball_moved(across.outboard_K));
    }

    /// Half the indicator reading in the middle, running out to nothing at the balls as a parabola.
    void rod_bow(std::vector<DoubtContribution>& found, const EngineDoubt& stated) const {
        if (!stated.rod_runout || place_.lifter_body) {
            return;
        }
        const double along = std::clamp(place_.station_mm / linkage_.rod_length_mm(), 0.0, 1.0);
        const double bow = stated.rod_runout->size / 2.0 * 4.0 * along * (1.0 - along);
        add(found, DoubtKind::rod_bow, *stated.rod_runout, bow, bow);
    }

    /// Off the heel the lobe presses the lifter to one side of its bore on the way up, to the other
    /// on the way down, in the plane in which the cam turns. On the heel it stands anywhere.
    void lifter_bore_slop(std::vector<DoubtContribution>& found, const EngineDoubt& stated) const {
        if (!stated.lifter_bore_slop) {
            return;
        }
        const double half = stated.lifter_bore_slop->size / 2.0;
        const AcrossAxis across = across_axis(linkage_.lifter_axis_K(), 1.0);
        const double rate = place_.lobe_lift_mm > 0.0
                                ? std::abs(lower_ball_moved(across.outboard_K))
                                : sideways_rate();
        add(found, DoubtKind::lifter_bore_slop, *stated.lifter_bore_slop, half * rate, half * rate);
    }

    void leak_down(std::vector<DoubtContribution>& found, const EngineDoubt& stated) const {
        if (!stated.leak_down || train_.lifter.kind != LifterKind::hydraulic ||
            place_.lifter_body) {
            return;
        }
        const double left = std::max(0.0, train_.lifter.plunger_travel_mm - linkage_.preload_mm());
        const double sinks = std::min(stated.leak_down->size, left);
        add_one_way(found, DoubtKind::leak_down, *stated.leak_down,
                    sinks * lower_ball_moved(-linkage_.lifter_axis_K()));
    }

    const Engine& engine_;
    const Train& train_;
    const Linkage& linkage_;
    const ClearancePlace& place_;
};

ClearanceDoubt summed(std::vector<DoubtContribution> intervals,
                      const std::vector<DoubtContribution>& inputs) {
    ClearanceDoubt doubt;
    for (const DoubtContribution& interval : intervals) {
        doubt.minus_mm += interval.takes_mm;
        doubt.plus_mm += interval.gives_mm;
    }
    std::vector<UncertainInput> terms;
    terms.reserve(inputs.size());
    for (const DoubtContribution& input : inputs) {
        terms.push_back({1.0, input.takes_mm / coverage_factor});
    }
    const double expanded = coverage_factor * combined_standard_uncertainty(terms);
    doubt.minus_mm += expanded;
    doubt.plus_mm += expanded;
    doubt.contributions = std::move(intervals);
    doubt.contributions.insert(doubt.contributions.end(), inputs.begin(), inputs.end());
    std::stable_sort(doubt.contributions.begin(), doubt.contributions.end(),
                     [](const DoubtContribution& a, const DoubtContribution& b) {
                         return std::max(a.takes_mm, a.gives_mm) > std::max(b.takes_mm, b.gives_mm);
                     });
    return doubt;
}

} // namespace

double ClearanceDoubt::guard_band_mm() const {
    return std::max(minus_mm, plus_mm);
}

double combined_standard_uncertainty(const std::vector<UncertainInput>& inputs) {
    double squares = 0.0;
    for (const UncertainInput& input : inputs) {
        const double term = input.sensitivity * input.standard_uncertainty;
        squares += term * term;
    }
    return std::sqrt(squares);
}

double chance_of_conformance(double clearance_mm, double limit_mm, double doubt_mm) {
    RODWAY_ASSERT(doubt_mm > 0.0);
    const double z = (clearance_mm - limit_mm) / (doubt_mm / coverage_factor);
    return std::erfc(-z / std::numbers::sqrt2) / 2.0;
}

std::optional<double> minimum_doubt_mm(const Engine& engine, const Train& train,
                                       const std::optional<ClearanceDoubt>& doubt,
                                       std::string_view near) {
    if (doubt) {
        return doubt->guard_band_mm();
    }
    if (!engine.assumed_doubt_mm) {
        return std::nullopt;
    }
    const Passage* passage = find_passage(train, near);
    const double fitted = passage ? passage->fitted_doubt_mm.value_or(0.0) : 0.0;
    return std::hypot(*engine.assumed_doubt_mm, fitted);
}

std::optional<ClearanceDoubt> doubt_at(const Engine& engine, const Train& train,
                                       const Linkage& linkage,
                                       const std::vector<ClearancePlace>& places,
                                       const EngineDoubt& stated,
                                       const std::vector<DoubtContribution>& more) {
    std::optional<ClearanceDoubt> least;
    bool any_stated =
        false; // of the rest of the engine: a fit alone doesn't say how well it stands
    for (std::size_t at = 0; at < places.size(); ++at) {
        const DoubtOfPlace place(engine, train, linkage, places[at]);
        std::vector<DoubtContribution> intervals = place.intervals(stated);
        intervals.insert(intervals.end(), more.begin(), more.end());
        std::vector<DoubtContribution> inputs = place.inputs(stated);
        any_stated = any_stated || !intervals.empty() || !inputs.empty();
        if (const auto fitted = place.of_fit()) {
            inputs.push_back(*fitted);
        }
        ClearanceDoubt here = summed(std::move(intervals), inputs);
        // The minimum is wherever the least is: so much more clearance must first be taken away.
        const double above = places[at].clearance_mm - places[0].clearance_mm;
        here.minus_mm = std::max(0.0, here.minus_mm - above);
        here.plus_mm += above;
        here.place = at;
        if (!least) {
            least = std::move(here);
            continue;
        }
        const double plus = std::min(least->plus_mm, here.plus_mm);
        if (here.minus_mm > least->minus_mm) {
            least = std::move(here);
        }
        least->plus_mm = plus;
    }
    if (!least || !any_stated || !(least->guard_band_mm() > 0.0)) {
        return std::nullopt;
    }
    least->chance_of_limit = chance_of_conformance(
        places[0].clearance_mm, engine.rod_clearance_limit_mm, least->guard_band_mm());
    return least;
}

std::optional<ClearanceDoubt> doubt_of(const Engine& engine, const Train& train,
                                       const TrainSurroundings& surroundings,
                                       const std::vector<CertifiedMinimum>& all,
                                       const EngineDoubt& stated,
                                       const std::vector<DoubtContribution>& more) {
    if (all.empty() || !deciding(all).minimum) {
        return std::nullopt;
    }
    std::vector<ClearancePlace> places{
        place_beside(engine, train, surroundings, *deciding(all).minimum)};
    for (const CertifiedMinimum& found : all) {
        for (const auto& other : {found.minimum, found.on_heel, found.at_full_lift}) {
            const ClearancePlace& first = places.front();
            const bool same =
                first.thing == other->feature && first.lobe_lift_mm == other->lobe_lift_mm;
            if (!same) {
                places.push_back(place_beside(engine, train, surroundings, *other));
            }
        }
    }
    return doubt_at(engine, train, surroundings.linkage, places, stated, more);
}

} // namespace rodway
