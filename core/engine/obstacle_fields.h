#pragma once

#include <optional>
#include <string>

#include "core/engine/engine.h"
#include "core/engine/field_reader.h"

namespace rodway {

/// "obstacles/NAME/…", put into the engine. Its banks are there already.
void read_obstacles(FieldReader& fields, Engine& engine);

/// "trains/3I/rocker/body/…": the ball arm's body, nothing if it isn't given.
[[nodiscard]] std::optional<Capsule> read_rocker_body(FieldReader& fields, const std::string& path);

} // namespace rodway
