#pragma once

#include <optional>
#include <vector>

#include "core/base/result.h"

namespace rodway {

/// A helical compression spring from its wire. Coherent units: mm, N, tonne, s, MPa.
struct SpringWire {
    double wire_mm = 0.0;          ///< d, 0.5 to 20
    double mean_diameter_mm = 0.0; ///< D, coil centre to coil centre
    double active_coils = 0.0;     ///< N_a
    double total_coils = 0.0;      ///< N_t
    double shear_modulus_MPa = 0.0;
    double density_t_per_mm3 = 0.0;
};

/// k = d⁴·G / (8·D³·N_a), N/mm. Source: Shigley's Mechanical Engineering Design, eq. 10-9.
[[nodiscard]] double spring_rate(const SpringWire& wire);
/// Height with all coils touching, ends squared and ground: d·N_t, mm.
/// Source: Shigley, table 10-1.
[[nodiscard]] double solid_height(const SpringWire& wire);
/// The same with ends squared but not ground: d·(N_t + 1), mm. Source: Shigley, table 10-1.
[[nodiscard]] double solid_height_unground(const SpringWire& wire);
/// Of the active coils: π²·d²·D·N_a·ρ/4, tonne.
[[nodiscard]] double active_mass(const SpringWire& wire);
/// First surge frequency, both ends against flat plates: ½·√(k/m), Hz. Source: Shigley, eq. 10-25.
[[nodiscard]] double surge_frequency(double rate_N_per_mm, double active_mass_t);

/// One point of a spring's own test: its height and the load there.
struct SpringLoad {
    double height_mm = 0.0;
    double load_N = 0.0;
};

/// What sits on one valve: one spring, or a nest of several taken together.
struct ValveSpring {
    double installed_height_mm = 0.0; ///< valve closed
    /// Two or more, height falling, load rising; between them loads run straight, beyond them the
    /// end's own rate goes on. One load and a rate are two points.
    std::vector<SpringLoad> loads;
    std::optional<double> bind_height_mm;      ///< all coils touching
    std::optional<double> retainer_to_seal_mm; ///< valve closed
    std::optional<SpringWire> wire;            ///< of the outer spring, for its surge

    /// Load at a height, N; never below zero (a spring doesn't pull).
    [[nodiscard]] double load_N(double height_mm) const;
    /// Rate at a height, N/mm.
    [[nodiscard]] double rate_N_per_mm(double height_mm) const;
    [[nodiscard]] double seat_load_N() const { return load_N(installed_height_mm); }
};

/// Checks that a spring can be worked with. Errors: too_few_rows (two loads), order_wrong,
/// out_of_range; the field is relative: "loads", "installed_height", "bind_height".
Result<Done> check_spring(const ValveSpring& spring);

/// A spring at full lift.
struct SpringAtFullLift {
    double height_mm = 0.0;
    double load_N = 0.0;
    double rate_N_per_mm = 0.0;
    std::optional<double> to_bind_mm;          ///< left before the coils touch; negative: they do
    std::optional<double> retainer_to_seal_mm; ///< left; negative: they touch
};
[[nodiscard]] SpringAtFullLift at_full_lift(const ValveSpring& spring, double full_valve_lift_mm);

} // namespace rodway
