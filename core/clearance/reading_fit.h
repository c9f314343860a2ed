#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/clearance/certified_minimum.h"
#include "core/clearance/gap_reading.h"
#include "core/clearance/next_reading.h"
#include "core/clearance/passage_pose.h"

namespace rodway {

/// What came of fitting one passage's place to the gaps felt round its rod.
enum class FitOutcome {
    fitted,      ///< one pose fits
    several_fit, ///< several distinct poses do: gaps alone can't tell a place from its mirror
    /// The readings agree with one another, but only where the passage can't stand by what was
    /// stated of its place.
    against_stated_place,
    contradicting,       ///< no pose fits all readings
    no_readings,         ///< nothing to fit: what was stated stands, with its doubt
    train_has_no_answer, ///< the train doesn't close where readings were taken
};

/// One reading as a pose has it.
struct GapAtPose {
    std::string name;
    double gap_mm = 0.0;
    double outside_mm = 0.0; ///< above 0 over the reading's high limit, below 0 under its low one
};

/// A movement of the passage that the readings left in doubt by more than half of what was stated.
/// Each mouth's movement for one standard deviation: towards 12 and towards 3 o'clock, mm.
struct WeakMovement {
    Vec2 top_mm = Vec2::Zero();
    Vec2 bottom_mm = Vec2::Zero();
    double left = 1.0; ///< standard deviation left, as a part of the one stated; 0.5 to 1
};

/// The rod's certified minimum with its passage at a pose.
struct PredictedMinimum {
    CertifiedMinimum found;
    /// ± at about 95 %, of the pose alone: the minimum at two standard deviations along each
    /// principal direction of the covariance, the larger side of each, combined by squares. Empty
    /// if not computed.
    std::optional<double> doubt_mm;
};

/// A pose that fits. Its mean and covariance are those of all poses that the readings allow, each
/// weighted by what was stated.
struct FittedPose {
    PassagePose pose;
    PoseMatrix covariance = PoseMatrix::Zero(); ///< in `as_vector`'s order and units
    double reading_misfit = 0.0; ///< Σ (outside/u)²; 0 where every gap lies in its interval
    double stated_misfit = 0.0;  ///< Σ (unknown/stated u)²
    std::vector<GapAtPose> gaps; ///< in the order of the readings used
    std::vector<WeakMovement> weak;
    /// Poses that fit as well lie all along a line through this one; covariance and doubt take in
    /// those that were found.
    bool one_of_a_line = false;
    PredictedMinimum minimum;
};

/// A reading that disagrees with the others.
struct DisagreeingReading {
    std::string name;
    bool rest_agrees = false; ///< without it, all others and what was stated agree
    double expected_mm = 0.0; ///< gap there by the others; if the rest doesn't agree, by `nearest`
    std::optional<double> expected_u_mm; ///< its standard deviation
    double off_mm =
        0.0; ///< `expected_mm` above the reading's high limit, or, below 0, under its low
};

enum class LeftOutBecause { other_valve, other_passage, other_set_up, set_up_not_known };

struct LeftOutReading {
    std::string name;
    LeftOutBecause because = LeftOutBecause::other_valve;
};

struct ReadingFit {
    FitOutcome outcome = FitOutcome::no_readings;
    TrainStatus train = TrainStatus::answered;
    std::vector<std::string> used;
    std::vector<LeftOutReading> left_out;
    /// Every distinct pose that fits, best first. If nothing was read, the stated place.
    std::vector<FittedPose> poses;
    /// The best compromise where none fits; against the stated place, where the readings agree.
    std::optional<FittedPose> nearest;
    /// Whether the readings themselves single out the first pose: every other misses them by at
    /// least 9 more (three standard deviations). What was stated may still favour one.
    bool told_apart_by_readings = false;
    std::optional<DecidingReading> deciding;     ///< if they don't
    std::optional<HelpfulReading> helpful;       ///< if one pose fits, and one more would help
    std::vector<DisagreeingReading> disagreeing; ///< most likely culprit first
};

/// A pose that fits, and how sure it is: nothing else.
struct PoseThatFits {
    PassagePose pose;
    PoseMatrix covariance = PoseMatrix::Zero(); ///< as `FittedPose` has it
    bool one_of_a_line = false;
};
struct PosesThatFit {
    TrainStatus train = TrainStatus::answered;
    std::vector<PoseThatFits> poses; ///< best first; empty where none fits
};

/// Which passage, and what is known beforehand.
struct FitRequest {
    ValvePosition valve;
    std::string passage = "tube";
    std::int64_t set_up_id = 0; ///< only readings taken in this one are used
    StatedPlace stated;
    Gauges gauges;
};

/// Fits the place of one passage to readings. Readings of other valves, passages and set-ups are
/// left out, by name. `engine` must be that of the set-up.
/// Errors: those of `check_gap_reading`, `check_stated_place`, `check_gauges`; valve_unknown
/// ("valve"), not_a_choice ("passage"), banks_parallel.
[[nodiscard]] Result<ReadingFit> fit_readings(const Engine& engine, const FitRequest& request,
                                              const std::vector<GapReading>& readings);

/// The poses that `fit_readings` would find, without what it says of each: for many fits in a row.
[[nodiscard]] PosesThatFit fit_poses(const RodInTube& rod, const StatedPlace& stated,
                                     const Gauges& gauges, const std::vector<GapAtLift>& readings);

/// The same as the first for a rod in its tube; readings good.
[[nodiscard]] ReadingFit fit_readings(const RodInTube& rod, const StatedPlace& stated,
                                      const Gauges& gauges, const std::vector<GapAtLift>& readings);

} // namespace rodway
