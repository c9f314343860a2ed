#pragma once

#include <optional>

#include "core/base/result.h"
#include "core/fasteners/fastener_grade.h"
#include "core/fasteners/lubricant.h"
#include "core/fasteners/thread.h"
#include "core/units/force.h"
#include "core/units/torque.h"

namespace rodway {

/// What a bolt pulls with: likely, and between which bounds about 95 of a hundred lie.
struct PreloadRange {
    Force low;
    Force likely;
    Force high;
};
struct TorqueRange {
    Torque low;
    Torque likely;
    Torque high;
};

/// Preload at a torque, F = T/(K·d) (Shigley, eq. 8-27). `diameter_mm` nominal, 2 to 60; torque 0
/// to 5000 N m; `wrench_share` is by how much the wrench may be off, 0 to 0.3 (.04 is 4 %). Errors:
/// not_a_number, out_of_range; fields "torque", "diameter", "factor", "wrench".
Result<PreloadRange> preload_at_torque(Torque torque, double diameter_mm, const NutFactor& factor,
                                       double wrench_share = 0.0);
/// Torque that gives a preload, 0 to 1000 kN: `likely` is what to set; at `low` or `high` a bolt at
/// the end of the scatter would have it. Errors as above, and "preload".
Result<TorqueRange> torque_for_preload(Force preload, double diameter_mm, const NutFactor& factor);

/// Friction in the threads and under head or nut. Plain numbers, 0.02 to 0.6.
struct BoltFriction {
    double threads = 0.0;
    double collar = 0.0;
    /// Mean diameter of what rubs under the head, mm; 1.25 d if empty, which is a washer face of
    /// 1.5 d (Shigley, 8-8).
    std::optional<double> collar_diameter_mm = {};
};

/// The nut factor that follows from friction: T = F·d_m/2·(tan λ + f·sec α)/(1 - f·tan λ·sec α) +
/// F·f_c·d_c/2, half thread angle α 30° (Shigley, eq. 8-26).
/// Errors: not_a_number, out_of_range; fields "thread_friction", "collar_friction", "collar" (d to
/// 4 d).
Result<double> nut_factor_of_friction(const Thread& thread, const BoltFriction& friction);

/// How stiff bolt and clamped parts are, N/mm: both above 0.
struct JointStiffness {
    double bolt_N_per_mm = 0.0;
    double members_N_per_mm = 0.0;

    /// The bolt's share of a load from outside, C = k_b/(k_b + k_m) (Shigley, 8-7).
    [[nodiscard]] double joint_constant() const {
        return bolt_N_per_mm / (bolt_N_per_mm + members_N_per_mm);
    }
    /// Bolt and parts as springs in a row.
    [[nodiscard]] double in_a_row_N_per_mm() const { return joint_constant() * members_N_per_mm; }
};

/// Preload after a bolt was turned on from snug: each turn takes up one pitch, shared by bolt and
/// parts as springs in a row. As long as nothing yields: compare with `share_of_proof`. `angle_deg`
/// 0 to 1080. Errors: not_a_number, out_of_range; fields "angle", "bolt_stiffness",
/// "members_stiffness" (1 to 1e9 N/mm).
Result<PreloadRange> preload_after_angle(const PreloadRange& snug, double angle_deg,
                                         const Thread& thread, const JointStiffness& stiffness);
/// The angle from snug that brings a preload, degrees. Errors as above, and out_of_range "preload"
/// below the snug one.
Result<double> angle_for_preload(Force snug, Force preload, const Thread& thread,
                                 const JointStiffness& stiffness);

/// Stress in the threads, MPa: preload and the bolt's share of a load from outside, over the stress
/// area (Shigley, 8-9).
[[nodiscard]] double stress_in_service_MPa(Force preload, Force from_outside, double joint_constant,
                                           const Thread& thread);

enum class JointUse {
    reused,   ///< comes apart again: 75 % of proof (Shigley, eq. 8-31)
    permanent ///< stays together: 90 % of proof (the same)
};

/// Proof load S_p·A_t; nothing if the proof strength isn't known.
[[nodiscard]] std::optional<Force> proof_load(const Thread& thread,
                                              const FastenerStrength& strength);
/// Load at which it may break, S_ut·A_t; nothing if the tensile strength isn't known.
[[nodiscard]] std::optional<Force> tensile_load(const Thread& thread,
                                                const FastenerStrength& strength);
/// Preload recommended for a joint; nothing if the proof strength isn't known.
[[nodiscard]] std::optional<Force> recommended_preload(const Thread& thread,
                                                       const FastenerStrength& strength,
                                                       JointUse use);
/// Preload as a share of proof: 0.75 is 75 %. Nothing if the proof strength isn't known.
[[nodiscard]] std::optional<double> share_of_proof(Force preload, const Thread& thread,
                                                   const FastenerStrength& strength);

} // namespace rodway
