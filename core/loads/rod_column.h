#pragma once

#include <optional>

namespace rodway {

/// A pushrod as a column that its balls hold at both ends, free to turn there: a tube, or a solid
/// rod. Coherent units: mm, N, MPa.
struct RodColumn {
    double length_mm = 0.0;   ///< between ball centres
    double outside_mm = 0.0;  ///< diameter; of a rod with a profile its least
    double wall_mm = 0.0;     ///< half the diameter and more: solid
    double modulus_MPa = 0.0; ///< of elasticity
};

// The figures below want finite sizes above 0.

/// Second moment of area of a round tube, π·(D⁴ - d⁴)/64, mm⁴.
/// Source: Shigley's Mechanical Engineering Design, table A-18.
[[nodiscard]] double second_moment_mm4(double outside_mm, double wall_mm);

/// Euler's critical load with both ends pinned, π²·E·I/L², N: of a slender rod. A short, stiff one
/// gives way before it. Source: Shigley, eq. 4-42 with C = 1.
[[nodiscard]] double critical_load_N(const RodColumn& column);

/// How far the middle of a rod that was bowed at rest stands off its line under a load along it,
/// mm: bow/(1 - F/F_cr), for a bow of the shape of half a sine wave. Empty where the load reaches
/// the critical one. `load_N` 0 or more.
/// Source: Timoshenko & Gere, Theory of Elastic Stability, 1.12.
[[nodiscard]] std::optional<double> bow_under_load_mm(double bow_at_rest_mm, double load_N,
                                                      double critical_N);

} // namespace rodway
