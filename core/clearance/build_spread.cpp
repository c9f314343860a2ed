#include "core/clearance/build_spread.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "core/clearance/causes.h"
#include "core/clearance/train_surroundings.h"

namespace rodway {
namespace {

/// SplitMix64 (Steele, Lea & Flood, "Fast splittable pseudorandom number generators", OOPSLA 2014):
/// the same numbers on every machine, which the standard library's distributions don't promise.
class Draws {
  public:
    Draws(std::uint64_t seed, std::uint64_t build) : state_(seed) { state_ ^= mixed(build + 1); }

    /// Of a standard normal distribution (Box and Muller, Ann. Math. Stat. 29, 1958, 610-611).
    double normal() {
        const double radius = std::sqrt(-2.0 * std::log(1.0 - uniform()));
        return radius * std::cos(2.0 * std::numbers::pi * uniform());
    }

  private:
    static std::uint64_t mixed(std::uint64_t z) {
        z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9U;
        z = (z ^ (z >> 27)) * 0x94d049bb133111ebU;
        return z ^ (z >> 31);
    }
    /// 0 up to 1.
    double uniform() {
        state_ += 0x9e3779b97f4a7c15U;
        return static_cast<double>(mixed(state_) >> 11) * 0x1.0p-53;
    }

    std::uint64_t state_;
};

struct Uncertain {
    EngineParameter parameter;
    double u = 0.0; ///< standard uncertainty, mm or rad
};

/// One train by itself, and what of it is drawn.
struct SampledTrain {
    Engine engine; ///< with this train alone
    std::vector<Uncertain> own;
    std::vector<std::size_t> shared; ///< which of the shared ones act on it
};

class Sampler {
  public:
    static Result<Sampler> make(const Engine& engine) {
        Sampler sampler;
        for (const Train& train : engine.trains) {
            const auto closed = train_surroundings(engine, train);
            if (!closed) {
                return closed.error();
            }
            SampledTrain sampled{engine, {}, {}};
            sampled.engine.trains = {train};
            if (closed->surroundings) {
                sampler.add_inputs(sampled, engine, train, *closed->surroundings);
            }
            sampler.trains_.push_back(std::move(sampled));
        }
        return sampler;
    }

    [[nodiscard]] bool draws_nothing() const {
        return shared_.empty() &&
               std::all_of(trains_.begin(), trains_.end(),
                           [](const SampledTrain& train) { return train.own.empty(); });
    }

    /// Least clearance of every train in one build; NaN where there is none.
    [[nodiscard]] std::vector<double> build(Draws draws) const {
        std::vector<double> shared;
        shared.reserve(shared_.size());
        for (const Uncertain& each : shared_) {
            shared.push_back(each.u * draws.normal());
        }
        std::vector<double> least;
        least.reserve(trains_.size());
        for (const SampledTrain& train : trains_) {
            least.push_back(least_mm(train, shared, draws));
        }
        return least;
    }

  private:
    void add_inputs(SampledTrain& sampled, const Engine& engine, const Train& train,
                    const TrainSurroundings& surroundings) {
        std::vector<EngineParameter> seen;
        for (const CertifiedMinimum& found : certified_minima(surroundings)) {
            if (!found.minimum) {
                continue;
            }
            const ClearancePlace place = place_beside(engine, train, surroundings, *found.minimum);
            for (const EngineParameter& parameter : parameters_at(engine, train, place)) {
                const auto stated = engine.doubt.inputs.find(parameter.kind);
                const bool drawn = stated != engine.doubt.inputs.end() &&
                                   stated->second.size > 0.0 &&
                                   parameter.kind != ParameterKind::adjuster; // it is set again
                if (drawn && std::find(seen.begin(), seen.end(), parameter) == seen.end()) {
                    seen.push_back(parameter);
                    add_input(sampled, {parameter, stated->second.size});
                }
            }
        }
    }

    void add_input(SampledTrain& sampled, const Uncertain& input) {
        if (input.parameter.valve) {
            sampled.own.push_back(input);
            return;
        }
        const auto found = std::find_if(
            shared_.begin(), shared_.end(),
            [&](const Uncertain& other) { return other.parameter == input.parameter; });
        sampled.shared.push_back(static_cast<std::size_t>(found - shared_.begin()));
        if (found == shared_.end()) {
            shared_.push_back(input);
        }
    }

