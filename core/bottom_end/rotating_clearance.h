#pragma once

#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/bottom_end/size_band.h"
#include "core/sheets/reading_interval.h"
#include "core/units/angle.h"

namespace rodway {

/// What comes near what as the engine is barred over.
enum class RotatingPair {
    rod_to_cam,              ///< rod bolt or shoulder to cam lobe; by cylinder
    rod_to_block,            ///< by cylinder
    rod_to_piston,           ///< the neighbour's skirt included; by cylinder
    counterweight_to_block,  ///< by main journal or counterweight
    counterweight_to_piston, ///< by cylinder
    crank_to_pump,           ///< once
};

/// A gap found at one place. Empty: not measured.
struct RotatingGap {
    RotatingPair pair = RotatingPair::rod_to_cam;
    int place = 0;                   ///< cylinder, journal or counterweight
    std::optional<CrankAngle> crank; ///< where it was smallest
    std::optional<Interval> gap_mm;  ///< 0 to 200
};

/// One pair, at all its places.
struct RotatingClearance {
    RotatingPair pair = RotatingPair::rod_to_cam;
    std::optional<std::size_t> smallest; ///< index into the readings; empty: none was measured
    /// The smallest true gap of those measured lies in here.
    std::optional<Interval> smallest_mm;
    /// Other readings that may be the smallest, their doubt counted: indices.
    std::vector<std::size_t> may_be_smallest;
    std::vector<int> not_measured;        ///< places
    std::optional<SizeStanding> standing; ///< of the smallest
};

/// .050 in and more. Common practice, no source; a shop or maker sets its own.
[[nodiscard]] SizeBand common_rotating_clearance();

/// The smallest gap of each pair and where it is, in the order in which the pairs first stand. A
/// place read twice, at other crank angles say, counts by each reading; a place is not measured if
/// none of its readings has a gap.
/// Errors, `line` counted from 1: too_few_rows ("gap": none); not_a_number, out_of_range ("gap");
/// not_an_angle ("crank").
Result<std::vector<RotatingClearance>> rotating_clearances(const std::vector<RotatingGap>& gaps,
                                                           const SizeBand& wanted);

} // namespace rodway
