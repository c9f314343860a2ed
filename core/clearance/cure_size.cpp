#include "core/clearance/cure_size.h"

#include <algorithm>
#include <cmath>

#include "core/clearance/train_surroundings.h"
#include "core/valvetrain/rod_for_adjuster.h"

namespace rodway {
namespace {

constexpr double close_enough_mm = 1e-3;

/// One valve of an engine with one parameter tried at different sizes.
class TriedParameter {
  public:
    TriedParameter(const Engine& engine, const ValvePosition& valve,
                   const EngineParameter& parameter, Held held)
        : engine_(engine), valve_(valve), parameter_(parameter), held_(held) {
        const auto stands = Linkage::close(*engine.train(valve));
        if (stands.linkage) {
            adjuster_in_mm_ = stands.linkage->adjuster_in_mm();
        }
    }

    /// The valve's least clearance with the parameter changed so far; empty if it has none.
    [[nodiscard]] std::optional<double> least_mm(double change) const {
        auto tried = with_change(engine_, parameter_, change);
        if (!tried) {
            return std::nullopt;
        }
        for (Train& train : tried->trains) {
            if (train.position != valve_) {
                continue;
            }
            if (held_ == Held::rod_rechosen && !choose_rod(train)) {
                return std::nullopt;
            }
            const auto closed = train_surroundings(*tried, train);
            if (!closed || !closed->surroundings) {
                return std::nullopt;
            }
            const std::vector<CertifiedMinimum> all = certified_minima(*closed->surroundings);
            const CertifiedMinimum& least = deciding(all);
            return least.minimum ? std::optional(least.minimum->clearance_mm) : std::nullopt;
        }
        return std::nullopt;
    }

  private:
    [[nodiscard]] bool choose_rod(Train& train) const {
        const auto length = adjuster_in_mm_ ? rod_for_adjuster_mm(train, *adjuster_in_mm_)
                                            : std::optional<double>();
        if (length) {
            fit_rod(train, *length);
        }
        return length.has_value();
    }

    const Engine& engine_;
    ValvePosition valve_;
    EngineParameter parameter_;
    Held held_;
    std::optional<double> adjuster_in_mm_;
};

/// Looks one way, in steps that grow, until the clearance is reached or nothing more is gained;
/// then halves the last step.
CureSize look_one_way(const TriedParameter& tried, double stands_mm, double wanted_mm, double way,
                      double most) {
    constexpr int steps = 24;
    constexpr int halvings = 40;
    CureSize best{0.0, stands_mm, false};
    double before = 0.0;
    for (int step = 1; step <= steps; ++step) {
        // Fine near where it stands, coarse far from it.
        const double part = static_cast<double>(step) / steps;
        const double change = way * most * part * part;
        const auto found = tried.least_mm(change);
        if (!found) {
            return best;
        }
        if (*found < wanted_mm) {
            if (*found > best.clearance_mm) {
                best = {change, *found, false};
            }
            before = change;
            continue;
        }
        double after = change;
        double reached_mm = *found;
        for (int half = 0; half < halvings && reached_mm - wanted_mm > close_enough_mm; ++half) {
            const double middle = (before + after) / 2.0;
            const auto there = tried.least_mm(middle);
            if (there && *there >= wanted_mm) {
                after = middle;
                reached_mm = *there;
            } else {
                before = middle;
            }
        }
        return {after, reached_mm, true};
    }
    return best;
}

} // namespace

std::optional<CureSize> cure_size(const Engine& engine, const ValvePosition& valve,
                                  const EngineParameter& parameter, Held held, double wanted_mm) {
    if (!engine.train(valve)) {
        return std::nullopt;
    }
    const TriedParameter tried(engine, valve, parameter, held);
    const auto stands_mm = tried.least_mm(0.0);
    if (!stands_mm || *stands_mm >= wanted_mm) {
        return std::nullopt;
    }
    const double most = is_angle(parameter.kind) ? most_change_rad : most_change_mm;
    const CureSize more = look_one_way(tried, *stands_mm, wanted_mm, 1.0, most);
    const CureSize less = look_one_way(tried, *stands_mm, wanted_mm, -1.0, most);
    if (more.reaches != less.reaches) {
        return more.reaches ? more : less;
    }
    if (more.reaches) {
        return std::abs(more.change) <= std::abs(less.change) ? more : less;
    }
    return more.clearance_mm >= less.clearance_mm ? more : less;
}

} // namespace rodway
