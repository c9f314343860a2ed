#pragma once

#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/units/figure_band.h"
#include "core/valvetrain/lash_setting.h"

namespace rodway {

/// How lash grows or shrinks as an engine warms, from several sides: measured on the engine itself,
/// worked out from expansion, or passed round in the trade.

enum class Metal {
    carbon_steel,        ///< 1020
    alloy_steel,         ///< 4140, 4340
    grey_iron,           ///< G3000
    ductile_iron,        ///< 60-40-18
    strong_ductile_iron, ///< 80-55-06
    cast_aluminium,      ///< 356.0; 319.0 is the same (ASM Metals Handbook, from memory)
    wrought_aluminium,   ///< 6061
    titanium_alloy,      ///< Ti-6Al-4V
};

/// Coefficient of thermal expansion near 20 °C, per kelvin, with its spread: 5.5 % either way, as
/// far as lists differ over grey iron (10.8e-6 in two of them, 11.4e-6 here).
/// Source: Callister, Fundamentals of Materials Science and Engineering, table B.6.
[[nodiscard]] Interval expansion_per_K(Metal metal);

/// Growth of a length, mm. Source: α·L·ΔT. `length_mm` 0 to 2000; `warmed_K` -100 to 500.
/// Errors: out_of_range, not_a_number, order_wrong ("length", "warmed").
Result<Interval> growth_mm(Metal metal, const Interval& length_mm, const Interval& warmed_K);

/// One length of metal between the camshaft and the rocker or valve, along the valve's axis, and
/// what stands on it. A block's height up to the deck carries both pivot and valve tip, but no rod.
struct WarmLength {
    Metal metal = Metal::grey_iron;
    Interval length_mm;
    Interval warmed_K; ///< over the temperature at which the cold lash is set
    bool under_pivot = false;
    bool under_rod_seat = false;  ///< lifter and rod
    bool under_valve_tip = false; ///< castings up to the seat, and the valve from seat to tip
};

/// Growth of the gap at the valve, mm; positive: it opens as the engine warms. A pivot that rises
/// by p, a rod's seat by r and a valve's tip by v change it by (1 + R)·p - R·r - v, R the rocker's
/// ratio, 0.5 to 4 (closed form: similar triangles about the pivot). Lengths of one metal share one
/// coefficient, so that what they have in common drops out.
/// Errors: too_few_rows ("lengths"), those of `growth_mm` (`line` the place), "ratio".
Result<Interval> gap_growth_mm(const std::vector<WarmLength>& lengths, double rocker_ratio);

/// Where a figure for cold less hot lash comes from, the most trusted first.
enum class LashOffsetBasis {
    measured_here, ///< the same valves of this engine, cold and hot
    expansion,     ///< from lengths, coefficients and temperatures
    rule,          ///< passed round: iron +.002, mixed -.006, all aluminium -.012 in
    other_rule,    ///< passed round too: growth of .003-.005, .005-.007, .007-.015 in
};

struct LashOffset {
    LashOffsetBasis basis = LashOffsetBasis::rule;
    FigureSource source = FigureSource::common_practice;
    Interval cold_less_hot_mm; ///< negative: the gap grows as the engine warms
    /// What to set cold; empty if no gap would be left, its low end below zero if none may be.
    std::optional<Interval> cold_lash_mm;
};

/// What is known of this engine.
struct LashGrowthKnown {
    std::optional<Interval> own_cold_less_hot_mm; ///< within 2 mm
    std::optional<Interval> worked_out_growth_mm; ///< from `gap_growth_mm`, within 2 mm
    std::optional<EngineMetals> metals;
};

/// Question 22: every figure there is for the cold setting of a wanted hot lash (0 to 5 mm), the
/// most trusted first; those passed round contradict each other, and are shown as such.
/// Errors: out_of_range, not_a_number, order_wrong ("hot_lash", "own_offset", "worked_out");
/// missing_field ("offset": nothing is known).
Result<std::vector<LashOffset>> cold_lash_choices(const Interval& hot_lash_mm,
                                                  const LashGrowthKnown& known);

} // namespace rodway
