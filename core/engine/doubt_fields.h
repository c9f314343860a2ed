#pragma once

#include "core/clearance/engine_doubt.h"
#include "core/engine/field_reader.h"

namespace rodway {

/// Reads what a set-up states of how well its engine is known ("doubt/…"), but for "doubt/assumed".
/// Errors: as FieldReader, and not_a_choice for an input that isn't one ("doubt/inputs/NAME"; the
/// names are `parameter_name`'s), not_of_this_kind for a length where an angle belongs.
[[nodiscard]] EngineDoubt read_doubt(FieldReader& fields);

} // namespace rodway
