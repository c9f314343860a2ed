#include "core/clearance/hot_and_cold.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "core/clearance/doubt.h"

namespace rodway {
namespace {

/// One train of a grown engine.
struct Closed {
    TrainStatus status = TrainStatus::answered;
    std::optional<double> lash_mm;
    std::optional<RodClearance> least;
};

Result<Closed> closed_again(const Engine& engine, const Train& train) {
    const auto surroundings = train_surroundings(engine, train);
    if (!surroundings) {
        return surroundings.error();
    }
    Closed closed;
    closed.status = surroundings->status;
    if (!surroundings->surroundings) {
        return closed;
    }
    if (train.lifter.kind == LifterKind::solid) {
        closed.lash_mm = surroundings->surroundings->linkage.lash_mm();
    }
    const std::vector<CertifiedMinimum> all = certified_minima(*surroundings->surroundings);
    const CertifiedMinimum& found = deciding(all);
    closed.status = found.status;
    closed.least = found.minimum;
    return closed;
}

class Warming {
  public:
    Warming(const Engine& engine, const HotStated& stated)
        : engine_(engine), stated_(stated), as_set_(trains_as_set(engine)) {}

    std::vector<PartGrowth> parts() const {
        std::vector<PartGrowth> parts;
        for (const HotPart part : hot_parts()) {
            const PartWarmth& warmth = stated_.of(part);
            if (!warmth.temperature_degC || (!warmth.metal && !warmth.expansion_per_K)) {
                continue;
            }
            PartGrowth growth;
            growth.part = part;
            growth.metal = warmth.expansion_per_K ? std::nullopt : warmth.metal;
            growth.expansion_per_K = growth.metal ? expansion_per_K(*growth.metal)
                                                  : Interval::exactly(*warmth.expansion_per_K);
            growth.warmed_K = *warmth.temperature_degC - stated_.cold_degC;
            parts.push_back(growth);
        }
        return parts;
    }

    /// Cold, each train as the survey has it.
    Result<Done> look_at_cold(std::vector<HotClearance>& valves) const {
        for (const Train& train : engine_.trains) {
            const auto closed = train_surroundings(engine_, train);
            if (!closed) {
                return closed.error();
            }
            HotClearance valve;
            valve.valve = train.position;
            valve.status = closed->status;
            if (closed->surroundings) {
                const std::vector<CertifiedMinimum> all = certified_minima(*closed->surroundings);
                valve.status = deciding(all).status;
                valve.cold = deciding(all).minimum;
                if (train.lifter.kind == LifterKind::solid) {
                    valve.cold_lash_mm = closed->surroundings->linkage.lash_mm();
                }
                const auto doubt =
                    doubt_of(engine_, train, *closed->surroundings, all, engine_.doubt);
                if (valve.cold) {
                    valve.doubt_mm = minimum_doubt_mm(engine_, train, doubt, valve.cold->feature);
                }
            }
            valves.push_back(std::move(valve));
        }
        return Done{};
    }

    /// Hot by the middles of the coefficients, then by their ends in every combination.
    Result<Done> warm(const std::vector<PartGrowth>& parts, std::vector<HotClearance>& valves,
                      const std::stop_token& stop) const {
        std::vector<Metal> metals;
        for (const PartGrowth& part : parts) {
            if (part.metal && part.warmed_K != 0.0 &&
                std::find(metals.begin(), metals.end(), *part.metal) == metals.end()) {
                metals.push_back(*part.metal);
            }
        }
        std::map<Metal, double> coefficients;
        if (const auto done = look_at_hot(parts, coefficients, valves, true); !done) {
            return done.error();
        }
        for (std::size_t corner = 0; corner < std::size_t{1} << metals.size(); ++corner) {
            if (stop.stop_requested()) {
                break;
            }
            for (std::size_t at = 0; at < metals.size(); ++at) {
                const Interval spread = expansion_per_K(metals[at]);
                coefficients[metals[at]] = (corner >> at & 1U) != 0 ? spread.high : spread.low;
            }
            if (const auto done = look_at_hot(parts, coefficients, valves, false); !done) {
                return done.error();
            }
        }
        return Done{};
    }

    void judge_hot(HotClearance& valve) const {
        if (!valve.hot || !valve.hot_least_mm) {
            return;
        }
        const double middle_mm = valve.hot->clearance_mm;
        if (valve.doubt_mm) {
            *valve.doubt_mm +=
                std::max(middle_mm - valve.hot_least_mm->low, valve.hot_least_mm->high - middle_mm);
        }
        valve.verdict =
            judge(middle_mm, valve.doubt_mm, RodClearanceLimits{engine_.rod_clearance_limit_mm});
    }

  private:
    Result<Done> look_at_hot(const std::vector<PartGrowth>& parts,
                             const std::map<Metal, double>& coefficients,
                             std::vector<HotClearance>& valves, bool middle) const {
        PartStrains strains{};
        for (const PartGrowth& part : parts) {
            const auto found = part.metal ? coefficients.find(*part.metal) : coefficients.end();
            const double per_K =
                found == coefficients.end() ? part.expansion_per_K.middle() : found->second;
            strains[static_cast<std::size_t>(part.part)] = per_K * part.warmed_K;
        }
        const Engine hot = grown_engine(engine_, as_set_, stated_, strains);
        for (std::size_t at = 0; at < valves.size(); ++at) {
            if (valves[at].status != TrainStatus::answered || !as_set_[at]) {
                continue;
            }
            const auto closed = closed_again(hot, hot.trains[at]);
            if (!closed) {
                return closed.error();
            }
            take(valves[at], *closed, middle);
        }
        return Done{};
    }

    static void take(HotClearance& valve, const Closed& closed, bool middle) {
        if (closed.status != TrainStatus::answered) {
            valve.status = closed.status;
            valve.hot.reset();
            valve.hot_lash_mm.reset();
            valve.hot_least_mm.reset();
            return;
        }
        if (middle) {
            valve.hot = closed.least;
        }
        widen(valve.hot_lash_mm, closed.lash_mm);
        widen(valve.hot_least_mm, closed.least->clearance_mm);
    }
    static void widen(std::optional<Interval>& range, const std::optional<double>& value) {
        if (value) {
            range = range ? Interval{std::min(range->low, *value), std::max(range->high, *value)}
                          : Interval::exactly(*value);
        }
    }

    const Engine& engine_;
    const HotStated& stated_;
    std::vector<std::optional<Train>> as_set_;
};

} // namespace

Result<HotAndCold> hot_and_cold(const Engine& engine, const HotStated& stated,
                                const std::stop_token& stop) {
    HotAndCold answer;
    answer.missing = missing_to_grow(engine, stated);
    if (!answer.missing.empty()) {
        return answer;
    }
    const Warming warming(engine, stated);
    answer.parts = warming.parts();
    if (const auto done = warming.look_at_cold(answer.valves); !done) {
        return done.error();
    }
    if (const auto done = warming.warm(answer.parts, answer.valves, stop); !done) {
        return done.error();
    }
    for (HotClearance& valve : answer.valves) {
        warming.judge_hot(valve);
    }
    return answer;
}

} // namespace rodway
