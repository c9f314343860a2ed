#pragma once

#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/build/set_up_record.h"
#include "core/units/length.h"

namespace rodway {

/// Names of the bolts' ends among a set-up's obstacles, in their order.
[[nodiscard]] std::vector<std::string> bolt_ends_of(const SetUpFields& fields);

/// How far back from its end a bolt is modelled. Errors: missing_field; those of `parse_length`;
/// the path as `field`.
Result<Length> bolt_end_length(const SetUpFields& fields, const std::string& name);

/// The set-up with that bolt longer by so much, or shorter if it is less than 0: its end moves
/// along its axis, the bolt reaches back as far as before, each number stays in the unit in which
/// it was typed. What it then is as a whole is for `make_engine` to say.
/// Errors: no_such_record, field "obstacles/NAME", for a name that is no bolt's end; missing_field,
/// not_a_number and not_a_direction, for what the bolt lacks or what can't be read.
Result<SetUpFields> with_bolt_longer(const SetUpFields& fields, const std::string& name, Length by);

} // namespace rodway
