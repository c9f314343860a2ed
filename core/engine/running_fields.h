#pragma once

#include "core/engine/engine.h"
#include "core/engine/field_reader.h"
#include "core/loads/running_stated.h"

namespace rodway {

/// "running/…": by kind of valve, and by valve where one differs; what a valve leaves out is as for
/// its kind. The engine is the one made of the same set-up, whatever is being tried on it.
/// Errors: those of `FieldReader`.
[[nodiscard]] Result<RunningStated> read_running(const SetUpFields& set_up, const Engine& engine);

/// Refuses what can't be meant: a name that is no valve with a train, a wall of more than half the
/// rod.
void check_running(FieldReader& fields, const Engine& engine);

} // namespace rodway
