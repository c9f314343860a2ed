#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/clearance/rod_clearance.h"

namespace rodway {

/// Where in the turn a reading was taken.
enum class TurnPlace { on_heel, at_full_lift, at_crank_angle };

/// One gap felt between a rod and the wall of its passage, at one mouth (`gap_at.h` says exactly
/// what is measured). The gap lies between `low_mm` and `high_mm`; 'touch' is nothing left, both
/// zero; where only one gauge was tried the other side is empty: '.008 goes' and 'tape .006
/// survived' have no high, '.010 no' no low.
struct GapReading {
    std::string name; ///< by which it is told from others, such as its record's number
    ValvePosition valve;
    std::string passage = "tube";
    /// The set-up in which it was taken: gaskets new or crushed, lifter, lash, rod and all.
    std::optional<std::int64_t> set_up_id;
    TurnPlace place = TurnPlace::on_heel;
    CrankAngle crank; ///< if at a crank angle
    BoreEnd end = BoreEnd::top;
    std::optional<double> clock_hours; ///< (0, 12]; empty: at the tightest place, wherever that is
    std::optional<double> low_mm;
    std::optional<double> high_mm;
};

/// A reading at a lobe lift instead of a place in the turn.
struct GapAtLift {
    std::string name;
    double lobe_lift_mm = 0.0;
    BoreEnd end = BoreEnd::top;
    std::optional<double> clock_hours;
    std::optional<double> low_mm;
    std::optional<double> high_mm;
};

/// Errors name "readings/NAME/…": not_a_number, not_an_angle, out_of_range (clock 0 to 12 hours,
/// gap 0 to 25 mm, low not above high), missing_field (neither limit).
Result<Done> check_gap_reading(const GapReading& reading);

/// Lobe lift of the reading's valve where it was taken, mm. The valve must be one of the layout's.
[[nodiscard]] double lobe_lift_mm(const Engine& engine, const GapReading& reading);

} // namespace rodway
