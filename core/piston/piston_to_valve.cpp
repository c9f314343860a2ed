#include "core/piston/piston_to_valve.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

#include "core/units/typed_text.h"
#include "core/units/within.h"

namespace rodway {
namespace {

constexpr double greatest_step_deg = 0.1;
constexpr double polished_deg = 1e-7;
const Limits drop_angles{-90.0, 90.0, "deg"};
const Limits drop_lengths{0.0, 100.0, "mm"};
const Limits radial_gaps{0.0, 50.0, "mm"};
const Limits advances_allowed{-60.0, 60.0, "deg"};

/// Clearance at one angle, and what it is made of.
struct Clearance {
    double after_overlap_deg = 0.0;
    double drop_mm = 0.0;
    double lift_mm = 0.0;

    [[nodiscard]] double mm() const { return drop_mm - lift_mm; }
};

/// Clearance by angle, which remembers whether the valve's lift was ever unknown.
class ClearanceCurve {
  public:
    ClearanceCurve(const PistonDrop& drop, const ValveLift& lift) : drop_(drop), lift_(lift) {}

    Clearance at(double after_overlap_deg) {
        const CrankAngle angle = CrankAngle::deg(
            std::clamp(after_overlap_deg, drop_.first().in_deg(), drop_.last().in_deg()));
        const std::optional<double> lift = lift_(angle);
        if (!lift || !std::isfinite(*lift)) {
            known_ = false;
            return {after_overlap_deg, 0.0, 0.0};
        }
        return {angle.in_deg(), *drop_.at(angle), *lift};
    }
    [[nodiscard]] bool known() const { return known_; }

