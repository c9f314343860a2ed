#pragma once

#include <string>
#include <string_view>

#include "core/base/result.h"
#include "core/clearance/verdict.h"

namespace rodway {

/// Identity of the quantity in the shop file. It never changes.
constexpr std::string_view rod_clearance_quantity = "rod_clearance";

/// A rod's clearance as found by hand: by feeler, pin gauge, tape or light.
struct RodClearanceReading {
    bool touch = false; ///< rod and wall were found in contact
    double low_mm = 0.0;
    double high_mm = 0.0;   ///< half a step of the last digit typed either side of a plain value
    double finest_mm = 0.0; ///< step in which it was typed; 0 if the text has no number

    /// Without a high limit (">.030", ".008 goes"), `high_mm` is as much as any rod has.
    [[nodiscard]] bool has_high_limit() const;
};

/// Reads ".012", ".008-.010" (goes, no-go), ".008 goes, .010 no", ".008 goes", ".010 no go",
/// "tape .006 survived" (at least that), ".010 light drag" (the gap is that gauge), ">.030",
/// "~.010", "touch", "rubs". A clearance is never negative. Errors: as `parse_length`; gauge_needed
/// ("no go", "light drag" alone); out_of_range, also where a gauge that goes is thicker than one
/// that doesn't: the limits are then what the thinner one allows.
Result<RodClearanceReading> parse_rod_clearance(std::string_view text, bool inches);

/// A text without the "light drag" before or behind it: a gauge that is felt is as thick as the
/// gap.
[[nodiscard]] std::string without_drag(std::string_view text);

/// Judges a reading by the interval in which the clearance must lie.
[[nodiscard]] Verdict judge(const RodClearanceReading& reading, const RodClearanceLimits& limits);

} // namespace rodway
