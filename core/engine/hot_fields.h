#pragma once

#include "core/castings/hot_stated.h"
#include "core/engine/engine.h"
#include "core/engine/field_reader.h"

namespace rodway {

/// "hot/…"; a deck's height that isn't there is that by which an engine is described. The engine is
/// the one made of the same set-up, whatever is being tried on it. Errors: those of `FieldReader`.
[[nodiscard]] Result<HotStated> read_hot(const SetUpFields& set_up, const Engine& engine);

/// Refuses what can't be meant: a part that isn't one, a bank that the layout doesn't have, a name
/// that is no valve with a train.
void check_hot(FieldReader& fields, const Engine& engine);

} // namespace rodway
