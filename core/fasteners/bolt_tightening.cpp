#include "core/fasteners/bolt_tightening.h"

#include <cmath>
#include <numbers>

#include "core/units/within.h"

namespace rodway {
namespace {

constexpr double mm_per_m = 1000.0;
constexpr Limits torque_limits_Nm() {
    return {0.0, 5000.0, "Nm"};
}

std::optional<Error> wrong_bolt(double diameter_mm, const NutFactor& factor) {
    if (auto bad = outside("diameter", diameter_mm, {2.0, 60.0, "mm"})) {
        return bad;
    }
    constexpr double least = 0.01;
    constexpr double most = 4.0;
    if (auto bad = outside("factor", factor.low, {least, most, {}})) {
        return bad;
    }
    if (auto bad = outside("factor", factor.likely, {factor.low, most, {}})) {
        return bad;
    }
    return outside("factor", factor.high, {factor.likely, most, {}});
}

std::optional<Error> wrong_stiffness(const JointStiffness& stiffness) {
    const Limits limits{1.0, 1e9, "N/mm"};
    if (auto bad = outside("bolt_stiffness", stiffness.bolt_N_per_mm, limits)) {
        return bad;
    }
    return outside("members_stiffness", stiffness.members_N_per_mm, limits);
}

std::optional<Force> load_at(std::optional<double> strength_MPa, const Thread& thread) {
    return strength_MPa ? std::optional(Force::N(*strength_MPa * thread.stress_area_mm2()))
                        : std::nullopt;
}

} // namespace

Result<PreloadRange> preload_at_torque(Torque torque, double diameter_mm, const NutFactor& factor,
                                       double wrench_share) {
    if (auto bad = outside("torque", torque.in_Nm(), torque_limits_Nm())) {
        return *bad;
    }
    if (auto bad = wrong_bolt(diameter_mm, factor)) {
        return *bad;
    }
    if (auto bad = outside("wrench", wrench_share, {0.0, 0.3, {}})) {
        return *bad;
    }
    const auto preload = [&](double wrench, double k) {
        return Force::N(wrench * torque.in_Nm() * mm_per_m / (k * diameter_mm));
    };
    return PreloadRange{preload(1.0 - wrench_share, factor.high), preload(1.0, factor.likely),
                        preload(1.0 + wrench_share, factor.low)};
}

Result<TorqueRange> torque_for_preload(Force preload, double diameter_mm, const NutFactor& factor) {
    if (auto bad = outside("preload", preload.in_N(), {0.0, 1e6, "N"})) {
        return *bad;
    }
    if (auto bad = wrong_bolt(diameter_mm, factor)) {
        return *bad;
    }
    const auto torque = [&](double k) {
        return Torque::Nm(k * preload.in_N() * diameter_mm / mm_per_m);
    };
    return TorqueRange{torque(factor.low), torque(factor.likely), torque(factor.high)};
}

Result<double> nut_factor_of_friction(const Thread& thread, const BoltFriction& friction) {
    const Limits rubbing{0.02, 0.6, {}};
    if (auto bad = outside("thread_friction", friction.threads, rubbing)) {
        return *bad;
    }
    if (auto bad = outside("collar_friction", friction.collar, rubbing)) {
        return *bad;
    }
    const double d_mm = thread.diameter_mm;
    const double collar_mm = friction.collar_diameter_mm.value_or(1.25 * d_mm);
    if (auto bad = outside("collar", collar_mm, {d_mm, 4.0 * d_mm, "mm"})) {
        return *bad;
    }
    const double mean_mm = thread.mean_diameter_mm();
    const double tan_lead = thread.pitch_mm / (std::numbers::pi * mean_mm);
    const double secant = 1.0 / std::cos(std::numbers::pi / 6.0);
    const double in_threads =
        (tan_lead + friction.threads * secant) / (1.0 - friction.threads * tan_lead * secant);
    return mean_mm / (2.0 * d_mm) * in_threads + friction.collar * collar_mm / (2.0 * d_mm);
}

Result<PreloadRange> preload_after_angle(const PreloadRange& snug, double angle_deg,
                                         const Thread& thread, const JointStiffness& stiffness) {
    if (auto bad = outside("angle", angle_deg, {0.0, 1080.0, "deg"})) {
        return *bad;
    }
    if (auto bad = wrong_stiffness(stiffness)) {
        return *bad;
    }
    const Force added =
        Force::N(angle_deg / 360.0 * thread.pitch_mm * stiffness.in_a_row_N_per_mm());
    return PreloadRange{snug.low + added, snug.likely + added, snug.high + added};
}

Result<double> angle_for_preload(Force snug, Force preload, const Thread& thread,
                                 const JointStiffness& stiffness) {
    if (auto bad = wrong_stiffness(stiffness)) {
        return *bad;
    }
    if (auto bad = outside("preload", preload.in_N(), {snug.in_N(), 1e6, "N"})) {
        return *bad;
    }
    return 360.0 * (preload - snug).in_N() / (thread.pitch_mm * stiffness.in_a_row_N_per_mm());
}

double stress_in_service_MPa(Force preload, Force from_outside, double joint_constant,
                             const Thread& thread) {
    return (preload.in_N() + joint_constant * from_outside.in_N()) / thread.stress_area_mm2();
}

std::optional<Force> proof_load(const Thread& thread, const FastenerStrength& strength) {
    return load_at(strength.proof_MPa, thread);
}

std::optional<Force> tensile_load(const Thread& thread, const FastenerStrength& strength) {
    return load_at(strength.tensile_MPa, thread);
}

std::optional<Force> recommended_preload(const Thread& thread, const FastenerStrength& strength,
                                         JointUse use) {
    const auto proof = proof_load(thread, strength);
    return proof ? std::optional(*proof * (use == JointUse::reused ? 0.75 : 0.90)) : std::nullopt;
}

std::optional<double> share_of_proof(Force preload, const Thread& thread,
                                     const FastenerStrength& strength) {
    const auto proof = proof_load(thread, strength);
    return proof ? std::optional(preload.in_N() / proof->in_N()) : std::nullopt;
}

} // namespace rodway
