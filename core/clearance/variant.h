#pragma once

#include <vector>

#include "core/base/result.h"
#include "core/engine/engine.h"

namespace rodway {

/// What a builder may try: differences from the engine as it stands, mm; below zero the other way.
/// Whatever is tried, the lash is set again with the adjuster (or the preload, with the plunger).
struct Variant {
    double lifter_taller_mm = 0.0; ///< seat height of every lifter
    double rod_thicker_mm = 0.0;   ///< diameter of every rod, all along it
    /// Intake gasket, per bank, in the layout's order; missing ones are 0.
    std::vector<double> gasket_thicker_mm = {};
    double rod_longer_mm = 0.0;      ///< every rod, between ball centres
    double ball_arm_longer_mm = 0.0; ///< every rocker's, across its shaft: the ratio falls
    std::vector<double> head_gasket_thicker_mm = {}; ///< per bank, as above
    double lash_more_mm = 0.0;                       ///< gap of every valve
    double lobe_lift_more_mm = 0.0; ///< full lift of every lobe, the curve growing in proportion
    double ratio_more = 0.0;        ///< `arm_ratio` of every rocker, by its ball arm
    /// Every adjuster in by so much from where it stands in the engine as it is. Each rod is then
    /// chosen again to leave the lash; `rod_longer_mm` says nothing.
    double adjuster_in_more_mm = 0.0;

    [[nodiscard]] bool changes_nothing() const;
};

/// Length of a rocker's ball arm across its shaft, adjuster as found, mm.
[[nodiscard]] double ball_arm_across_mm(const Train& train);

/// A rocker's ratio by its arms: tip arm over ball arm, both across its shaft. What a dial shows
/// goes up and down round it as the rocker swings.
[[nodiscard]] double arm_ratio(const Train& train);

/// Whether there is an adjuster that the lash is set with: not with a hydraulic lifter.
[[nodiscard]] bool adjuster_sets_lash(const Train& train);

/// Whether a set-up states the thickness of a bank's head gasket; else only its change is known.
[[nodiscard]] bool head_gasket_stated(const Engine& engine, std::size_t bank);

/// The engine with the variant made. Errors: out_of_range, with limits in inches, for a size beyond
/// what a set-up may hold; bore_smaller_than_rod; not_a_number; missing_field for an intake gasket
/// where there is none; not_of_this_kind for the lash of a hydraulic lifter and for an adjuster
/// that sets no lash.
Result<Engine> with_variant(const Engine& engine, const Variant& variant);

} // namespace rodway
