#pragma once

#include <optional>
#include <string>

#include "core/sheets/taken_readings.h"

namespace rodway {

/// What was read of one piston's height at top dead centre, mm.
struct DeckReadings {
    /// Mean of the sides, of opposite ones both: a rocking piston can't change it. Where one is
    /// missing, the reading over the pin.
    std::optional<Interval> mean;
    std::optional<Interval> rock;     ///< thrust side less antithrust side, without its sign
    std::optional<Interval> over_pin; ///< a reading at no side
    bool by_sides = false;            ///< the mean is the sides'
};

[[nodiscard]] DeckReadings deck_readings(const TakenReadings& readings,
                                         const std::string& cylinder);

/// How far below the block's face a piston stands, mm, for what is made of it: the mean, or,
/// without one, the mean as it was written down.
[[nodiscard]] std::optional<Interval> deck_height_mm(const TakenReadings& readings,
                                                     const std::string& cylinder);

} // namespace rodway
