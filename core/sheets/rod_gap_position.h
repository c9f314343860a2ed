#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/clearance/gap_reading.h"

namespace rodway {

/// Identity of the quantity in the shop file: a gap felt between a rod and its passage's wall, at
/// one place. It never changes.
constexpr std::string_view rod_gap_quantity = "rod_gap";

/// Where a gap was felt.
struct RodGapPosition {
    ValvePosition valve;
    std::string passage = "tube";
    BoreEnd end = BoreEnd::top;
    /// On the face of a clock, 1 to 720 (12 o'clock): a direction seen from the rocker down, 12 to
    /// the front. Empty: at the tightest place, wherever that is.
    std::optional<int> clock_minutes;
    TurnPlace place = TurnPlace::on_heel;
    CrankAngle crank; ///< if at a crank angle; kept within the cycle, to a thousandth of a degree
};

/// The position as a record has it: "3I/tube/rocker/3:30/full_lift", "5E/plate/lifter/tightest/
/// heel", "1I/tube/rocker/12/120.5_crank_deg". One place has one text, by which a retake is known.
/// Errors, `field` "position": not_a_position, not_an_angle, out_of_range (clock), wrong_type (a
/// passage's name that is empty or has a slash).
Result<std::string> rod_gap_position_text(const RodGapPosition& position);

/// Reads what `rod_gap_position_text` writes and nothing else. Error: wrong_type, `field`
/// "position", `expected` "gap_position".
Result<RodGapPosition> parse_rod_gap_position(std::string_view text);

/// Reads a clock direction as typed, "3", "3:30", "12", or "tightest", as minutes on its face.
/// Error: wrong_type, `field` "clock", `expected` "clock".
Result<std::optional<int>> parse_clock(std::string_view text);

} // namespace rodway
