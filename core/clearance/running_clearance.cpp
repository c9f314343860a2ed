#include "core/clearance/running_clearance.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <numbers>

#include "core/barring/valve_arcs.h"
#include "core/clearance/bowed_rod.h"
#include "core/clearance/doubt.h"
#include "core/loads/rod_column.h"
#include "core/loads/rod_load.h"

namespace rodway {
namespace {

constexpr int looks = 120;
constexpr int looks_shut = 24;

/// The argument in [from, to] at which a function is least: even looks, then the golden section
/// about the lowest of them. The function is smooth but for kinks that point upward.
double where_least(double from, double to, int count, const std::function<double(double)>& value) {
    const double step = (to - from) / count;
    double best = from;
    double least = value(from);
    for (int look = 1; look <= count; ++look) {
        const double here = from + step * look;
        if (const double found = value(here); found < least) {
            least = found;
            best = here;
        }
    }
    double low = std::max(from, best - step);
    double high = std::min(to, best + step);
    constexpr double golden = 0.6180339887498949;
    constexpr int narrowings = 32; // to a five-millionth of the step
    double lower = high - golden * (high - low);
    double upper = low + golden * (high - low);
    double at_lower = value(lower);
    double at_upper = value(upper);
    for (int narrowing = 0; narrowing < narrowings; ++narrowing) {
        if (at_lower <= at_upper) {
            high = upper;
            upper = lower;
            at_upper = at_lower;
            lower = high - golden * (high - low);
            at_lower = value(lower);
        } else {
            low = lower;
            lower = upper;
            at_lower = at_upper;
            upper = low + golden * (high - low);
            at_upper = value(upper);
        }
    }
    const double middle = (low + high) / 2.0;
    return value(middle) < least ? middle : best;
}

double thinnest_mm(const Pushrod& rod) {
    double diameter = rod.diameter_mm;
    for (const RodSection& section : rod.profile) {
        diameter = std::min({diameter, section.diameter_from_mm, section.diameter_to_mm});
    }
    return diameter;
}

class RodInMotion {
  public:
    RodInMotion(const Engine& engine, const Train& train, const RunningStated& stated)
        : engine_(engine),
          train_(train),
          lobe_(engine.lobes(train.position).lobe),
          full_lift_(engine.full_lift_angle(train.position)) {
        answer_.valve = train.position;
        take(stated);
    }

    Result<ValveInMotion> answer() {
        const auto closed = train_surroundings(engine_, train_);
        if (!closed) {
            return closed.error();
        }
        answer_.train = closed->status;
        if (!closed->surroundings) {
            answer_.status = RunningStatus::no_train;
        } else if (!answer_.missing.empty()) {
            answer_.status = RunningStatus::not_stated;
        } else {
            work_out(*closed->surroundings);
        }
        return answer_;
    }

  private:
    void take(const RunningStated& stated) {
        const auto found = stated.valves.find(train_.position);
        const RunningValve valve = found == stated.valves.end() ? RunningValve{} : found->second;
        const std::string kind = train_.position.kind == ValveKind::intake ? "intake" : "exhaust";
        const auto need = [](std::vector<std::string>& missing, bool there, std::string path) {
            if (!there) {
                missing.push_back(std::move(path));
            }
        };
        spring_ = engine_.spring(train_.position);
        const auto& of_all = engine_.doubt.rod_runout;
        const auto runout_mm =
            valve.runout_mm || !of_all ? valve.runout_mm : std::optional(of_all->size);
        need(answer_.missing, runout_mm.has_value(), "running/rods/" + kind + "/runout");
        need(answer_.missing, valve.wall_mm.has_value(), "running/rods/" + kind + "/wall");
        need(answer_.missing, valve.modulus_MPa.has_value(), "running/rods/" + kind + "/modulus");
        need(answer_.missing, spring_ != nullptr, "springs/" + kind + "/loads");
        auto& inertia = answer_.missing_for_inertia;
        const std::string masses = "running/masses/" + kind;
        need(inertia, stated.crank_rpm.has_value(), "running/speed");
        need(inertia, valve.valve_side_t.has_value(), masses + "/valve_side");
        need(inertia, valve.rocker_at_valve_t.has_value(), masses + "/rocker_at_valve");
        need(inertia, valve.rod_t.has_value(), masses + "/rod");
        if (inertia.empty()) {
            running_ = RunningSpeed{{*valve.valve_side_t, *valve.rocker_at_valve_t, *valve.rod_t},
                                    *stated.crank_rpm / 2.0 * 2.0 * std::numbers::pi / 60.0};
        }
        if (answer_.missing.empty()) {
            bow_rest_mm_ = *runout_mm / 2.0;
            column_ = {train_.rod.length_mm, thinnest_mm(train_.rod), *valve.wall_mm,
                       *valve.modulus_MPa};
        }
    }

