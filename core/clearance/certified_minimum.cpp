#include "core/clearance/certified_minimum.h"

#include <algorithm>
#include <cmath>

#include "core/clearance/approach.h"
#include "core/geometry/rod_to_solid.h"

namespace rodway {
namespace {

constexpr double wanted_bound_mm = 0.0005; // half of what is promised
constexpr double least_interval_mm = 1e-5;
constexpr int most_evaluations = 200000;

/// Between two of the looks taken, by their places in the list.
struct Interval {
    std::size_t a = 0;
    std::size_t b = 0;
    double least_mm = 0.0; ///< clearance proved
};

bool less_urgent(const Interval& left, const Interval& right) {
    return left.least_mm > right.least_mm;
}

/// Why a search had to give up.
struct Trouble {
    TrainStatus status;
    double at_mm;
};

class Search {
  public:
    explicit Search(const RodPair& pair) : pair_(pair), approach_(pair) {
        looks_.reserve(32);
        intervals_.reserve(32);
    }

    CertifiedMinimum run();

  private:
    bool look(double s);
    bool examine(std::size_t a, std::size_t b);
    void narrow_down();
    void polish(ApproachSample low, ApproachSample high);
    [[nodiscard]] const ApproachSample& last() const { return looks_.back(); }
    [[nodiscard]] double best_mm() const { return best_.sample.clearance_mm; }

