#include "core/barring/lash_walk.h"

#include <algorithm>
#include <optional>

#include "core/units/typed_text.h"

namespace rodway {
namespace {

/// Where a watched valve gives its cue.
struct Cue {
    ValvePosition seen;
    CrankAngle at;
    bool by_lobe = false;
};

/// The cue of one cylinder, or nothing if none of its watched valves lifts as far as is seen.
std::optional<Cue> cue_of(const Engine& engine, const std::vector<ValvePosition>& watched,
                          LashCue kind, CrankAngle firing, double seen_lift_mm) {
    std::optional<Cue> cue;
    double cue_ahead = 0.0;
    for (const ValvePosition& valve : watched) {
        const auto by_valve = valve_above(engine, valve, seen_lift_mm);
        const CrankArc arc = by_valve ? *by_valve : lobe_above(engine, valve, seen_lift_mm);
        if (arc.span_deg <= 0.0) {
            continue;
        }
        const bool opens = kind == LashCue::exhaust_begins_to_open;
        const CrankAngle at = opens ? arc.from : arc.to();
        // From its firing on, a cylinder's exhaust opens first and its intake closes last.
        const double ahead = degrees_ahead(firing, at);
        if (!cue || (opens ? ahead < cue_ahead : ahead > cue_ahead)) {
            cue = Cue{valve, at, !by_valve.has_value()};
            cue_ahead = ahead;
        }
    }
    return cue;
}

/// One cylinder's step, and what it leaves out.
class CylinderSteps {
  public:
    CylinderSteps(const Engine& engine, const HeelArcs& heels, const LashWalkRules& rules,
                  LashWalk& walk)
        : engine_(engine), heels_(heels), rules_(rules), walk_(walk) {}

    void add(int cylinder, LashCue kind) {
        const bool sets_intake = kind == LashCue::exhaust_begins_to_open;
        const auto set = valves(cylinder, sets_intake ? ValveKind::intake : ValveKind::exhaust);
        const auto watched = valves(cylinder, sets_intake ? ValveKind::exhaust : ValveKind::intake);
        const bool estimated = std::any_of(
            watched.begin(), watched.end(),
            [&](const ValvePosition& valve) { return engine_.lobes(valve).lobe.estimated(); });
        const auto cue = cue_of(engine_, watched, kind, engine_.layout.firing_angle(cylinder),
                                rules_.seen_lift_mm);
        LashStep step;
        step.cylinder = cylinder;
        step.cue = kind;
        step.heel_left_deg = 720.0;
        for (const ValvePosition& valve : set) {
            if (estimated) {
                walk_.left_out.push_back({valve, LashRefusal::lobe_estimated});
            } else if (const HeelArc* heel = heel_of(valve); !heel) {
                walk_.left_out.push_back({valve, refusal_of(valve)});
            } else if (!cue) {
                walk_.left_out.push_back({valve, LashRefusal::cue_not_seen});
            } else if (!heel->may_set.holds(cue->at)) {
                walk_.left_out.push_back({valve, LashRefusal::not_on_heel});
            } else {
                const double past = degrees_ahead(heel->may_set.from, cue->at);
                const double left = std::max(0.0, heel->may_set.span_deg - past);
                step.heel_left_deg =
                    std::min(step.heel_left_deg, heels_.margin_deg + std::min(past, left));
                step.set.push_back(valve);
            }
        }
        if (!step.set.empty()) {
            step.at = cue->at;
            step.seen = cue->seen;
            step.seen_by_lobe = cue->by_lobe;
            walk_.steps.push_back(step);
        }
    }

  private:
    [[nodiscard]] std::vector<ValvePosition> valves(int cylinder, ValveKind kind) const {
        std::vector<ValvePosition> found;
        for (const ValvePosition& valve : all_valves(engine_)) {
            if (valve.cylinder == cylinder && valve.kind == kind) {
                found.push_back(valve);
            }
        }
        return found;
    }
    [[nodiscard]] const HeelArc* heel_of(const ValvePosition& valve) const {
        const auto found = std::find_if(heels_.arcs.begin(), heels_.arcs.end(),
                                        [&](const HeelArc& heel) { return heel.valve == valve; });
        return found == heels_.arcs.end() ? nullptr : &*found;
    }
    [[nodiscard]] LashRefusal refusal_of(const ValvePosition& valve) const {
        const auto found =
            std::find_if(heels_.left_out.begin(), heels_.left_out.end(),
                         [&](const LashLeftOut& left) { return left.valve == valve; });
        RODWAY_ASSERT(found != heels_.left_out.end());
        return found->reason;
    }

    const Engine& engine_;
    const HeelArcs& heels_;
    const LashWalkRules& rules_;
    LashWalk& walk_;
};

} // namespace

Result<LashWalk> lash_walk(const Engine& engine, CrankAngle from, const LashWalkRules& rules) {
    if (const auto checked = check_crank_angle(from, "crank"); !checked) {
        return checked.error();
    }
    constexpr double most_seen_mm = 2.0;
    if (!(rules.seen_lift_mm >= 0.0 && rules.seen_lift_mm <= most_seen_mm)) {
        return Error{ErrorCode::out_of_range,
                     "seen_lift",
                     exact_text(rules.seen_lift_mm),
                     {},
                     std::nullopt,
                     Limits{0.0, most_seen_mm, "mm"}};
    }
    const auto heels = heel_arcs(engine, rules.margin_deg);
    if (!heels) {
        return heels.error();
    }
    LashWalk walk;
    CylinderSteps steps(engine, *heels, rules, walk);
    for (const Cylinder& cylinder : engine.layout.cylinders) {
        steps.add(cylinder.number, LashCue::exhaust_begins_to_open);
        steps.add(cylinder.number, LashCue::intake_all_but_closed);
    }
    std::stable_sort(walk.steps.begin(), walk.steps.end(),
                     [&](const LashStep& a, const LashStep& b) {
                         return degrees_ahead(from, a.at) < degrees_ahead(from, b.at);
                     });
    CrankAngle stood = from;
    for (LashStep& step : walk.steps) {
        step.turn_deg = degrees_ahead(stood, step.at);
        stood = step.at;
    }
    std::sort(walk.left_out.begin(), walk.left_out.end(),
              [](const LashLeftOut& a, const LashLeftOut& b) { return a.valve < b.valve; });
    return walk;
}

} // namespace rodway
