#pragma once

#include <string>
#include <string_view>

#include "core/units/measure_unit.h"
#include "core/units/typed_text.h"

namespace rodway {

/// A number of any dimension as a builder types it, in the unit in which its dimension is held.
/// `low` and `high` differ for an interval ("40-45 lb-ft") and for a tolerance ("64±.5 cc").
struct TypedAmount {
    double low = 0.0;
    double high = 0.0;
    double resolution = 0.0; ///< one step of the last digit typed: trailing zeros count; 0 if none
    Firmness firmness = Firmness::plain;
    std::string unit;    ///< identity of the unit it was typed in; empty for a plain number
    double finest = 0.0; ///< step of which `low` and `high` are multiples: finer for "64±.5"
};

/// Reads a number with the unit behind it: "45 lb-ft", "64,5 cc", "1/4 turn", "20 BTDC", "TDC",
/// "125-130 lbs", "64±.5 cc", "110 +5/-0 lb-ft", "~40 psi". A bare number is in `bare_unit`, the
/// identity of a unit of this dimension; so is "180 degrees" of a temperature. Of a spring's load
/// "on the seat", "open" and a height behind it ("125 at 1.850") are passed over. A length is read
/// as `parse_length` reads it, its bare unit "in" or "mm"; so a bare "10" among inches is refused.
/// Errors: empty_text; not_an_amount (`expected` holds the units), also for "1,250", which is
/// either one and a quarter or a thousand and more, and for "45/65", which is two steps and no
/// fraction; of a length, as `parse_length`.
Result<TypedAmount> parse_amount(std::string_view text, Dimension dimension,
                                 std::string_view bare_unit);

} // namespace rodway
