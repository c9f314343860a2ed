#pragma once

#include <string>

#include "core/base/result.h"
#include "core/build/records.h"
#include "core/sheets/quantity.h"
#include "core/units/typed_text.h"

namespace rodway {

/// What a reading says. Only `number` has a number: nothing else is ever zero.
enum class Said {
    number,
    words,        ///< words, a day, yes or no, a choice
    fine,         ///< "ok": looked at and found good, no number taken
    blank,        ///< nothing written
    same,         ///< "same", a ditto mark: as the reading before it
    see_photo,    ///< a picture says it
    not_measured, ///< "n/m"
};

/// A reading, read. Numbers are in the unit in which the quantity's dimension is held (`Dimension`:
/// mm, N, g, cc, kPa …); `low` and `high` differ for an interval.
struct ReadingValue {
    Said said = Said::blank;
    double low = 0.0;
    double high = 0.0;
    double resolution = 0.0; ///< one step of the last digit typed; 0 if the text has none
    Firmness firmness = Firmness::plain;
    std::string words; ///< as typed; a day as kept; "yes" or "no"; the choice's word; "hot", "cold"
    double finest = 0.0; ///< step of which `low` and `high` are multiples: see `other_unit_digits`

    [[nodiscard]] bool is_number() const { return said == Said::number; }
    [[nodiscard]] double middle() const { return (low + high) / 2.0; }
};

/// Reads a reading's text as its quantity means it; a bare number is in the reading's unit, or, if
/// it has none, in the quantity's. A status of not measured, same or see photo counts before what
/// is written.
/// Errors: `field` "unit": not_a_choice (`expected` holds the units). `field` "text": as
/// `parse_amount`, `parse_length`, `parse_rod_clearance` and `parse_sided`; two_values of a
/// clearance or lash ("18 and 20", "26/28 hot": `split_pair` parts them); not_an_amount for ratios,
/// counts and plain numbers; not_a_date; not_a_choice (`expected` holds the words).
Result<ReadingValue> read_value(const Reading& reading, const Quantity& quantity);

} // namespace rodway
