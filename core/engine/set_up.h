#pragma once

#include <string_view>

#include "core/base/result.h"
#include "core/build/records.h"
#include "core/cam/lift_table.h"
#include "core/engine/engine.h"
#include "core/engine/lobes_made.h"

namespace rodway {

/// Makes the model of an engine from a set-up's fields, or says which field is wrong and how.
///
/// Besides each field's own limits it checks what fields mean together: a firing order that names
/// every cylinder once, trains only for cylinders there are, a bore larger than its rod, passages
/// whose axes run from lifter to rocker, arms within the domain (ball arm 5 to 300 mm across the
/// shaft, lifter's ball 5 to 1000 mm from it). Errors carry the field's path, its text as typed,
/// and limits in the field's unit.
Result<Engine> make_engine(const SetUpFields& fields);
/// The same; lobes that were made before are taken from `made`, new ones are kept in it.
Result<Engine> make_engine(const SetUpFields& fields, LobesMade& made);

/// Reads one field's length in millimetres, its own unit and limits applied.
Result<double> length_field_mm(std::string_view path, const TypedValue& value);

/// A lift table from its text. The unit is one of those of `FieldKind::lift_table`.
Result<LiftTable> lift_table_from_text(std::string_view text, std::string_view unit);

} // namespace rodway
