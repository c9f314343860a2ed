#pragma once

#include <optional>
#include <vector>

#include "core/base/result.h"

namespace rodway {

/// A helical compression spring from its wire. Coherent units: mm, N, tonne, s, MPa.
struct SpringWire {
    double wire_mm = 0.0;           ///< d, 0.5 to 20
    double mean_diameter_mm = 0.0;  ///< D, coil centre to coil centre; 2 to 30 wires
    double active_coils = 0.0;      ///< N_a, 1 to 50
    double total_coils = 0.0;       ///< N_t, from N_a to N_a + 4
    double shear_modulus_MPa = 0.0; ///< 10 000 to 150 000
    double density_t_per_mm3 = 0.0; ///< 1e-9 to 2e-8 (steel 7.85e-9)
};

/// Checks that a wire lies in the ranges above. Errors: not_a_number, out_of_range; the field is
/// "wire", "mean_diameter", "active_coils", "total_coils", "shear_modulus" or "density".
Result<Done> check_wire(const SpringWire& wire);

// The figures below want a wire that `check_wire` accepts.

/// k = d⁴·G / (8·D³·N_a), N/mm. Source: Shigley's Mechanical Engineering Design, eq. 10-9.
[[nodiscard]] double spring_rate(const SpringWire& wire);
/// Height with all coils touching, ends squared and ground: d·N_t, mm.
/// Source: Shigley, table 10-1.
[[nodiscard]] double solid_height(const SpringWire& wire);
/// The same with ends squared but not ground: d·(N_t + 1), mm. Source: Shigley, table 10-1.
[[nodiscard]] double solid_height_unground(const SpringWire& wire);
/// Of the active coils: π²·d²·D·N_a·ρ/4, tonne.
[[nodiscard]] double active_mass(const SpringWire& wire);
/// First surge frequency, both ends against flat plates: ½·√(k/m), Hz; rate and mass above zero.
/// Source: Shigley, eq. 10-25.
[[nodiscard]] double surge_frequency(double rate_N_per_mm, double active_mass_t);

/// One point of a spring's own test: its height and the load there.
struct SpringLoad {
    double height_mm = 0.0;
    double load_N = 0.0;
};

/// What sits on one valve: one spring, or a nest of several taken together. What it answers wants a
/// spring that `check_spring` accepts, and a finite height.
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
    /// Rate at a height, N/mm: what the next bit of lift adds, so at one of the listed heights it
    /// is the rate below it. Zero where the spring is loose.
    [[nodiscard]] double rate_N_per_mm(double height_mm) const;
    [[nodiscard]] double seat_load_N() const { return load_N(installed_height_mm); }
    /// Height at which the load is gone, mm, by the rate of the first two loads.
    [[nodiscard]] double free_height_mm() const;
    /// First surge frequency of the outer spring's wire, Hz; empty if its wire isn't known.
    [[nodiscard]] std::optional<double> surge_Hz() const;
};

/// Checks that a spring can be worked with. Errors: too_few_rows (two loads), order_wrong,
/// not_a_number, out_of_range (heights 1 to 500 mm, loads 0 to 20 000 N; a bind height may be no
/// greater than the installed height, nor than a height at which a load was read), and those of
/// `check_wire`. The field is relative: "loads", "installed_height", "bind_height",
/// "retainer_to_seal", "wire/…"; `line` is the load's place in the list, counted from 1.
Result<Done> check_spring(const ValveSpring& spring);

/// A spring from its load on the seat and its rate, 0.1 to 2000 N/mm. Errors: not_a_number,
/// out_of_range; the fields are "installed_height", "seat_load", "rate".
Result<ValveSpring> spring_from_rate(double installed_height_mm, double seat_load_N,
                                     double rate_N_per_mm);
/// A spring from the load on the seat and the load at the height of the open valve. Errors: those
/// of `check_spring`.
Result<ValveSpring> spring_from_two_loads(const SpringLoad& closed, const SpringLoad& open);

enum class SpringEnds {
    ground,   ///< squared and ground: binds at d·N_t
    unground, ///< squared only: binds at d·(N_t + 1)
};
/// A spring from its wire and its free height, which must be more than the solid one; installed it
/// stands between the two. Errors: those of `check_wire` and `check_spring`; "free_height".
Result<ValveSpring> spring_from_wire(const SpringWire& wire, SpringEnds ends, double free_height_mm,
                                     double installed_height_mm);

/// Two springs, one inside the other, taken as one: at every height their loads add. The inner one
/// stands `seat_step_mm` shorter than the outer: the steps of seat and retainer together, -20 to 20
/// mm. It replaces the inner's own installed height. They bind at whichever binds first; if either
/// bind height isn't known, nor is the nest's. A flat damper has no rate: it is left out, and its
/// friction with it. Errors: those of `check_spring`, under "outer/…" and "inner/…"; "seat_step".
Result<ValveSpring> nested(const ValveSpring& outer, const ValveSpring& inner, double seat_step_mm);

/// A spring at full lift.
struct SpringAtFullLift {
    double height_mm = 0.0;
    double load_N = 0.0;
    double rate_N_per_mm = 0.0;
    std::optional<double> to_bind_mm;          ///< left before the coils touch; negative: they do
    std::optional<double> retainer_to_seal_mm; ///< left; negative: they touch
};
/// `full_valve_lift_mm`: finite, net of lash.
[[nodiscard]] SpringAtFullLift at_full_lift(const ValveSpring& spring, double full_valve_lift_mm);

} // namespace rodway
