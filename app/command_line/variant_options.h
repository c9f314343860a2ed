#pragma once

#include <string>
#include <vector>

#include "core/clearance/variant_table.h"

namespace rodway {

/// A variant as typed, "NAME: lifter=+.050, left-gasket=-.015". A size with a sign is a change, one
/// without is the new size; they stand apart by commas or semicolons. The words are `lifter`,
/// `rod-diameter`, `rod-length`, `ball-arm`, `lash`, `lobe-lift`, `gasket` (of every bank that has
/// one), `BANK-gasket` (of one, whatever `gasket` says), `head-gasket`, `BANK-head-gasket`.
/// Without a name it is called by its own text. Errors: empty_text, not_a_choice with the words
/// there are, duplicate_field, those of `parse_length`; wrong_type for a range; not_of_this_kind
/// for a new size of what isn't of one size.
Result<NamedVariant> typed_variant(const std::string& text, const Engine& engine);

/// The what-if of `rodway clearance`, as typed: each is a change, with or without a sign; a gasket
/// may be led by its bank and "=".
struct WhatIfOptions {
    std::string lifter;
    std::string rod;
    std::vector<std::string> gaskets;
};
/// `gasket_thicker_mm` of the answer has an entry for every bank. Errors: those of `parse_length`;
/// not_a_choice for a bank that isn't there.
Result<Variant> typed_what_if(const WhatIfOptions& options, const Engine& engine);

} // namespace rodway
