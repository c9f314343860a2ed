#pragma once

#include "core/engine/engine.h"
#include "core/engine/field_reader.h"
#include "core/engine/lobes_made.h"

namespace rodway {

/// "lobes/intake/…" and "lobes/exhaust/…". Empty if something is wrong; `fields` says what.
std::optional<CamLobes> read_lobes(FieldReader& fields, const std::string& kind, LobesMade& made);

/// "lobes/3I/…": lobes of single valves. What one of them leaves out is as for its kind.
void read_own_lobes(FieldReader& fields, Engine& engine, LobesMade& made);

} // namespace rodway
