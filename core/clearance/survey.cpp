#include "core/clearance/survey.h"

#include <utility>

namespace rodway {

Result<std::vector<ValveClearance>> survey(const Engine& engine, const std::stop_token& stop) {
    std::vector<ValveClearance> lines;
    const RodClearanceLimits limits{engine.rod_clearance_limit_mm};
    for (const Train& train : engine.trains) {
        if (stop.stop_requested()) {
            break;
        }
        const Result<ClosedSurroundings> closed = train_surroundings(engine, train);
        if (!closed) {
            return closed.error();
        }
        ValveClearance line;
        line.position = train.position;
        line.adjuster_needed_mm = closed->adjuster_needed_mm;
        line.found.status = closed->status;
        if (closed->surroundings) {
            line.all = certified_minima(*closed->surroundings);
            line.found = deciding(line.all);
        }
        if (line.found.minimum) {
            const double lift = line.found.minimum->lobe_lift_mm;
            if (lift > 0.0) {
                const Flanks flanks = engine.lobes(train.position).lobe.at_lift(lift);
                const CrankAngle full = engine.full_lift_angle(train.position);
                line.opening = (full + crank_angle(flanks.opening)).in_cycle();
                line.closing = (full + crank_angle(flanks.closing)).in_cycle();
            }
            line.doubt = doubt_of(engine, train, *closed->surroundings, line.all, engine.doubt);
            line.doubt_mm =
                minimum_doubt_mm(engine, train, line.doubt, line.found.minimum->feature);
            line.verdict = judge(line.found.minimum->clearance_mm, line.doubt_mm, limits);
        }
        lines.push_back(std::move(line));
    }
    return lines;
}

std::optional<double> clearance_at(const Engine& engine, const RodInTube& rod,
                                   const ValvePosition& position, CrankAngle crank) {
    const auto found = rod_clearance_at(rod, engine.lobe_lift_mm(position, crank));
    return found ? std::optional(found->clearance_mm) : std::nullopt;
}

} // namespace rodway
