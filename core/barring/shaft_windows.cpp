#include "core/barring/shaft_windows.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>

#include "core/barring/valve_arcs.h"
#include "core/units/typed_text.h"

namespace rodway {
namespace {

/// Angles closer than this are one: roots of the lobe are good to some 1e-10 crank degrees.
constexpr double same_angle_deg = 1e-7;

double from_tdc_deg(CrankAngle firing, CrankAngle crank) {
    const double past = std::fmod(degrees_ahead(firing, crank), 360.0);
    return std::min(past, 360.0 - past);
}

/// A piece of a window, in degrees from the window's start.
struct Stretch {
    double from_deg = 0.0;
    double to_deg = 0.0;
    double farthest_deg = 0.0; ///< where in it the pistons are farthest from top dead centre
};

/// Degrees from `start` at which pistons of the bank stand at a top dead centre, over more than a
/// window before and behind.
std::vector<double> dead_centres(const EngineLayout& layout, std::size_t bank, CrankAngle start) {
    std::vector<double> angles;
    for (const Cylinder& cylinder : layout.cylinders) {
        if (cylinder.bank == bank) {
            const double first =
                std::fmod(degrees_ahead(start, layout.firing_angle(cylinder.number)), 360.0);
            for (int turn = -1; turn <= 3; ++turn) {
                angles.push_back(first + 360.0 * turn);
            }
        }
    }
    std::sort(angles.begin(), angles.end());
    return angles;
}

/// Where within [low, high] every piston is `clear_deg` from top dead centre; if nowhere, where
/// they are as far from it as they get. Between two dead centres the nearer one is farthest
/// half-way.
std::vector<Stretch> clear_stretches(const std::vector<double>& dead, double low_deg,
                                     double high_deg, double clear_deg) {
    double farthest = 0.0;
    for (std::size_t at = 1; at < dead.size(); ++at) {
        const double middle = std::clamp((dead[at - 1] + dead[at]) / 2.0, low_deg, high_deg);
        farthest = std::max(farthest, std::min(middle - dead[at - 1], dead[at] - middle));
    }
    const double clear = std::min(clear_deg, farthest) - same_angle_deg;
    std::vector<Stretch> stretches;
    for (std::size_t at = 1; at < dead.size(); ++at) {
        const double from = std::max(low_deg, dead[at - 1] + clear);
        const double to = std::min(high_deg, dead[at] - clear);
        if (from <= to) {
            stretches.push_back({from, to, std::clamp((dead[at - 1] + dead[at]) / 2.0, from, to)});
        }
    }
    return stretches;
}

using LoadAt = std::function<double(double from_start_deg)>;

/// Where a load is least over [low, high]: a look at every degree, each dip narrowed by golden
/// section. A shaft's load has no finer features: springs follow lobes, which take tens of degrees.
double least_at_deg(const LoadAt& load, double low_deg, double high_deg) {
    const int steps = std::max(2, static_cast<int>(std::ceil(high_deg - low_deg)));
    const auto angle = [&](int step) { return low_deg + (high_deg - low_deg) * step / steps; };
    std::vector<double> seen;
    for (int step = 0; step <= steps; ++step) {
        seen.push_back(load(angle(step)));
    }
    constexpr double golden = 0.6180339887498949;
    double best = low_deg;
    double least = std::numeric_limits<double>::infinity();
    for (int step = 0; step <= steps; ++step) {
        const auto at = static_cast<std::size_t>(step);
        if (seen[at] < least) {
            least = seen[at];
            best = angle(step);
        }
        const bool dip =
            step > 0 && step < steps && seen[at] <= seen[at - 1] && seen[at] <= seen[at + 1];
        if (!dip) {
            continue;
        }
        double low = angle(step - 1);
        double high = angle(step + 1);
        for (int narrowing = 0; narrowing < 50; ++narrowing) {
            const double a = high - golden * (high - low);
            const double b = low + golden * (high - low);
            (load(a) < load(b) ? high : low) = load(a) < load(b) ? b : a;
        }
        const double middle = (low + high) / 2.0;
        if (const double there = load(middle); there < least) {
            least = there;
            best = middle;
        }
    }
    return best;
}

/// A valve of the shaft and the arc over which it is open, or may be.
struct OpenArc {
    ValvePosition valve;
    CrankArc arc;
    bool known = true;
};

std::vector<OpenArc> open_arcs(const RockerShaft& shaft, const std::vector<ValveArcs>& all) {
    std::vector<OpenArc> arcs;
    for (const ValveArcs& valve : all) {
        const auto among = [&](const std::vector<ValvePosition>& valves) {
            return std::find(valves.begin(), valves.end(), valve.position) != valves.end();
        };
        if (!among(shaft.valves) && !among(shaft.perhaps)) {
            continue;
        }
        if (valve.open) {
            if (valve.open->span_deg > 0.0) {
                arcs.push_back({valve.position, *valve.open, true});
            }
        } else if (valve.has_train) {
            arcs.push_back({valve.position, CrankArc{CrankAngle::deg(0.0), 720.0}, false});
        } else {
            arcs.push_back({valve.position, valve.off_heel, false});
        }
    }
    return arcs;
}

/// The cycle cut wherever a valve of the shaft opens or closes; the pieces with fewest open.
std::vector<ShaftWindow> fewest_open(const std::vector<OpenArc>& arcs) {
    std::vector<double> cuts;
    for (const OpenArc& open : arcs) {
        if (open.arc.span_deg < 720.0) {
            cuts.push_back(open.arc.from.in_deg());
            cuts.push_back(open.arc.to().in_deg());
        }
    }
    std::sort(cuts.begin(), cuts.end());
    if (cuts.empty()) {
        cuts.push_back(0.0);
    }
    std::vector<ShaftWindow> windows;
    std::size_t fewest = std::numeric_limits<std::size_t>::max();
    for (std::size_t at = 0; at < cuts.size(); ++at) {
        const bool last = at + 1 == cuts.size();
        const double span = (last ? cuts[0] + 720.0 : cuts[at + 1]) - cuts[at];
        if (span < same_angle_deg) {
            continue;
        }
        ShaftWindow window;
        window.arc = {CrankAngle::deg(cuts[at]), span};
        for (const OpenArc& open : arcs) {
            if (open.arc.holds(window.arc.middle())) {
                (open.known ? window.open : window.may_be_open).push_back(open.valve);
            }
        }
        const std::size_t count = window.open.size() + window.may_be_open.size();
        if (count < fewest) {
            fewest = count;
            windows.clear();
        }
        if (count == fewest) {
            windows.push_back(window);
        }
    }
    return windows;
}

/// Fills in best angle, loads and nearest piston.
void judge(ShaftWindow& window, const ShaftLoads& loads, std::size_t shaft, const Engine& engine,
           const ShaftWindowRules& rules) {
    const double span = window.arc.span_deg;
    const auto crank = [&](double from_start_deg) {
        return window.arc.from + CrankAngle::deg(from_start_deg);
    };
    const auto load_N = [&](double from_start_deg) {
        const auto load = loads.at(shaft, crank(from_start_deg));
        return load ? load->load_N() : std::nullopt;
    };
    // Which springs load the shaft is the same all through the window, and so is whether their load
    // is known.
    const bool known = load_N(span / 2.0).has_value();
    const LoadAt load = [&](double at) { return load_N(at).value_or(0.0); };

    const std::size_t bank = loads.shafts()[shaft].bank;
    const double keep = std::min(std::max(rules.keep_from_ends_deg, same_angle_deg), span / 2.0);
    // 0 where no piston's place is known: no angle is then better than another.
    const auto distance_deg = [&](double from_start_deg) {
        const auto nearest = nearest_piston(engine.layout, bank, crank(from_start_deg));
        return nearest ? nearest->from_tdc_deg : 0.0;
    };
    double best = span / 2.0;
    double best_load = std::numeric_limits<double>::infinity();
    double best_distance = -1.0;
    for (const Stretch& stretch :
         clear_stretches(dead_centres(engine.layout, bank, window.arc.from), keep, span - keep,
                         rules.clear_of_tdc_deg)) {
        const bool loaded = known && !window.open.empty();
        const double at =
            loaded ? least_at_deg(load, stretch.from_deg, stretch.to_deg) : stretch.farthest_deg;
        const double here = loaded ? load(at) : 0.0;
        const double distance = distance_deg(at);
        constexpr double same_load_N = 1e-6;
        if (here < best_load - same_load_N ||
            (here < best_load + same_load_N && distance > best_distance + same_angle_deg)) {
            best = at;
            best_load = here;
            best_distance = distance;
        }
    }
    window.best = crank(best).in_cycle();
    window.load_at_best_N = load_N(best);
    window.nearest = nearest_piston(engine.layout, bank, window.best);
    window.pistons_clear = distance_deg(best) >= rules.clear_of_tdc_deg - 2.0 * same_angle_deg;
    if (known) {
        // Just inside: at the very end a valve may count as shut already.
        const double inside = std::min(same_angle_deg, span / 4.0);
        const double peak =
            least_at_deg([&](double at) { return -load(at); }, inside, span - inside);
        window.peak_load_N = load(peak);
    }
}

bool better(const ShaftWindow& a, const ShaftWindow& b) {
    if (a.pistons_clear != b.pistons_clear) {
        return a.pistons_clear;
    }
    constexpr double same_load_N = 10.0; // springs are not alike to better than that
    const double unknown = std::numeric_limits<double>::max();
    const auto step = [](double value, double size) { return std::round(value / size); };
    const double load_a = step(a.load_at_best_N.value_or(unknown), same_load_N);
    const double load_b = step(b.load_at_best_N.value_or(unknown), same_load_N);
    if (load_a != load_b) {
        return load_a < load_b;
    }
    constexpr double same_deg = 1e-4;
    const auto distance = [](const ShaftWindow& window) {
        return window.nearest ? window.nearest->from_tdc_deg : 0.0;
    };
    for (const auto& [mine, other] :
         {std::pair{distance(a), distance(b)}, std::pair{a.arc.span_deg, b.arc.span_deg}}) {
        if (step(mine, same_deg) != step(other, same_deg)) {
            return mine > other;
        }
    }
    return a.arc.from < b.arc.from;
}

std::optional<Error> bad_rule(const char* field, double value) {
    constexpr double most_deg = 90.0;
    if (value >= 0.0 && value <= most_deg) {
        return std::nullopt;
    }
    return Error{ErrorCode::out_of_range,           field, exact_text(value), {}, std::nullopt,
                 Limits{0.0, most_deg, "crank_deg"}};
}

} // namespace

std::optional<NearestPiston> nearest_piston(const EngineLayout& layout, std::size_t bank,
                                            CrankAngle crank) {
    std::optional<NearestPiston> nearest;
    if (!check_crank_angle(crank, "crank")) {
        return nearest;
    }
    for (const Cylinder& cylinder : layout.cylinders) {
        const double distance = from_tdc_deg(layout.firing_angle(cylinder.number), crank);
        if (cylinder.bank == bank &&
            (!nearest || distance < nearest->from_tdc_deg - same_angle_deg)) {
            nearest = NearestPiston{cylinder.number, distance};
        }
    }
    return nearest;
}

Result<std::vector<ShaftWindows>> shaft_windows(const Engine& engine,
                                                const ShaftWindowRules& rules) {
    if (const auto bad = bad_rule("clear_of_tdc", rules.clear_of_tdc_deg)) {
        return *bad;
    }
    if (const auto bad = bad_rule("keep_from_ends", rules.keep_from_ends_deg)) {
        return *bad;
    }
    const auto arcs = valve_arcs(engine);
    if (!arcs) {
        return arcs.error();
    }
    const ShaftLoads loads(engine);
    std::vector<ShaftWindows> all;
    for (std::size_t shaft = 0; shaft < loads.shafts().size(); ++shaft) {
        ShaftWindows answer;
        answer.shaft = loads.shafts()[shaft];
        answer.windows = fewest_open(open_arcs(answer.shaft, *arcs));
        for (ShaftWindow& window : answer.windows) {
            judge(window, loads, shaft, engine, rules);
        }
        std::sort(answer.windows.begin(), answer.windows.end(), better);
        all.push_back(std::move(answer));
    }
    return all;
}

} // namespace rodway
