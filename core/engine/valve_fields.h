#pragma once

#include "core/engine/engine.h"
#include "core/engine/field_reader.h"

namespace rodway {

/// Whether every name under a section is a valve with a train or, with `kinds_too`, a kind of
/// valve; refuses the first that isn't.
bool check_valve_names(FieldReader& fields, const Engine& engine, const std::string& section,
                       bool kinds_too);

/// "springs/…": by kind of valve, and by valve where one differs; what a valve leaves out is as for
/// its kind. Put into the engine for every train.
void read_springs(FieldReader& fields, Engine& engine);

/// "piston_to_valve/3I/…": how far a valve can be pushed before it touches its piston.
void read_valve_drops(FieldReader& fields, Engine& engine);

} // namespace rodway
