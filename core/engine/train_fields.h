#pragma once

#include "core/engine/engine.h"
#include "core/engine/field_reader.h"

namespace rodway {

/// "trains/3I/…", checked for what its fields must mean together, and put into the engine. Layout,
/// flanges and lobes are there already.
void read_train(FieldReader& fields, Engine& engine, const std::string& name);

} // namespace rodway
