#pragma once

#include "core/dyno/pull.h"

namespace rodway {

/// An engine's own friction by a table of its time: pounds-feet for each cubic inch against mean
/// piston speed in feet a minute: 0 .088, 1000 .120, 2000 .170, 3000 .233, 4000 .308, 5000 .433,
/// 6000 .573, 7000 .725; straight between them. Source: lists.diy-efi.org 1995-March/001635. A
/// figure for engines in general, not for this one.
constexpr double greatest_piston_speed_ft_per_min = 7000.0;

/// `mean_piston_speed_mm_per_s`: as `CrankSlider::mean_piston_speed_mm_per_s` gives it. Errors:
/// not_a_number, out_of_range ("displacement", 10 to 200 000 cc; "piston_speed", 0 to 35 560 mm/s:
/// beyond the table nothing is guessed).
Result<Torque> friction_torque(Volume displacement, double mean_piston_speed_mm_per_s);

/// (T + F)·factor - F: the factor acts on what the gas does, and the friction stays what it is.
/// `factor`: of the air alone, `indicated_factor` (`core/dyno/power_correction.h`).
[[nodiscard]] Torque corrected_beside_friction(Torque raw, Torque friction, double factor);

/// A whole pull so corrected. Errors: as `check_pull` and `friction_torque`, `line` the row;
/// "stroke" (10 to 1000 mm); "factor" (0.5 to 2).
Result<Pull> corrected_beside_friction(const Pull& pull, Volume displacement, double stroke_mm,
                                       double factor);

} // namespace rodway
