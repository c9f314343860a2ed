#pragma once

#include <string_view>
#include <vector>

#include "core/base/result.h"

namespace rodway {

/// A bolt of a joint on a drawing of it.
struct BoltPosition {
    int bolt = 0; ///< its number, 1 to 999
    double x_mm = 0.0;
    double y_mm = 0.0;
};

/// An order of tightening for a joint whose maker gives none: from the centre outwards, opposite
/// sides in turn (common practice, no source). Every second bolt is the one nearest to the mirror
/// image of the one before, seen through the middle of all of them; before it comes, of those
/// nearest to the middle, the one furthest from the pair before it, then from the last bolt; of
/// equals the lower number. Distances apart by less than a twentieth of the greatest are equal.
/// Errors: too_few_rows (none); out_of_range, not_a_number ("bolt", 1 to 999; "x", "y", ±2000 mm);
/// duplicate_field ("bolt": a number twice; "position": two bolts closer than 1 mm); `line` counted
/// from 1.
Result<std::vector<int>> order_from_centre(const std::vector<BoltPosition>& bolts);

/// Reads an order as a shop types it, "7-5-9-1", "7 5 9 1", "7,5,9,1", each of `bolts` once.
/// Errors, field "order": empty_text; not_a_number (`value` the piece that can't be read);
/// not_a_choice (a number that is none of `bolts`, which `expected` holds). Field "order/7", after
/// the bolt: duplicate_field, missing_field.
Result<std::vector<int>> parse_tightening_order(std::string_view text,
                                                const std::vector<int>& bolts);

} // namespace rodway
