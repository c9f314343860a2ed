#include "core/barring/lash_stops.h"

#include <algorithm>
#include <cmath>

#include "core/barring/arc_stabbing.h"

namespace rodway {
namespace {

/// Sets of more stops than this aren't sought among top dead centres: no engine needs so many.
constexpr std::size_t most_tdc_stops = 4;
/// Rooms that differ by less are the same: a degree wheel is hardly read finer.
constexpr double same_room_deg = 0.5;

/// Degrees from a crank angle to the nearer end of an arc; negative outside it.
double room_deg(const CrankArc& arc, CrankAngle crank) {
    if (!arc.holds(crank)) {
        return -1.0;
    }
    const double past = degrees_ahead(arc.from, crank);
    return std::max(0.0, std::min(past, arc.span_deg - past));
}

/// The stop at which a valve has most room, the first of those that are the same to rounding.
std::size_t roomiest(const CrankArc& arc, const std::vector<CrankAngle>& stops) {
    constexpr double rounding_deg = 1e-6;
    std::size_t best = 0;
    for (std::size_t at = 1; at < stops.size(); ++at) {
        if (room_deg(arc, stops[at]) > room_deg(arc, stops[best]) + rounding_deg) {
            best = at;
        }
    }
    return best;
}

/// Least room that any valve has at its best stop; negative if one has none.
double least_room_deg(const std::vector<HeelArc>& arcs, const std::vector<CrankAngle>& stops) {
    double least = 720.0;
    for (const HeelArc& heel : arcs) {
        least = std::min(least, room_deg(heel.may_set, stops[roomiest(heel.may_set, stops)]));
    }
    return least;
}

/// Every choice of `count` of the angles, cylinder 1's first.
class TopDeadCentres {
  public:
    TopDeadCentres(const EngineLayout& layout, const std::vector<HeelArc>& arcs) : arcs_(arcs) {
        for (const Cylinder& cylinder : layout.cylinders) {
            const CrankAngle firing = layout.firing_angle(cylinder.number).in_cycle();
            if (std::isfinite(firing.in_deg())) {
                angles_.push_back(firing);
            }
        }
    }
    /// The roomiest set of that many; empty if none serves every valve.
    std::vector<CrankAngle> best(std::size_t count) {
        best_.clear();
        best_room_ = -1.0;
        chosen_.clear();
        choose(0, count);
        return best_;
    }

  private:
    void choose(std::size_t from, std::size_t left) {
        if (left == 0) {
            const double room = least_room_deg(arcs_, chosen_);
            if (room >= 0.0 && (best_.empty() || room > best_room_ + same_room_deg)) {
                best_ = chosen_;
                best_room_ = room;
            }
            return;
        }
        for (std::size_t at = from; at + left <= angles_.size(); ++at) {
            chosen_.push_back(angles_[at]);
            choose(at + 1, left - 1);
            chosen_.pop_back();
        }
    }

    const std::vector<HeelArc>& arcs_;
    std::vector<CrankAngle> angles_;
    std::vector<CrankAngle> chosen_;
    std::vector<CrankAngle> best_;
    double best_room_ = -1.0;
};

/// Where all arcs that hold `crank` and are set there overlap around it.
CrankArc overlap(const std::vector<CrankArc>& arcs, CrankAngle crank) {
    double behind = 720.0;
    double ahead = 720.0;
    for (const CrankArc& arc : arcs) {
        const double past = std::min(degrees_ahead(arc.from, crank), arc.span_deg);
        behind = std::min(behind, past);
        ahead = std::min(ahead, arc.span_deg - past);
    }
    return {(crank - CrankAngle::deg(behind)).in_cycle(), std::min(720.0, behind + ahead)};
}

/// Cylinder whose firing top dead centre stands at an angle.
std::optional<int> firing_at(const EngineLayout& layout, CrankAngle crank) {
    for (const Cylinder& cylinder : layout.cylinders) {
        const double ahead = degrees_ahead(layout.firing_angle(cylinder.number), crank);
        constexpr double same_deg = 1e-6;
        if (ahead < same_deg || ahead > 720.0 - same_deg) {
            return cylinder.number;
        }
    }
    return std::nullopt;
}

/// Where a stop that may stand anywhere in an arc is put.
CrankAngle recognisable(const EngineLayout& layout, const CrankArc& arc) {
    std::optional<CrankAngle> best;
    for (const Cylinder& cylinder : layout.cylinders) {
        const CrankAngle firing = layout.firing_angle(cylinder.number).in_cycle();
        if (arc.holds(firing) &&
            (!best || room_deg(arc, firing) > room_deg(arc, *best) + same_room_deg)) {
            best = firing;
        }
    }
    return best.value_or(arc.middle());
}

LashStop stop_at(const HeelArcs& heels, const std::vector<CrankAngle>& angles, std::size_t which,
                 const EngineLayout& layout, bool move) {
    LashStop stop;
    std::vector<CrankArc> set;
    for (const HeelArc& heel : heels.arcs) {
        if (roomiest(heel.may_set, angles) == which) {
            stop.set.push_back(heel.valve);
            set.push_back(heel.may_set);
        }
    }
    stop.may_stand = overlap(set, angles[which]);
    stop.at = move ? recognisable(layout, stop.may_stand) : angles[which];
    stop.firing_tdc_of = firing_at(layout, stop.at);
    for (const HeelArc& heel : heels.arcs) {
        if (heel.may_set.holds(stop.at)) {
            stop.may_set.push_back(heel.valve);
        }
    }
    return stop;
}

} // namespace

Result<LashStops> fewest_lash_stops(const Engine& engine, CrankAngle from, double margin_deg) {
    if (const auto checked = check_crank_angle(from, "crank"); !checked) {
        return checked.error();
    }
    const auto heels = heel_arcs(engine, margin_deg);
    if (!heels) {
        return heels.error();
    }
    std::vector<CrankArc> arcs;
    for (const HeelArc& heel : heels->arcs) {
        arcs.push_back(heel.may_set);
    }
    std::vector<CrankAngle> angles = fewest_angles(arcs);
    bool at_tdc = false;
    if (!angles.empty() && angles.size() <= most_tdc_stops) {
        auto found = TopDeadCentres(engine.layout, heels->arcs).best(angles.size());
        if (!found.empty()) {
            angles = found;
            at_tdc = true;
        }
    }
    LashStops answer;
    answer.left_out = heels->left_out;
    for (std::size_t which = 0; which < angles.size(); ++which) {
        answer.stops.push_back(stop_at(*heels, angles, which, engine.layout, !at_tdc));
    }
    std::sort(answer.stops.begin(), answer.stops.end(), [&](const LashStop& a, const LashStop& b) {
        return degrees_ahead(from, a.at) < degrees_ahead(from, b.at);
    });
    CrankAngle stood = from;
    for (LashStop& stop : answer.stops) {
        stop.turn_deg = degrees_ahead(stood, stop.at);
        stood = stop.at;
    }
    return answer;
}

} // namespace rodway
