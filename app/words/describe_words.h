#pragma once

#include <QString>
#include <string>

#include "core/describe/description.h"

namespace rodway::words {

/// "Rod, overall".
[[nodiscard]] QString dimension(const EngineDimension& dimension);
/// How it is measured with ordinary tools, and between what: a sentence or three.
[[nodiscard]] QString how_to_measure(const EngineDimension& dimension);
/// "intake", "exhaust", "3I", or "bank left".
[[nodiscard]] QString size_owner(const std::string& owner);
/// "Rod, overall (intake)".
[[nodiscard]] QString dimension_of(const EngineDimension& dimension, const std::string& owner);
/// "calipers".
[[nodiscard]] QString measuring_tool(MeasuringTool tool);

/// A value of a dimension in its unit: "9.2775 in", "15°".
[[nodiscard]] QString size_value(const EngineDimension& dimension, double value);
/// Its ±: "± 0.002 in", "± 0.5°".
[[nodiscard]] QString size_doubt(const EngineDimension& dimension, double doubt);
/// How the size stands, in a few words: "measured ± 0.002 in", "assumed 0.040 in ± 0.015 in",
/// "assumed as intake: 1.750 in ± 0.030 in", "needed".
[[nodiscard]] QString size_stand(const EngineDimension& dimension, const DescribedSize& size);
/// A sign that tells the same without colour: full, half or empty circle, or an exclamation mark.
[[nodiscard]] QString stand_sign(const DescribedSize& size);

/// What a size is worth: "worth 0.4 thou at 3I".
[[nodiscard]] QString worth(const std::optional<double>& worth_mm, const ValvePosition& valve);

/// What of a lobe is still needed, by the path of its field: "Lash (intake)".
[[nodiscard]] QString lobe_need(const std::string& path);

/// Of a path under "described/", what it is of; empty for another path.
[[nodiscard]] QString described_title(const std::string& path);

} // namespace rodway::words
