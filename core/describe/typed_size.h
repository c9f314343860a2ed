#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/base/result.h"
#include "core/build/records.h"
#include "core/clearance/engine_doubt.h"
#include "core/describe/dimension.h"

namespace rodway {

/// A size as a builder types it, ready to be kept.
struct TypedSize {
    TypedValue value;
    std::optional<TypedValue> doubt; ///< ±, where one was typed
    DoubtSource source = DoubtSource::measured;
};

/// Reads "9.278", "5/16", "28.4 mm", "9.278 ±.005" (also "+-"), "9.278 box" (from the box or the
/// maker's card), "9.278 ?" and "~9.278" (a guess). A length without a unit is in inches if it has
/// a point or is a fraction; a ± without one has the length's. Digits are kept as typed. Errors,
/// `field` the dimension's name: those of `parse_length`, not_an_angle, two_values for an interval,
/// out_of_range.
Result<TypedSize> read_typed_size(const EngineDimension& dimension, std::string_view text);

/// The same text again, for a box: value, unit if it isn't inches, ± and source where they are not
/// the usual ones.
[[nodiscard]] std::string size_text(const TypedSize& size);

/// A plain length as typed, with its unit, its digits kept: "1.12" in inches, "28.4 mm". Errors: as
/// above, `field` as given.
Result<TypedValue> read_typed_length(std::string_view field, std::string_view text);

} // namespace rodway