  private:
    const PistonDrop& drop_;
    const ValveLift& lift_;
    bool known_ = true;
};

/// Every drop's own angle is a step, since clearance bends there.
std::vector<Clearance> walk(ClearanceCurve& curve, const std::vector<CrankAngle>& angles) {
    std::vector<Clearance> steps{curve.at(angles.front().in_deg())};
    for (std::size_t at = 1; at < angles.size(); ++at) {
        const double from = angles[at - 1].in_deg();
        const double width = angles[at].in_deg() - from;
        const int count = std::max(1, static_cast<int>(std::ceil(width / greatest_step_deg)));
        for (int step = 1; step <= count; ++step) {
            steps.push_back(
                curve.at(step == count ? angles[at].in_deg() : from + width * step / count));
        }
    }
    return steps;
}

/// Golden section between two angles, with the lowest step between them known.
Clearance polished(ClearanceCurve& curve, double from_deg, double to_deg, Clearance lowest) {
    const double golden = (std::sqrt(5.0) - 1.0) / 2.0;
    Clearance left = curve.at(to_deg - golden * (to_deg - from_deg));
    Clearance right = curve.at(from_deg + golden * (to_deg - from_deg));
    while (to_deg - from_deg > polished_deg) {
        if (left.mm() < right.mm()) {
            to_deg = right.after_overlap_deg;
            right = left;
            left = curve.at(to_deg - golden * (to_deg - from_deg));
        } else {
            from_deg = left.after_overlap_deg;
            left = right;
            right = curve.at(from_deg + golden * (to_deg - from_deg));
        }
        for (const Clearance& tried : {left, right}) {
            if (tried.mm() < lowest.mm()) {
                lowest = tried;
            }
        }
    }
    return lowest;
}

Clearance least_of(ClearanceCurve& curve, const std::vector<Clearance>& steps) {
    Clearance least = steps.front();
    for (std::size_t at = 0; at < steps.size(); ++at) {
        const std::size_t before = at == 0 ? at : at - 1;
        const std::size_t after = std::min(at + 1, steps.size() - 1);
        const bool dips =
            steps[at].mm() <= steps[before].mm() && steps[at].mm() <= steps[after].mm();
        if (!dips) {
            continue;
        }
        const Clearance dip = polished(curve, steps[before].after_overlap_deg,
                                       steps[after].after_overlap_deg, steps[at]);
        if (dip.mm() < least.mm()) {
            least = dip;
        }
    }
    return least;
}

PistonToValve without_numbers(PistonToValveStatus status, const ValveDrops& drops) {
    PistonToValve answer;
    answer.status = status;
    answer.radial_gap_mm = drops.radial_gap_mm;
    return answer;
}

} // namespace

double PistonToValveLimits::along_valve_mm(ValveKind kind, bool aluminium_rods) const {
    return (kind == ValveKind::intake ? intake_mm : exhaust_mm) +
           (aluminium_rods ? aluminium_rods_add_mm : 0.0);
}

Result<Done> check_valve_drops(const ValveDrops& drops) {
    if (drops.drops.size() < 2) {
        return Error{
            ErrorCode::too_few_rows, "drops", std::to_string(drops.drops.size()), "2", {}, {}};
    }
    for (std::size_t at = 0; at < drops.drops.size(); ++at) {
        const int line = static_cast<int>(at) + 1;
        const double angle = drops.drops[at].after_overlap.in_deg();
        if (const auto bad = outside("drops", angle, drop_angles, line)) {
            return *bad;
        }
        if (const auto bad = outside("drops", drops.drops[at].from_seat_mm, drop_lengths, line)) {
            return *bad;
        }
        if (at > 0 && !(drops.drops[at].after_overlap > drops.drops[at - 1].after_overlap)) {
            return Error{ErrorCode::order_wrong, "drops", exact_text(angle), {}, line, {}};
        }
    }
    if (drops.radial_gap_mm) {
        if (const auto bad = outside("radial_gap", *drops.radial_gap_mm, radial_gaps)) {
            return *bad;
        }
    }
    return Done{};
}

Result<PistonDrop> PistonDrop::make(const PistonAndValve& piston) {
    const auto good = check_valve_drops(piston.drops);
    if (!good) {
        return good.error();
    }
    const auto slider =
        CrankSlider::make(piston.stroke_mm, piston.connecting_rod_mm, piston.pin_offset_mm);
    if (!slider) {
        return slider.error();
    }
    // A unit vector's component may come out a rounding above 1.
    if (const auto bad =
            outside("cos_valve_angle", piston.cos_valve_angle, {0.5, 1.0 + 1e-9, {}})) {
        return *bad;
    }
    PistonDrop drop(*slider, std::min(piston.cos_valve_angle, 1.0));
    for (const ValveDrop& measured : piston.drops.drops) {
        drop.nodes_.push_back({measured.after_overlap,
                               measured.from_seat_mm - drop.travel_mm(measured.after_overlap)});
    }
    return drop;
}

double PistonDrop::travel_mm(CrankAngle after_overlap) const {
    return slider_.piston(after_overlap).from_top_mm / cos_valve_angle_;
}

std::optional<double> PistonDrop::at(CrankAngle after_overlap) const {
    if (!(after_overlap >= first()) || !(after_overlap <= last())) {
        return std::nullopt;
    }
    std::size_t right = 1;
    while (right + 1 < nodes_.size() && nodes_[right].after_overlap < after_overlap) {
        ++right;
    }
    const Node& from = nodes_[right - 1];
    const Node& to = nodes_[right];
    const double share = (after_overlap - from.after_overlap).in_deg() /
                         (to.after_overlap - from.after_overlap).in_deg();
    return travel_mm(after_overlap) + (1.0 - share) * from.remainder_mm + share * to.remainder_mm;
}

std::vector<CrankAngle> PistonDrop::angles() const {
    std::vector<CrankAngle> angles;
    for (const Node& node : nodes_) {
        angles.push_back(node.after_overlap);
    }
    return angles;
}

Result<PistonToValve> piston_to_valve(const PistonAndValve& piston, const ValveLift& valve_lift) {
    const auto drop = PistonDrop::make(piston);
    if (!drop) {
        return drop.error();
    }
    ClearanceCurve curve(*drop, valve_lift);
    const std::vector<Clearance> steps = walk(curve, drop->angles());
    const Clearance least = least_of(curve, steps);
    if (!curve.known()) {
        return without_numbers(PistonToValveStatus::lift_unknown, piston.drops);
    }
    PistonToValve answer;
    answer.radial_gap_mm = piston.drops.radial_gap_mm;
    answer.at_most_mm = least.mm();
    answer.after_overlap = CrankAngle::deg(least.after_overlap_deg);
    answer.valve_lift_mm = least.lift_mm;
    answer.drop_mm = least.drop_mm;
    answer.drop_wanted_before = steps[0].mm() < steps[1].mm();
    answer.drop_wanted_after = steps.back().mm() < steps[steps.size() - 2].mm();
    const double from_first = least.after_overlap_deg - drop->first().in_deg();
    const double from_last = drop->last().in_deg() - least.after_overlap_deg;
    if (std::min(from_first, from_last) <= 2.0 * polished_deg) {
        answer.status = PistonToValveStatus::not_bracketed;
        answer.drop_wanted_before = answer.drop_wanted_before || from_first < from_last;
        answer.drop_wanted_after = answer.drop_wanted_after || from_last < from_first;
    } else {
        answer.least_mm = answer.at_most_mm;
    }
    return answer;
}

Result<PistonToValve> piston_to_valve(const Engine& engine, const ValvePosition& valve,
                                      CrankAngle advance, LashState lash) {
    if (const auto bad = outside("advance", advance.in_deg(), advances_allowed)) {
        return *bad;
    }
    const auto measured = engine.valve_drops.find(valve);
    if (measured == engine.valve_drops.end()) {
        return without_numbers(PistonToValveStatus::no_drops, {});
    }
    const ValveDrops& drops = measured->second;
    const Train* train = engine.train(valve);
    if (!train) {
        return without_numbers(PistonToValveStatus::no_train, drops);
    }
    if (engine.lobes(valve).lobe.estimated()) {
        return without_numbers(PistonToValveStatus::estimated_lobe, drops);
    }
    if (!engine.connecting_rod_mm) {
        return without_numbers(PistonToValveStatus::rod_unknown, drops);
    }
    const auto closing = Linkage::close(*train);
    if (!closing.linkage) {
        return without_numbers(PistonToValveStatus::lift_unknown, drops);
    }
    const CrankAngle overlap = engine.layout.firing_angle(valve.cylinder) + CrankAngle::deg(360.0);
    const ValveLift lift = [&](CrankAngle after_overlap) -> std::optional<double> {
        // A cam advanced stands where it would have stood so much later.
        const double lobe_lift = engine.lobe_lift_mm(valve, overlap + after_overlap + advance);
        const auto pose = closing.linkage->at(lobe_lift);
        if (!pose) {
            return std::nullopt;
        }
        return lash == LashState::gone ? std::max(0.0, closing.linkage->gross_lift_mm(*pose))
                                       : closing.linkage->valve_lift_mm(*pose);
    };
    return piston_to_valve(PistonAndValve{engine.layout.stroke_mm, *engine.connecting_rod_mm, 0.0,
                                          train->valve.axis_K.z(), drops},
                           lift);
}

Result<std::vector<AtCamPlace>> piston_to_valve_by_advance(const Engine& engine,
                                                           const ValvePosition& valve,
                                                           const std::vector<CrankAngle>& advances,
                                                           LashState lash) {
    std::vector<AtCamPlace> places;
    for (const CrankAngle advance : advances) {
        const auto clearance = piston_to_valve(engine, valve, advance, lash);
        if (!clearance) {
            return clearance.error();
        }
        places.push_back({advance, *clearance});
    }
    return places;
}

std::optional<CrankAngle> intake_closes_after_bottom(const Engine& engine,
                                                     const ValvePosition& valve,
                                                     double lobe_lift_mm, CrankAngle advance) {
    const CamLobes& lobes = engine.lobes(valve);
    if (valve.kind != ValveKind::intake || !std::isfinite(advance.in_deg()) ||
        !(lobe_lift_mm > 0.0) || !(lobe_lift_mm < lobes.lobe.full_lift_mm())) {
        return std::nullopt;
    }
    const CrankAngle after_full_lift = crank_angle(lobes.lobe.at_lift(lobe_lift_mm).closing);
    return CrankAngle::deg(lobes.centreline_crank_deg - 180.0) + after_full_lift - advance;
}

} // namespace rodway