    /// Load along the rod at a cam angle from full lift; NaN where the train doesn't close.
    [[nodiscard]] double load_N(const Linkage& linkage, CamAngle at) const {
        const LobeMotion motion = lobe_.at(at);
        const auto pose = linkage.at(motion.lift);
        if (!pose) {
            return std::numeric_limits<double>::quiet_NaN();
        }
        return running_ ? running_load_N(train_, linkage, *pose, *spring_, motion, *running_)
                        : spring_on_rod_N(train_, linkage, *pose, *spring_);
    }

    /// Least of the rod, bowed so far in its middle, from everything it may touch.
    static std::optional<RodClearance> left(const TrainSurroundings& surroundings,
                                            double lobe_lift_mm, double bow_mm) {
        const auto pose = surroundings.linkage.at(lobe_lift_mm);
        const RoundSections bowed = bowed_rod(surroundings.rod, bow_mm);
        std::optional<RodClearance> least;
        for (const Feature& feature : surroundings.features) {
            RodPair pair = surroundings.rod_pair(feature);
            pair.rod = bowed;
            const auto ball = pose ? closest_ball(pair, *pose) : std::nullopt;
            if (!ball) {
                return std::nullopt;
            }
            if (!least || ball->clearance_mm < least->clearance_mm) {
                least = rod_clearance(pair, *ball, lobe_lift_mm);
            }
        }
        return least;
    }

    [[nodiscard]] std::optional<RunningPlace> place(const TrainSurroundings& surroundings,
                                                    double lobe_lift_mm, double load_N) const {
        const auto bow_mm = bow_under_load_mm(bow_rest_mm_, load_N, *answer_.critical_N);
        auto found = bow_mm ? left(surroundings, lobe_lift_mm, *bow_mm) : std::nullopt;
        if (!found) {
            return std::nullopt;
        }
        const double here = bow_at_mm(*bow_mm, found->station_mm, train_.rod.length_mm);
        return RunningPlace{std::move(*found), here, load_N, std::nullopt};
    }

    static double left_mm(const std::optional<RunningPlace>& place) {
        return place ? place->left.clearance_mm : std::numeric_limits<double>::infinity();
    }

    void fail(TrainStatus status) {
        answer_.status = RunningStatus::no_train;
        answer_.train = status;
    }

    void work_out(const TrainSurroundings& surroundings) {
        answer_.bow_rest_mm = bow_rest_mm_;
        answer_.critical_N = critical_load_N(column_);
        // Where the straight rod has no answer, this one has none.
        const std::vector<CertifiedMinimum> straight = certified_minima(surroundings);
        if (const TrainStatus status = deciding(straight).status; status != TrainStatus::answered) {
            fail(status);
            return;
        }
        const auto arc = valve_above(engine_, train_.position, 0.0);
        const bool opens = arc && arc->span_deg > 0.0;
        double shut_to_mm = surroundings.full_lift_mm;
        if (opens) {
            const double from_deg = crank_from_full_lift_deg(arc->from);
            const CamAngle from = cam_angle(CrankAngle::deg(from_deg));
            const CamAngle to = cam_angle(CrankAngle::deg(from_deg + arc->span_deg));
            shut_to_mm = lobe_.lift_mm(from);
            if (!loads_bear(surroundings.linkage, from, to)) {
                return;
            }
            look_at_open(surroundings, from, to);
        }
        look_at_shut(surroundings, shut_to_mm);
        judge_least(surroundings);
    }