    const RodPair& pair_;
    Approach approach_;
    int evaluations_ = 0;
    std::vector<ApproachSample> looks_;
    /// Together the whole turn; a heap, least proved clearance first.
    std::vector<Interval> intervals_;
    Approach::Look best_;
    Approach::Look newest_;
    std::optional<Trouble> trouble_;
};

/// Looks at one more lobe lift and keeps it. False if there is no answer.
bool Search::look(double s) {
    ++evaluations_;
    const auto found = approach_.look(s);
    if (!found) {
        const auto first = pair_.linkage.first_trouble(pair_.full_lift_mm);
        trouble_ = first ? Trouble{first->status, first->lobe_lift_mm}
                         : Trouble{approach_.status_at(s), s};
        return false;
    }
    newest_ = *found;
    looks_.push_back(found->sample);
    if (evaluations_ == 1 || found->sample.clearance_mm < best_mm()) {
        best_ = *found;
    }
    return true;
}

/// Keeps an interval with what can be proved of it. False if it is too narrow to prove anything.
bool Search::examine(std::size_t a, std::size_t b) {
    const auto least = approach_.least_between(looks_[a], looks_[b], best_mm());
    if (!least && looks_[b].s_mm - looks_[a].s_mm < least_interval_mm) {
        const double swing = std::max(looks_[a].swing, looks_[b].swing);
        const TrainStatus status = pair_.linkage.bounds(looks_[a].s_mm, looks_[b].s_mm, swing)
                                       ? TrainStatus::does_not_go_through
                                       : TrainStatus::near_dead_point;
        trouble_ = Trouble{status, (looks_[a].s_mm + looks_[b].s_mm) / 2.0};
        return false;
    }
    intervals_.push_back({a, b, least ? *least : -std::numeric_limits<double>::infinity()});
    std::push_heap(intervals_.begin(), intervals_.end(), less_urgent);
    return true;
}

/// Halves the interval of which least is proved, until enough is.
void Search::narrow_down() {
    while (!trouble_ && intervals_.front().least_mm < best_mm() - wanted_bound_mm &&
           evaluations_ < most_evaluations) {
        std::pop_heap(intervals_.begin(), intervals_.end(), less_urgent);
        const Interval interval = intervals_.back();
        intervals_.pop_back();
        if (!look((looks_[interval.a].s_mm + looks_[interval.b].s_mm) / 2.0)) {
            return;
        }
        const std::size_t middle = looks_.size() - 1;
        if (!examine(interval.a, middle) || !examine(middle, interval.b)) {
            return;
        }
    }
}

/// Finds the local minimum in an interval where the slope turns from falling to rising, by the
/// secant method kept inside its bracket. A minimum of smooth functions has its own minima only
/// where one of them has: kinks point upward.
void Search::polish(ApproachSample low, ApproachSample high) {
    if (!(low.slope < 0.0 && high.slope > 0.0)) {
        return;
    }
    double low_weight = low.slope;
    double high_weight = high.slope;
    double last_slope = 0.0;
    for (int step = 0; step < 60 && high.s_mm - low.s_mm > 1e-11; ++step) {
        double s = low.s_mm + (high.s_mm - low.s_mm) * (low_weight / (low_weight - high_weight));
        if (!(s > low.s_mm && s < high.s_mm)) {
            s = (low.s_mm + high.s_mm) / 2.0;
        }
        if (!look(s) || std::abs(last().slope) < 1e-13) {
            return;
        }
        const bool falling = last().slope < 0.0;
        (falling ? low : high) = last();
        (falling ? low_weight : high_weight) = last().slope;
        // Twice on one side: let the other end pull harder (the Illinois rule).
        if (last_slope * last().slope > 0.0) {
            (falling ? high_weight : low_weight) /= 2.0;
        }
        last_slope = last().slope;
    }
}

CertifiedMinimum Search::run() {
    CertifiedMinimum answer;
    answer.kind = pair_.kind;
    answer.feature = pair_.name;
    std::optional<RodClearance> heel;
    std::optional<RodClearance> full;
    if (look(0.0)) {
        heel = rod_clearance(pair_, newest_.ball, 0.0);
        full = heel;
        if (pair_.full_lift_mm > 0.0 && look(pair_.full_lift_mm)) {
            full = rod_clearance(pair_, newest_.ball, pair_.full_lift_mm);
            if (examine(0, 1)) {
                narrow_down();
            }
        }
    }
    if (!trouble_) {
        for (const Interval& interval : intervals_) {
            if (interval.least_mm < best_mm()) {
                polish(looks_[interval.a], looks_[interval.b]);
            }
        }
    }
    answer.evaluations = evaluations_;
    if (trouble_) {
        answer.status = trouble_->status;
        answer.status_at_mm = trouble_->at_mm;
        return answer;
    }
    answer.on_heel = std::move(heel);
    answer.at_full_lift = std::move(full);
    answer.minimum = rod_clearance(pair_, best_.ball, best_.sample.s_mm);
    if (!intervals_.empty()) {
        answer.bound_mm = std::max(0.0, best_mm() - intervals_.front().least_mm);
    }
    return answer;
}

// A lifter's body moves along its own axis, so that over the turn it sweeps a longer body of the
// same kind, and the least clearance of that one is the least of the turn. Nothing is left to
// bound but rounding and the search along the axis.
CertifiedMinimum lifter_minimum(const TrainSurroundings& surroundings, const TouchPair& pair) {
    const Feature& feature = surroundings.features[pair.feature];
    const LifterBody& body = *surroundings.lifter_body;
    const double full_lift = surroundings.full_lift_mm;
    const double swept = body.length_mm + full_lift;
    const RoundSection whole{0.0, swept, body.radius_mm, body.radius_mm};
    const Vec3 end_K = body.foot_K + swept * surroundings.linkage.lifter_axis_K();
    const auto ball =
        rod_to_solid(*std::get_if<Solid>(&feature.shape), body.foot_K, end_K, {&whole, 1});
    CertifiedMinimum answer;
    answer.kind = feature.kind;
    answer.feature = feature.name;
    answer.part = MovedPart::lifter_body;
    answer.evaluations = 4;
    if (ball) {
        // The least lift at which the body's rim has come as far.
        const double lift = std::clamp(ball->station_mm - body.length_mm, 0.0, full_lift);
        answer.on_heel = pair_clearance_at(surroundings, pair, 0.0);
        answer.at_full_lift = pair_clearance_at(surroundings, pair, full_lift);
        answer.minimum = pair_clearance_at(surroundings, pair, lift);
    }
    if (!answer.minimum || !answer.on_heel || !answer.at_full_lift) {
        answer.on_heel = answer.at_full_lift = answer.minimum = std::nullopt;
        answer.status = TrainStatus::outside_domain;
        return answer;
    }
    answer.bound_mm = std::max(0.0, answer.minimum->clearance_mm - ball->clearance_mm);
    return answer;
}

} // namespace

CertifiedMinimum certified_minimum(const RodInTube& rod) {
    const TubePair tube(rod);
    return Search(tube.pair()).run();
}

std::vector<CertifiedMinimum> certified_minima(const TrainSurroundings& surroundings) {
    std::vector<CertifiedMinimum> all;
    for (const TouchPair& pair : surroundings.pairs()) {
        if (pair.part == MovedPart::lifter_body) {
            all.push_back(lifter_minimum(surroundings, pair));
        } else {
            const RodPair rod = surroundings.rod_pair(surroundings.features[pair.feature]);
            all.push_back(Search(rod).run());
        }
    }
    return all;
}

const CertifiedMinimum& deciding(const std::vector<CertifiedMinimum>& all) {
    RODWAY_ASSERT(!all.empty());
    const CertifiedMinimum* least = &all.front();
    for (const CertifiedMinimum& each : all) {
        if (each.status != TrainStatus::answered) {
            return each;
        }
        if (each.minimum->clearance_mm < least->minimum->clearance_mm) {
            least = &each;
        }
    }
    return *least;
}

Result<TrainInTube> rod_in_tube(const Engine& engine, const Train& train) {
    const Result<Bore> tube = engine.tube_in_place(train);
    if (!tube) {
        return tube.error();
    }
    const Linkage::Closing closing = Linkage::close(train);
    TrainInTube result;
    result.status = closing.status;
    result.adjuster_needed_mm = closing.adjuster_needed_mm;
    if (closing.linkage) {
        result.rod =
            RodInTube{*closing.linkage,
                      *tube,
                      train.rod.diameter_mm / 2.0,
                      engine.lobes(train.position).lobe.full_lift_mm(),
                      engine.outboard_y_sign(train),
                      train.rod.profile.empty() ? RoundSections{} : rod_sections(train.rod),
                      train.tube.name};
    }
    return result;
}

} // namespace rodway
