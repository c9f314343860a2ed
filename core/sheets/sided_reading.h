#pragma once

#include <string_view>

#include "core/base/result.h"
#include "core/sheets/quantity.h"
#include "core/units/typed_amount.h"

namespace rodway {

/// Reads a number whose sign is said in words, before or behind it. Plus is
/// - of `Form::deck`: below the block's face ("in the hole .015", ".015 down"); out of it ("out
///   .005", ".005 proud") is minus; "zero deck" and "flush" are 0;
/// - of `Form::dome`: what takes from the chamber ("dome 5 cc"); a dish ("12 cc dish") is minus;
/// - of `Form::advance`: ahead ("4 advanced"); "4 retarded" is minus.
/// A sign typed counts so too; beside a word it is refused. A bare number is an advance; of a deck
/// or a dome it could lie on either side, since the trade has both customs: whoever typed it is
/// asked, once, and types the word or the sign. `unit` is that of a bare number.
/// Errors: sign_needed (`expected`: "in_the_hole out", "dome dish"); else as `parse_amount`.
Result<TypedAmount> parse_sided(std::string_view text, Form form, std::string_view unit);

} // namespace rodway