    [[nodiscard]] double least_mm(const SampledTrain& train, const std::vector<double>& shared,
                                  Draws& draws) const {
        constexpr double none = std::numeric_limits<double>::quiet_NaN();
        std::optional<Engine> engine = train.engine;
        const auto change = [&](const EngineParameter& parameter, double delta) {
            engine = engine ? with_change(*engine, parameter, delta) : std::nullopt;
        };
        for (const std::size_t at : train.shared) {
            change(shared_[at].parameter, shared[at]);
        }
        // Every number is drawn, whatever comes of the ones before: the next train's stay its own.
        for (const Uncertain& input : train.own) {
            change(input.parameter, input.u * draws.normal());
        }
        if (!engine) {
            return none;
        }
        const auto closed = train_surroundings(*engine, engine->trains.front());
        if (!closed || !closed->surroundings) {
            return none;
        }
        const std::vector<CertifiedMinimum> all = certified_minima(*closed->surroundings);
        const CertifiedMinimum& least = deciding(all);
        return least.minimum ? least.minimum->clearance_mm : none;
    }

    std::vector<Uncertain> shared_;
    std::vector<SampledTrain> trains_;
};

/// The value below which a share of sorted ones lies, between the two next to it; those without an
/// answer come first.
std::optional<double> quantile(const std::vector<double>& sorted, double share) {
    const double at = share * static_cast<double>(sorted.size() - 1);
    const auto below = static_cast<std::size_t>(std::floor(at));
    const std::size_t above = std::min(below + 1, sorted.size() - 1);
    const double part = at - static_cast<double>(below);
    const double value = sorted[below] + part * (sorted[above] - sorted[below]);
    return std::isfinite(value) ? std::optional(value) : std::nullopt;
}

ValveSpread spread_of(const ValvePosition& valve, std::vector<double> least, double limit_mm) {
    constexpr double one_in_40 = 0.025;
    const auto builds = static_cast<double>(least.size());
    ValveSpread spread;
    spread.valve = valve;
    double none = 0.0;
    double below = 0.0;
    for (double& value : least) {
        if (std::isnan(value)) {
            value = -std::numeric_limits<double>::infinity();
            none += 1.0;
        }
        below += value < limit_mm ? 1.0 : 0.0;
    }
    std::sort(least.begin(), least.end());
    spread.low_mm = quantile(least, one_in_40);
    spread.middle_mm = quantile(least, 0.5);
    spread.high_mm = quantile(least, 1.0 - one_in_40);
    spread.below_limit = below / builds;
    spread.without_answer = none / builds;
    return spread;
}

} // namespace

Result<BuildSpread> build_spread(const Engine& engine, const SpreadRequest& request,
                                 const std::stop_token& stop, std::atomic<int>* done) {
    constexpr int fewest = 40;
    constexpr int most = 100000;
    if (request.builds < fewest || request.builds > most) {
        return Error{ErrorCode::out_of_range, "builds", std::to_string(request.builds), {}, {},
                     Limits{fewest, most, {}}};
    }
    const auto sampler = Sampler::make(engine);
    if (!sampler) {
        return sampler.error();
    }
    if (sampler->draws_nothing()) {
        return Error{ErrorCode::missing_field, "doubt/inputs", {}, {}, {}, {}};
    }
    std::vector<std::vector<double>> least(engine.trains.size());
    BuildSpread spread;
    int any_below = 0;
    while (spread.builds < request.builds && !stop.stop_requested()) {
        const std::vector<double> build =
            sampler->build(Draws(request.seed, static_cast<std::uint64_t>(spread.builds)));
        bool below = false;
        for (std::size_t at = 0; at < build.size(); ++at) {
            least[at].push_back(build[at]);
            below = below || !(build[at] >= engine.rod_clearance_limit_mm);
        }
        any_below += below ? 1 : 0;
        ++spread.builds;
        if (done != nullptr) {
            done->store(spread.builds);
        }
    }
    if (spread.builds == 0) {
        return spread;
    }
    spread.any_below_limit = static_cast<double>(any_below) / spread.builds;
    for (std::size_t at = 0; at < least.size(); ++at) {
        spread.valves.push_back(spread_of(engine.trains[at].position, std::move(least[at]),
                                          engine.rod_clearance_limit_mm));
    }
    return spread;
}

} // namespace rodway
