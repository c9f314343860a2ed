#pragma once

#include <optional>
#include <string_view>

#include "core/base/result.h"

namespace rodway {

/// The arithmetic of setting lash and preload: threads, cold settings, dry clearance. Millimetres.

constexpr double finest_pitch_mm = 0.2;
constexpr double coarsest_pitch_mm = 5.0;

/// Reads a thread's pitch, mm for one turn: "1.0 mm", "M8x1.0", "5/16-18", "10-32", "18 tpi",
/// ".050 in".
/// Errors: empty_text, unit_needed (a bare number), not_a_length, out_of_range (0.2 to 5 mm).
Result<double> parse_thread_pitch(std::string_view text);

/// Travel of a screw or nut turned by an angle of its own, degrees; the sign is kept.
/// Errors: out_of_range (`pitch`, `turned`: no number, or beyond 1000 turns).
Result<double> thread_travel_mm(double pitch_mm, double turned_deg);

struct ScrewTurn {
    double turns = 0.0;
    double deg = 0.0;
};
/// How far a screw or nut is to be turned for a travel of its own; the sign is kept.
/// Errors: out_of_range (`pitch`, `travel`: no number, or beyond 1000 mm).
Result<ScrewTurn> turn_for_travel(double pitch_mm, double travel_mm);

/// Rule of thumb of the shop for a rocker on a stud: with its tip held by the valve, a nut that
/// moves the pivot by one moves the rod's seat by about 1 + 1/ratio. It is exact for a straight
/// lever and a small turn, and otherwise an approximation: the closed train is exact.
/// Error: out_of_range (`ratio`, 0.5 to 4).
Result<double> nut_lever_rule_of_thumb(double rocker_ratio);

/// Plunger travel that a nut turned down after zero lash makes, by that rule of thumb.
/// Errors: out_of_range (`pitch`, `turns`, `ratio`).
Result<double> preload_rule_of_thumb_mm(double pitch_mm, double turns, double rocker_ratio);

/// What an engine's block and heads are made of, as far as lash goes.
enum class EngineMetals { iron, iron_block_aluminium_heads, aluminium };

/// Cold lash less hot lash as published for each (common practice, no source: iron +0.002 in, mixed
/// -0.006, all aluminium -0.012; others give other figures, and an engine's own is better).
[[nodiscard]] double published_cold_less_hot_mm(EngineMetals metals);

enum class LashOffsetSource { own_measured, published };

struct ColdLash {
    /// What to set cold; empty if the growth is more than the hot lash, so that there is no gap to
    /// set.
    std::optional<double> cold_mm;
    double cold_less_hot_mm = 0.0; ///< negative: the gap grows as the engine warms
    LashOffsetSource source = LashOffsetSource::published;
};

/// Cold setting for a wanted hot lash. What was measured on this engine, cold less hot, goes before
/// what is published. Errors: out_of_range (`hot_lash`, 0 to 5 mm; `own_offset`, ±2 mm),
/// missing_field (`offset`: neither is given).
Result<ColdLash> cold_lash(double hot_lash_mm, const std::optional<double>& own_cold_less_hot_mm,
                           const std::optional<EngineMetals>& metals);

/// The engine's own offset, cold less hot, from the same valve measured both ways.
/// Errors: out_of_range (`cold_lash`, `hot_lash`, 0 to 5 mm).
Result<double> measured_cold_less_hot_mm(double cold_lash_mm, double hot_lash_mm);

/// Dry clearance, the gap at the valve with the plunger at its bottom, after a rod longer by so
/// much: it shrinks by that times the rocker's ratio. Negative: the valve would be held open.
/// Errors: out_of_range (`dry_clearance`, `rod_longer`: within ±50 mm; `ratio`).
Result<double> dry_clearance_with_rod_mm(double dry_clearance_mm, double rod_longer_mm,
                                         double rocker_ratio);

/// By how much a rod may be changed, positive longer, for its dry clearance to lie within limits.
struct RodChange {
    double from_mm = 0.0;
    double to_mm = 0.0;
};
/// Errors: out_of_range (as above; `high` below `low`).
Result<RodChange> rod_change_for_dry_clearance(double dry_clearance_mm, double low_mm,
                                               double high_mm, double rocker_ratio);

} // namespace rodway
