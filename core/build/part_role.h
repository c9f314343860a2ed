#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"

namespace rodway {

/// Words for what a part is in its engine, from the block outwards. Shop files and stage plans have
/// them: a word never changes, nor what it means.
[[nodiscard]] const std::vector<std::string_view>& part_roles();

[[nodiscard]] bool is_part_role(std::string_view word);

/// Reads the roles of a step's parts, as `Step::part_roles` keeps them: "head_gasket, head_bolt".
/// Errors, with field "part_roles": empty_text; not_a_choice, `expected` all roles;
/// duplicate_field, `value` the role that stands twice.
Result<std::vector<std::string>> parse_part_roles(std::string_view text);

/// The same, written: `parse_part_roles` gives them back.
[[nodiscard]] std::string part_roles_text(const std::vector<std::string>& roles);

} // namespace rodway
