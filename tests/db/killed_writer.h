#pragma once

#include <string>

namespace rodway {

inline constexpr const char* killed_writer_role = "--write-until-killed";

/// Makes act after act and prints each number once `apply` has answered. Only returns on an error.
int write_until_killed(const std::string& path);

} // namespace rodway
