#pragma once

#include <CLI/CLI.hpp>
#include <optional>
#include <string>

#include "core/base/result.h"
#include "core/cam/cam_timing.h"

namespace rodway {

/// Reads --at. Errors: as `parse_length`.
Result<CheckingLift> checking_lift(const std::string& typed, LiftOf of);

void add_advance_option(CLI::App& command, std::string& advance);

/// Reads --advance: how far the cam is to be moved, crank degrees; empty if nobody asks.
/// Errors: not_a_number, out_of_range (60 either way).
Result<std::optional<double>> typed_advance(const std::string& advance);

} // namespace rodway
