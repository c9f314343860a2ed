#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace rodway {

/// The statements of an SQL script, without the semicolons that end them. Quotes, comments and the
/// bodies of triggers are respected; pieces of nothing but space and comments are left out. A
/// script that stops inside a quote or a trigger gives its rest as one statement, for SQLite to
/// refuse.
[[nodiscard]] std::vector<std::string> split_statements(std::string_view script);

} // namespace rodway
