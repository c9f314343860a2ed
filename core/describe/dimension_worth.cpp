#include "core/describe/dimension_worth.h"

#include <algorithm>
#include <cmath>

#include "core/clearance/certified_minimum.h"
#include "core/engine/set_up.h"

namespace rodway {
namespace {

using Minima = std::map<ValvePosition, std::optional<double>>;

Result<Minima> minima_of(const SetUpFields& fields, LobesMade& made) {
    const auto engine = make_engine(fields, made);
    if (!engine) {
        return engine.error();
    }
    Minima minima;
    for (const Train& train : engine->trains) {
        const auto closed = train_surroundings(*engine, train);
        if (!closed) {
            return closed.error();
        }
        std::optional<double> least;
        if (closed->surroundings) {
            const auto all = certified_minima(*closed->surroundings);
            if (const auto& found = deciding(all); found.minimum) {
                least = found.minimum->clearance_mm;
            }
        }
        minima.emplace(train.position, least);
    }
    return minima;
}

/// One dimension's sizes by owner, and which valves each stands for.
struct OwnedSize {
    DescribedSize size;
    std::vector<ValvePosition> valves;
};
using OwnedSizes = std::map<std::string, OwnedSize>;

Result<OwnedSizes> owned_sizes(const Description& description, const EngineDimension& dimension) {
    OwnedSizes owned;
    for (const DescribedValve& valve : description.valves()) {
        const auto size = description.size(dimension, valve);
        if (!size) {
            return size.error();
        }
        if (size->stand != SizeStand::missing) {
            OwnedSize& one = owned[size->owner];
            one.size = *size;
            one.valves.push_back(valve.position);
        }
    }
    return owned;
}

/// Every owner's size changed by its own ±: a valve has one of each dimension, so that all can be
/// tried at once.
SetUpFields with_all(SetUpFields fields, const EngineDimension& dimension, const OwnedSizes& owned,
                     double way) {
    for (const auto& [owner, one] : owned) {
        const double wanted =
            std::clamp(one.size.value + way * one.size.doubt, dimension.low, dimension.high);
        fields[described_path(owner, dimension)] = {plain_digits(wanted),
                                                    dimension.angle ? "deg" : "mm"};
    }
    return fields;
}

class WorthSearch {
  public:
    WorthSearch(const SetUpFields& fields, const Description& description, const Minima& minima,
                LobesMade& made)
        : fields_(fields), description_(description), minima_(minima), made_(made) {}

    std::optional<Error> add(const EngineDimension& dimension) {
        const auto owned = owned_sizes(description_, dimension);
        if (!owned) {
            return owned.error();
        }
        const auto more = minima_of(with_all(fields_, dimension, *owned, 1.0), made_);
        const auto less = minima_of(with_all(fields_, dimension, *owned, -1.0), made_);
        for (const auto& [owner, one] : *owned) {
            SizeWorth worth{&dimension, one.size, 0.0, one.valves.front()};
            bool used = false;
            for (const ValvePosition& valve : one.valves) {
                if (!description_.has(dimension, *description_.valve(valve))) {
                    continue;
                }
                used = true;
                const auto here = worth_at(valve, more, less);
                note(valve, here);
                if (!here) {
                    worth.worth_mm.reset();
                    worth.valve = valve;
                } else if (worth.worth_mm && *here > *worth.worth_mm) {
                    worth.worth_mm = here;
                    worth.valve = valve;
                }
            }
            if (used) {
                found_.sizes.push_back(worth);
            }
        }
        return std::nullopt;
    }

    DescriptionWorth finish() {
        std::stable_sort(found_.sizes.begin(), found_.sizes.end(),
                         [](const auto& a, const auto& b) {
                             return a.worth_mm.value_or(INFINITY) > b.worth_mm.value_or(INFINITY);
                         });
        for (const auto& [valve, clearance] : minima_) {
            DescribedClearance line{valve, clearance, std::nullopt};
            if (clearance && !unclear_.contains(valve)) {
                line.doubt_mm = std::sqrt(squares_[valve]);
            }
            found_.valves.push_back(line);
        }
        return found_;
    }

  private:
    [[nodiscard]] std::optional<double> worth_at(const ValvePosition& valve,
                                                 const Result<Minima>& more,
                                                 const Result<Minima>& less) const {
        if (!more || !less || !minima_.at(valve) || !more->at(valve) || !less->at(valve)) {
            return std::nullopt;
        }
        const double stands = *minima_.at(valve);
        return std::max(std::abs(*more->at(valve) - stands), std::abs(*less->at(valve) - stands));
    }
    void note(const ValvePosition& valve, const std::optional<double>& worth_mm) {
        if (worth_mm) {
            squares_[valve] += *worth_mm * *worth_mm;
        } else {
            unclear_[valve] = true;
        }
    }

    const SetUpFields& fields_;
    const Description& description_;
    const Minima& minima_;
    LobesMade& made_;
    std::map<ValvePosition, double> squares_;
    std::map<ValvePosition, bool> unclear_;
    DescriptionWorth found_;
};

} // namespace

Result<DescriptionWorth> description_worth(const SetUpFields& fields, LobesMade& made,
                                           const std::stop_token& stop) {
    const auto description = Description::read(fields);
    if (!description) {
        return description.error();
    }
    const auto minima = minima_of(fields, made);
    if (!minima) {
        return minima.error();
    }
    WorthSearch search(fields, *description, *minima, made);
    for (const EngineDimension& dimension : dimensions()) {
        if (stop.stop_requested()) {
            break;
        }
        if (const auto error = search.add(dimension)) {
            return *error;
        }
    }
    return search.finish();
}

} // namespace rodway