    /// Back from full lift: below zero.
    [[nodiscard]] double crank_from_full_lift_deg(CrankAngle at) const {
        const double ahead = (at - full_lift_).in_cycle().in_deg();
        return ahead > 0.0 ? ahead - 720.0 : 0.0;
    }

    bool loads_bear(const Linkage& linkage, CamAngle from, CamAngle to) {
        const auto load = [&](double deg) { return load_N(linkage, CamAngle::deg(deg)); };
        const double most = load(
            where_least(from.in_deg(), to.in_deg(), looks, [&](double deg) { return -load(deg); }));
        const double least = load(where_least(from.in_deg(), to.in_deg(), looks, load));
        answer_.greatest_N = most;
        answer_.least_N = least;
        answer_.bow_most_mm = bow_under_load_mm(bow_rest_mm_, most, *answer_.critical_N);
        if (!answer_.bow_most_mm) {
            answer_.status = RunningStatus::buckles;
        } else if (least < 0.0) {
            answer_.status = RunningStatus::lifts_off;
        }
        return answer_.status == RunningStatus::answered;
    }

    void look_at_open(const TrainSurroundings& surroundings, CamAngle from, CamAngle to) {
        const auto at = [&](double deg) {
            const CamAngle cam = CamAngle::deg(deg);
            return place(surroundings, lobe_.lift_mm(cam), load_N(surroundings.linkage, cam));
        };
        const double deg = where_least(from.in_deg(), to.in_deg(), looks,
                                       [&](double angle) { return left_mm(at(angle)); });
        answer_.open = at(deg);
        if (answer_.open) {
            answer_.open->at = (full_lift_ + crank_angle(CamAngle::deg(deg))).in_cycle();
        }
    }

    void look_at_shut(const TrainSurroundings& surroundings, double to_mm) {
        const auto at = [&](double lift_mm) { return place(surroundings, lift_mm, 0.0); };
        const double lift_mm =
            where_least(0.0, to_mm, looks_shut, [&](double lift) { return left_mm(at(lift)); });
        answer_.shut = at(lift_mm);
        if (answer_.shut && lift_mm > 0.0) {
            answer_.shut->at =
                (full_lift_ + crank_angle(lobe_.at_lift(lift_mm).opening)).in_cycle();
        }
    }

    void judge_least(const TrainSurroundings& surroundings) {
        const RunningPlace* least = answer_.least();
        if (least == nullptr) {
            fail(TrainStatus::does_not_go_through);
            return;
        }
        EngineDoubt beside_bow = engine_.doubt;
        beside_bow.rod_runout.reset();
        const auto doubt =
            doubt_at(engine_, train_, surroundings.linkage,
                     {place_beside(engine_, train_, surroundings, least->left)}, beside_bow);
        answer_.doubt_mm = minimum_doubt_mm(engine_, train_, doubt, least->left.feature);
        answer_.verdict = judge(least->left.clearance_mm, answer_.doubt_mm,
                                RodClearanceLimits{engine_.rod_clearance_limit_mm});
    }

    const Engine& engine_;
    const Train& train_;
    const Lobe& lobe_;
    CrankAngle full_lift_;
    const ValveSpring* spring_ = nullptr;
    std::optional<RunningSpeed> running_;
    RodColumn column_;
    double bow_rest_mm_ = 0.0;
    ValveInMotion answer_;
};

} // namespace

const RunningPlace* ValveInMotion::least() const {
    const bool open_rules = open && (!shut || open->left.clearance_mm <= shut->left.clearance_mm);
    return open_rules ? &*open : shut ? &*shut : nullptr;
}

Result<std::vector<ValveInMotion>> running_clearances(const Engine& engine,
                                                      const RunningStated& stated,
                                                      const std::stop_token& stop) {
    std::vector<ValveInMotion> valves;
    for (const Train& train : engine.trains) {
        if (stop.stop_requested()) {
            break;
        }
        auto valve = RodInMotion(engine, train, stated).answer();
        if (!valve) {
            return valve.error();
        }
        valves.push_back(*std::move(valve));
    }
    return valves;
}

} // namespace rodway
