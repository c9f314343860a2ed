#include "core/barring/valve_arcs.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace rodway {
namespace {

/// Looks at a train between the heel and full lift. Valve lift rises evenly there but for trains
/// that nobody would build, so few will do.
constexpr int looks = 32;

/// Least lobe lift at which the valve is off its seat by more than `valve_lift_mm`; nothing if it
/// never is. The linkage closes all the way.
std::optional<double> lobe_lift_for(const Linkage& linkage, double full_lobe_lift_mm,
                                    double valve_lift_mm) {
    const auto above = [&](double lobe_lift_mm) {
        const auto pose = linkage.at(lobe_lift_mm);
        return pose && linkage.valve_lift_mm(*pose) > valve_lift_mm;
    };
    for (int look = 1; look <= looks; ++look) {
        double open = full_lobe_lift_mm * look / looks;
        if (!above(open)) {
            continue;
        }
        double shut = full_lobe_lift_mm * (look - 1) / looks;
        while (true) {
            const double middle = (shut + open) / 2.0;
            if (middle <= shut || middle >= open) {
                return open;
            }
            (above(middle) ? open : shut) = middle;
        }
    }
    return std::nullopt;
}

CrankArc arc_over(const Engine& engine, const ValvePosition& valve,
                  std::optional<double> lobe_lift_mm) {
    const Lobe& lobe = engine.lobes(valve).lobe;
    const CrankAngle full_lift = engine.full_lift_angle(valve);
    if (!lobe_lift_mm || !(*lobe_lift_mm < lobe.full_lift_mm())) {
        return {full_lift, 0.0};
    }
    const Flanks flanks = lobe.at_lift(std::max(*lobe_lift_mm, heel_mm));
    // A lobe lifts at most once in a cycle, from half a cycle before full lift to half one after.
    const double opening = std::max(crank_angle(flanks.opening).in_deg(), -360.0);
    const double closing = std::min(crank_angle(flanks.closing).in_deg(), 360.0);
    return {(full_lift + CrankAngle::deg(opening)).in_cycle(), closing - opening};
}

} // namespace

std::vector<ValvePosition> all_valves(const Engine& engine) {
    std::set<ValvePosition> valves;
    for (const Train& train : engine.trains) {
        valves.insert(train.position);
    }
    for (const ValvePosition& valve : engine.valves_without_train()) {
        valves.insert(valve);
    }
    return {valves.begin(), valves.end()};
}

Linkage::Closing close_to_full_lift(const Train& train, double full_lobe_lift_mm) {
    Linkage::Closing closing = Linkage::close(train);
    for (int look = 1; look <= looks && closing.linkage; ++look) {
        const TrainStatus status = closing.linkage->status_at(full_lobe_lift_mm * look / looks);
        if (status != TrainStatus::answered) {
            closing.status = status;
            closing.linkage.reset();
        }
    }
    return closing;
}

CrankArc lobe_above(const Engine& engine, const ValvePosition& valve, double lobe_lift_mm) {
    return arc_over(engine, valve, lobe_lift_mm);
}

std::optional<CrankArc> valve_above(const Engine& engine, const ValvePosition& valve,
                                    double valve_lift_mm) {
    const Train* train = engine.train(valve);
    if (!train) {
        return std::nullopt;
    }
    const double full_lift = engine.lobes(valve).lobe.full_lift_mm();
    const auto closing = close_to_full_lift(*train, full_lift);
    if (!closing.linkage) {
        return std::nullopt;
    }
    return arc_over(engine, valve, lobe_lift_for(*closing.linkage, full_lift, valve_lift_mm));
}

Result<std::vector<ValveArcs>> valve_arcs(const Engine& engine) {
    std::vector<ValveArcs> all;
    for (const ValvePosition& valve : all_valves(engine)) {
        ValveArcs arcs;
        arcs.position = valve;
        arcs.bank = engine.layout.cylinder(valve.cylinder).bank;
        arcs.full_lift = engine.full_lift_angle(valve);
        if (const auto checked =
                check_crank_angle(arcs.full_lift, "full_lift/" + position_name(valve));
            !checked) {
            return checked.error();
        }
        arcs.lobe_estimated = engine.lobes(valve).lobe.estimated();
        arcs.off_heel = lobe_above(engine, valve, heel_mm);
        if (const Train* train = engine.train(valve)) {
            arcs.has_train = true;
            arcs.status =
                close_to_full_lift(*train, engine.lobes(valve).lobe.full_lift_mm()).status;
            arcs.open = valve_above(engine, valve, 0.0);
        }
        all.push_back(arcs);
    }
    return all;
}

} // namespace rodway
