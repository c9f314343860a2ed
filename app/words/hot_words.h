#pragma once

#include <QString>

#include "core/clearance/hot_and_cold.h"

namespace rodway::words {

/// What the hot figures are, with what and what they leave out; or what would have to be stated.
[[nodiscard]] QString hot_and_cold(const HotAndCold& found, double cold_degC);
/// Of one valve in a sentence or two: lash and clearance, cold and hot.
[[nodiscard]] QString hot_of(const HotClearance& valve, const Engine& engine);
/// "grey iron, 20 to 85 °C"; "30 millionths for each °C, …".
[[nodiscard]] QString part_growth(const PartGrowth& part, double cold_degC);
/// "0.012 to 0.014 in", or one figure where both round to the same.
[[nodiscard]] QString hot_range(const std::optional<Interval>& range_mm);
/// The verdict on the hot minimum, or why there is none, in a few words: "no lash left".
[[nodiscard]] QString hot_verdict(const HotClearance& valve);

} // namespace rodway::words
