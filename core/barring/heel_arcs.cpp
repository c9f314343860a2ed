#include "core/barring/heel_arcs.h"

#include <algorithm>

#include "core/units/typed_text.h"

namespace rodway {

Result<HeelArcs> heel_arcs(const Engine& engine, double margin_deg) {
    constexpr double most_deg = 180.0;
    if (!(margin_deg >= 0.0 && margin_deg <= most_deg)) {
        return Error{ErrorCode::out_of_range,
                     "heel_margin",
                     exact_text(margin_deg),
                     {},
                     std::nullopt,
                     Limits{0.0, most_deg, "crank_deg"}};
    }
    const auto valves = valve_arcs(engine);
    if (!valves) {
        return valves.error();
    }
    HeelArcs heels;
    heels.margin_deg = margin_deg;
    for (const ValveArcs& valve : *valves) {
        const double span = 720.0 - valve.off_heel.span_deg - 2.0 * margin_deg;
        if (valve.lobe_estimated) {
            heels.left_out.push_back({valve.position, LashRefusal::lobe_estimated});
        } else if (span < 0.0) {
            heels.left_out.push_back({valve.position, LashRefusal::heel_too_short});
        } else {
            const CrankAngle from = valve.off_heel.to() + CrankAngle::deg(margin_deg);
            heels.arcs.push_back({valve.position, {from.in_cycle(), span}});
        }
    }
    return heels;
}

Result<std::vector<LashStanding>> lash_standing(const Engine& engine, CrankAngle crank,
                                                double margin_deg) {
    if (const auto checked = check_crank_angle(crank, "crank"); !checked) {
        return checked.error();
    }
    const auto heels = heel_arcs(engine, margin_deg);
    if (!heels) {
        return heels.error();
    }
    std::vector<LashStanding> standings;
    for (const HeelArc& heel : heels->arcs) {
        LashStanding standing;
        standing.valve = heel.valve;
        standing.now = heel.may_set.holds(crank);
        standing.turn_deg = standing.now ? 0.0 : degrees_ahead(crank, heel.may_set.from);
        if (standing.now) {
            standing.stays_deg =
                std::max(0.0, heel.may_set.span_deg - degrees_ahead(heel.may_set.from, crank));
        }
        standings.push_back(standing);
    }
    for (const LashLeftOut& left : heels->left_out) {
        LashStanding standing;
        standing.valve = left.valve;
        standing.left_out = left.reason;
        standings.push_back(standing);
    }
    std::sort(standings.begin(), standings.end(),
              [](const auto& a, const auto& b) { return a.valve < b.valve; });
    return standings;
}

} // namespace rodway
