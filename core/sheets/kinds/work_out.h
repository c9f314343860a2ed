#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/sheets/sheet_kind.h"

namespace rodway {

// What the kinds of sheet share when they work something out.

constexpr double inch_mm = 25.4;

/// A usual limit in the unit of the quantity's dimension, labelled as common practice.
[[nodiscard]] SheetLimit common_practice(std::string_view quantity, std::optional<double> low,
                                         std::optional<double> high, std::string position = {},
                                         LimitFor holds_for = LimitFor::new_parts);

/// From the least to the greatest of a quantity's readings whose position has this part, each with
/// its doubt; nothing if none is a number. `PlacePart::journal` and "2": all readings at J2.
[[nodiscard]] std::optional<Interval> spread_at(const TakenReadings& readings,
                                                std::string_view quantity, PlacePart part,
                                                std::string_view name);

/// Every value this part has in readings of any of these quantities, in the order first written:
/// the journals that were measured, the cylinders, the valves.
[[nodiscard]] std::vector<std::string> parts_read(const TakenReadings& readings,
                                                  const std::vector<std::string_view>& quantities,
                                                  PlacePart part);

/// Adds the figure of a quantity that is also read; a number written there by hand that contradicts
/// it is pointed out.
void add_beside_reading(SheetOutcome& outcome, const TakenReadings& readings,
                        std::string_view quantity, const std::string& position,
                        const Interval& figure, Dimension dimension = Dimension::length);

/// Of a quantity, those that are numbers, in the order first written; nothing is left of bounds.
[[nodiscard]] std::vector<Interval> numbers_of(const TakenReadings& readings,
                                               std::string_view quantity);

/// Whether both can be true, bits of the conversion from typed digits aside.
[[nodiscard]] bool overlap(const Interval& a, const Interval& b);

} // namespace rodway
