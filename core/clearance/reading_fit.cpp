#include "core/clearance/reading_fit.h"

#include <Eigen/Eigenvalues>
#include <algorithm>
#include <cmath>

#include "core/clearance/pose_region.h"
#include "core/clearance/rod_at_mouth.h"

namespace rodway {
namespace {

constexpr double weak_from = 0.5;
constexpr double told_apart_misfit = 9.0;
constexpr double two_sided_95 = 2.0;
/// How much farther a passage is looked for when nothing fits where it was stated to stand.
constexpr double looked_farther = 4.0;

FeltGap felt_gap(const RodInTube& rod, const Pose& pose, const GapAtLift& reading) {
    return {rod_at_mouth(rod, pose, reading.end), reading.end, reading.clock_hours, reading.low_mm,
            reading.high_mm};
}

PassagePose pose_of(const PoseSearch& search, const Spread& spread) {
    return as_pose(spread.mean.cwiseProduct(search.stated_u()));
}

PoseMatrix covariance_of(const PoseSearch& search, const Spread& spread) {
    const auto scale = search.stated_u().asDiagonal();
    return scale * spread.covariance * scale;
}

std::vector<WeakMovement> weak_movements(const PoseSearch& search, const Spread& spread,
                                         double length_mm) {
    const Eigen::SelfAdjointEigenSolver<PoseMatrix> parts(spread.covariance);
    std::vector<WeakMovement> weak;
    for (int part = 3; part >= 0; --part) {
        const double left = std::sqrt(std::max(0.0, parts.eigenvalues()[part]));
        const PoseVector moved =
            left * parts.eigenvectors().col(part).cwiseProduct(search.stated_u());
        WeakMovement movement;
        const Vec2 sideways = moved.head<2>();
        const Vec2 lean = moved.tail<2>() * length_mm / 2.0;
        movement.top_mm = sideways + lean;
        movement.bottom_mm = sideways - lean;
        movement.left = std::min(1.0, left);
        const bool top_more = movement.top_mm.norm() >= movement.bottom_mm.norm();
        const Vec2& more = top_more ? movement.top_mm : movement.bottom_mm;
        if (left <= weak_from || more.norm() < 1e-9) {
            continue; // well known, or nobody ever doubted it
        }
        // Either sign says the same: the end that moves more goes to the front, or to 3 o'clock.
        if (std::abs(more[0]) >= std::abs(more[1]) ? more[0] < 0.0 : more[1] < 0.0) {
            movement.top_mm *= -1.0;
            movement.bottom_mm *= -1.0;
        }
        weak.push_back(movement);
    }
    return weak;
}

std::optional<double> minimum_mm(const RodInTube& rod, const Bore& tube) {
    RodInTube moved = rod;
    moved.tube = tube;
    const CertifiedMinimum found = certified_minimum(moved);
    return found.minimum ? std::optional(found.minimum->clearance_mm) : std::nullopt;
}

/// ± of a minimum, from the pose's mean and covariance.
std::optional<double> minimum_doubt_mm(const RodInTube& rod, const PoseSearch& search,
                                       const PoseVector& mean, const PoseMatrix& covariance,
                                       double minimum) {
    const Eigen::SelfAdjointEigenSolver<PoseMatrix> parts(covariance);
    double squares = 0.0;
    for (int part = 0; part < 4; ++part) {
        const double reach = two_sided_95 * std::sqrt(std::max(0.0, parts.eigenvalues()[part]));
        const PoseVector direction = parts.eigenvectors().col(part);
        bool known = false;
        // So far out that the rod would no longer go through: come nearer, and reckon from there.
        for (double share = 1.0; share > 0.05 && !known; share /= 2.0) {
            const auto change = [&](double side) -> std::optional<double> {
                const auto there =
                    minimum_mm(rod, search.bore_at(mean + side * share * reach * direction));
                return there ? std::optional(std::abs(*there - minimum) / share) : std::nullopt;
            };
            const auto up = change(1.0);
            const auto down = change(-1.0);
            if (up && down) {
                known = true;
                const double most = std::max(*up, *down);
                squares += most * most;
            }
        }
        if (!known) {
            return std::nullopt;
        }
    }
    return std::sqrt(squares);
}

FittedPose fitted_pose(const RodInTube& rod, const PoseSearch& search, const Spread& spread,
                       const std::vector<GapAtLift>& readings, bool one_of_a_line) {
    FittedPose fitted;
    fitted.pose = pose_of(search, spread);
    fitted.covariance = covariance_of(search, spread);
    const Candidate at = search.look(spread.mean);
    fitted.reading_misfit = at.reading_misfit;
    fitted.stated_misfit = at.stated_misfit();
    for (std::size_t reading = 0; reading < readings.size(); ++reading) {
        const FeltGap& felt = search.felt()[reading];
        const double gap = search.gap_mm(felt, spread.mean);
        fitted.gaps.push_back({readings[reading].name, gap, outside_mm(felt, gap)});
    }
    fitted.weak = weak_movements(search, spread, rod.tube.length_mm);
    fitted.one_of_a_line = one_of_a_line;
    RodInTube moved = rod;
    moved.tube = search.bore_at(spread.mean);
    fitted.minimum.found = certified_minimum(moved);
    if (const auto& minimum = fitted.minimum.found.minimum) {
        fitted.minimum.doubt_mm =
            minimum_doubt_mm(rod, search, spread.mean, spread.covariance, minimum->clearance_mm);
    }
    return fitted;
}

/// What each reading would be by all the others.
std::vector<DisagreeingReading> disagreements(const RodInTube& rod, const StatedPlace& stated,
                                              const PoseSearch& search, const Candidate& nearest,
                                              const std::vector<GapAtLift>& readings) {
    struct Suspect {
        DisagreeingReading reading;
        double rest_misfit;
    };
    std::vector<Suspect> cured;
    std::vector<Suspect> missed;
    for (std::size_t at = 0; at < readings.size(); ++at) {
        const FeltGap& felt = search.felt()[at];
        std::vector<FeltGap> others = search.felt();
        others.erase(others.begin() + static_cast<std::ptrdiff_t>(at));
        const PoseSearch rest(rod.tube, stated, others, search.gauge_u_mm());
        const std::vector<Candidate> minima = rest.minima();
        if (rest.fits(minima.front())) {
            DisagreeingReading found{readings[at].name, true, 0.0, {}, 0.0};
            for (const Candidate& minimum : minima) {
                const Spread spread = spread_about(rest, minimum);
                const auto gap = rest.gap_slope(felt, spread.mean);
                const double off = outside_mm(felt, gap.gap_mm);
                if (found.expected_u_mm && std::abs(off) >= std::abs(found.off_mm)) {
                    continue; // another pose of the rest comes nearer
                }
                found.expected_mm = gap.gap_mm;
                found.expected_u_mm = std::sqrt(gap.slope.dot(spread.covariance * gap.slope));
                found.off_mm = off;
            }
            cured.push_back({found, minima.front().misfit()});
        }
        const double gap = search.gap_mm(felt, nearest.in_stated_u);
        if (const double off = outside_mm(felt, gap); off != 0.0) {
            missed.push_back({{readings[at].name, false, gap, {}, off}, -std::abs(off)});
        }
    }
    std::vector<Suspect>& suspects = cured.empty() ? missed : cured;
    std::sort(suspects.begin(), suspects.end(),
              [](const Suspect& a, const Suspect& b) { return a.rest_misfit < b.rest_misfit; });
    std::vector<DisagreeingReading> named;
    named.reserve(suspects.size());
    for (const Suspect& suspect : suspects) {
        named.push_back(suspect.reading);
    }
    return named;
}

std::vector<RodAtPlace> gauge_rods(const RodInTube& rod) {
    std::vector<RodAtPlace> rods;
    for (const auto& [place, lift] : {std::pair{TurnPlace::on_heel, 0.0},
                                      std::pair{TurnPlace::at_full_lift, rod.full_lift_mm}}) {
        if (const auto pose = rod.linkage.at(lift)) {
            for (const BoreEnd end : {BoreEnd::top, BoreEnd::bottom}) {
                rods.push_back({place, end, rod_at_mouth(rod, *pose, end)});
            }
        }
    }
    return rods;
}

/// Where no pose fits: do the readings at least agree with one another?
void explain_misfit(ReadingFit& fit, const RodInTube& rod, const StatedPlace& stated,
                    const PoseSearch& search, const Candidate& best,
                    const std::vector<GapAtLift>& readings) {
    const StatedPlace farther{looked_farther * stated.sideways_u_mm,
                              looked_farther * stated.lean_u_rad};
    const PoseSearch wide(rod.tube, farther, search.felt(), search.gauge_u_mm());
    const Candidate agreed = wide.minima().front();
    const bool readings_agree = wide.fits(agreed);
    fit.outcome = readings_agree ? FitOutcome::against_stated_place : FitOutcome::contradicting;
    const Candidate& shown = readings_agree ? agreed : best;
    const PoseSearch& by = readings_agree ? wide : search;
    fit.nearest = fitted_pose(rod, by, spread_about(by, shown), readings, false);
    // The misfit with what was really stated, not with four times that.
    fit.nearest->stated_misfit *= readings_agree ? looked_farther * looked_farther : 1.0;
    fit.disagreeing = disagreements(rod, stated, search, best, readings);
}

/// ± of the predicted minimum once one more gap has been felt: the best pose fitted anew.
std::optional<double> doubt_with_one_more_mm(const RodInTube& rod, const StatedPlace& stated,
                                             const PoseSearch& search, const FeltGap& more) {
    std::vector<FeltGap> felt = search.felt();
    felt.push_back(more);
    const PoseSearch with(rod.tube, stated, felt, search.gauge_u_mm());
    const std::vector<Candidate> minima = with.minima();
    if (!with.fits(minima.front())) {
        return std::nullopt;
    }
    const Spread spread = pose_regions(with, minima).front().spread;
    const auto minimum = minimum_mm(rod, with.bore_at(spread.mean));
    return minimum ? minimum_doubt_mm(rod, with, spread.mean, spread.covariance, *minimum)
                   : std::nullopt;
}

/// The reading that leaves the least doubt, if it leaves less than there is. While some movement
/// is still weak, those that seem best by slopes are tried by fitting anew, since so far out slopes
/// can mislead; of a line of poses they say little, so there every one is tried.
std::optional<HelpfulReading> most_helpful(const FittedPose& pose, const RodInTube& rod,
                                           const PoseSearch& search, const StatedPlace& stated,
                                           const Spread& spread, const Gauges& gauges) {
    constexpr std::size_t tried_anew = 12;
    const double minimum = pose.minimum.found.minimum->clearance_mm;
    const auto doubt_mm = [&](const PoseMatrix& covariance) {
        return minimum_doubt_mm(rod, search, spread.mean, covariance, minimum);
    };
    const std::vector<RodAtPlace> rods = gauge_rods(rod);
    std::vector<HelpfulReading> seem = helpful_readings(search, spread, doubt_mm, rods, gauges);
    if (!pose.weak.empty()) {
        seem.resize(pose.one_of_a_line ? seem.size() : std::min(seem.size(), tried_anew));
        std::erase_if(seem, [&](HelpfulReading& each) {
            const auto at = std::find_if(rods.begin(), rods.end(), [&](const RodAtPlace& rod_at) {
                return rod_at.place == each.at.place && rod_at.end == each.at.end;
            });
            const auto after = doubt_with_one_more_mm(
                rod, stated, search,
                {at->rod, each.at.end, each.at.clock_hours, each.expected_mm - gauges.step_mm / 2.0,
                 each.expected_mm + gauges.step_mm / 2.0});
            each.doubt_after_mm = after.value_or(0.0);
            return !after;
        });
    }
    const auto best = std::min_element(seem.begin(), seem.end(),
                                       [](const HelpfulReading& a, const HelpfulReading& b) {
                                           return a.doubt_after_mm < b.doubt_after_mm;
                                       });
    const bool helps = best != seem.end() && pose.minimum.doubt_mm &&
                       best->doubt_after_mm < *pose.minimum.doubt_mm;
    return helps ? std::optional(*best) : std::nullopt;
}

void say_what_to_read_next(ReadingFit& fit, const RodInTube& rod, const PoseSearch& search,
                           const StatedPlace& stated, const std::vector<Spread>& spreads,
                           const Gauges& gauges) {
    fit.told_apart_by_readings =
        std::all_of(fit.poses.begin() + 1, fit.poses.end(), [&](const FittedPose& other) {
            return other.reading_misfit - fit.poses.front().reading_misfit >= told_apart_misfit;
        });
    if (!fit.told_apart_by_readings) {
        fit.deciding = deciding_reading(search, spreads, gauge_rods(rod), gauges);
    }
    if (fit.poses.size() == 1 && fit.poses.front().minimum.found.minimum) {
        fit.helpful = most_helpful(fit.poses.front(), rod, search, stated, spreads.front(), gauges);
    }
}

/// The readings ready for the search, or why there is none.
struct FeltGaps {
    TrainStatus train = TrainStatus::answered;
    std::vector<FeltGap> felt;
};

FeltGaps felt_gaps(const RodInTube& rod, const std::vector<GapAtLift>& readings) {
    FeltGaps gaps;
    for (const GapAtLift& reading : readings) {
        const auto pose = rod.linkage.at(reading.lobe_lift_mm);
        if (!pose) {
            return {rod.linkage.status_at(reading.lobe_lift_mm), {}};
        }
        gaps.felt.push_back(felt_gap(rod, *pose, reading));
    }
    return gaps;
}

} // namespace

PosesThatFit fit_poses(const RodInTube& rod, const StatedPlace& stated, const Gauges& gauges,
                       const std::vector<GapAtLift>& readings) {
    const FeltGaps gaps = felt_gaps(rod, readings);
    PosesThatFit found{gaps.train, {}};
    if (gaps.train != TrainStatus::answered) {
        return found;
    }
    const PoseSearch search(rod.tube, stated, gaps.felt, gauges.u_mm);
    const std::vector<Candidate> minima = search.minima();
    if (search.fits(minima.front())) {
        for (const PoseRegion& region : pose_regions(search, minima)) {
            found.poses.push_back({pose_of(search, region.spread),
                                   covariance_of(search, region.spread), region.one_of_a_line});
        }
    }
    return found;
}

ReadingFit fit_readings(const RodInTube& rod, const StatedPlace& stated, const Gauges& gauges,
                        const std::vector<GapAtLift>& readings) {
    ReadingFit fit;
    for (const GapAtLift& reading : readings) {
        fit.used.push_back(reading.name);
    }
    const FeltGaps gaps = felt_gaps(rod, readings);
    if (gaps.train != TrainStatus::answered) {
        fit.outcome = FitOutcome::train_has_no_answer;
        fit.train = gaps.train;
        return fit;
    }
    const PoseSearch search(rod.tube, stated, gaps.felt, gauges.u_mm);
    const std::vector<Candidate> minima = search.minima();
    if (!search.fits(minima.front())) {
        explain_misfit(fit, rod, stated, search, minima.front(), readings);
        return fit;
    }
    std::vector<Spread> spreads;
    for (const PoseRegion& region : pose_regions(search, minima)) {
        spreads.push_back(region.spread);
        fit.poses.push_back(
            fitted_pose(rod, search, region.spread, readings, region.one_of_a_line));
    }
    fit.outcome = readings.empty()        ? FitOutcome::no_readings
                  : fit.poses.size() == 1 ? FitOutcome::fitted
                                          : FitOutcome::several_fit;
    say_what_to_read_next(fit, rod, search, stated, spreads, gauges);
    return fit;
}

namespace {

std::optional<LeftOutBecause> left_out(const GapReading& reading, const FitRequest& request) {
    if (reading.valve != request.valve) {
        return LeftOutBecause::other_valve;
    }
    if (reading.passage != request.passage) {
        return LeftOutBecause::other_passage;
    }
    if (!reading.set_up_id) {
        return LeftOutBecause::set_up_not_known;
    }
    return *reading.set_up_id == request.set_up_id ? std::nullopt
                                                   : std::optional(LeftOutBecause::other_set_up);
}

/// The rod in the passage asked for, in place of its port tube.
Result<TrainInTube> rod_in_passage(const Engine& engine, const Train& train,
                                   const std::string& name) {
    Result<TrainInTube> made = rod_in_tube(engine, train);
    if (!made || name == train.tube.name) {
        return made;
    }
    const auto passage =
        std::find_if(train.further_passages.begin(), train.further_passages.end(),
                     [&](const Passage& candidate) { return candidate.name == name; });
    if (passage == train.further_passages.end()) {
        return Error{ErrorCode::not_a_choice, "passage", name, {}, {}, {}};
    }
    const Result<Bore> bore = engine.bore_in_place(train, *passage);
    if (!bore) {
        return bore.error();
    }
    TrainInTube found = *std::move(made);
    if (found.rod) {
        found.rod->tube = *bore;
        found.rod->name = name;
    }
    return found;
}

} // namespace

Result<ReadingFit> fit_readings(const Engine& engine, const FitRequest& request,
                                const std::vector<GapReading>& readings) {
    if (auto checked = check_stated_place(request.stated); !checked) {
        return checked.error();
    }
    if (auto checked = check_gauges(request.gauges); !checked) {
        return checked.error();
    }
    const Train* train = engine.train(request.valve);
    if (!train) {
        return Error{ErrorCode::valve_unknown, "valve", position_name(request.valve), {}, {}, {}};
    }
    const Result<TrainInTube> placed = rod_in_passage(engine, *train, request.passage);
    if (!placed) {
        return placed.error();
    }
    std::vector<LeftOutReading> not_used;
    std::vector<GapAtLift> used;
    for (const GapReading& reading : readings) {
        if (const auto because = left_out(reading, request)) {
            not_used.push_back({reading.name, *because});
            continue;
        }
        if (auto checked = check_gap_reading(reading); !checked) {
            return checked.error();
        }
        used.push_back({reading.name, lobe_lift_mm(engine, reading), reading.end,
                        reading.clock_hours, reading.low_mm, reading.high_mm});
    }
    ReadingFit fit;
    if (placed->rod) {
        fit = fit_readings(*placed->rod, request.stated, request.gauges, used);
    } else {
        fit.outcome = FitOutcome::train_has_no_answer;
        fit.train = placed->status;
    }
    fit.left_out = not_used;
    return fit;
}

} // namespace rodway
