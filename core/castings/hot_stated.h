#pragma once

#include <array>
#include <map>
#include <optional>
#include <vector>

#include "core/engine/valve_position.h"
#include "core/valvetrain/lash_growth.h"

namespace rodway {

/// What of an engine grows by itself as it warms.
enum class HotPart {
    block,
    head,
    head_gasket,
    intake,
    intake_gasket, ///< and spacer
    camshaft,
    lifter,
    rod,
    rocker,
    intake_valve,
    exhaust_valve,
};
constexpr std::size_t hot_part_count = 11;
[[nodiscard]] const std::array<HotPart, hot_part_count>& hot_parts();

/// The part's name in set-ups and answers, such as "head_gasket": it never changes.
[[nodiscard]] const char* hot_part_name(HotPart part);

/// What a part is made of and how warm it runs; what nobody stated is empty.
struct PartWarmth {
    std::optional<Metal> metal;
    /// Coefficient of expansion, per kelvin; goes before that of its metal.
    std::optional<double> expansion_per_K;
    std::optional<double> temperature_degC;
};

/// What a set-up states of an engine at its running temperature ("hot/…").
struct HotStated {
    /// At which everything else in the set-up was measured: 20 °C (ISO 1) unless stated.
    double cold_degC = 20.0;
    std::array<PartWarmth, hot_part_count> parts; ///< in the order of `HotPart`
    std::optional<double> head_gasket_mm;         ///< where a bank's head states none
    /// By bank: from the crank's axis to the deck, along the cylinders.
    std::vector<std::optional<double>> deck_height_mm;
    /// By bank: from the crank's axis to the head's intake face, along its normal.
    std::vector<std::optional<double>> intake_face_mm;
    /// From the seat in the head to the valve's tip.
    std::map<ValvePosition, std::optional<double>> seat_to_tip_mm;

    [[nodiscard]] const PartWarmth& of(HotPart part) const {
        return parts[static_cast<std::size_t>(part)];
    }
};

} // namespace rodway
