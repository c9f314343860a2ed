#pragma once

#include "core/engine/engine.h"
#include "core/engine/set_up.h"

namespace rodway::bench {

/// The demo's V8: as typed, and the engine made of it.
const SetUpFields& demo_v8_fields();
const Engine& demo_v8();

/// It with its trains repeated, or left out, until there are so many. They stand in each other's
/// place: nothing looks at two trains at once.
Engine with_trains(std::size_t count);

/// It with everything stated of how well it was measured.
Engine with_stated_doubt();

} // namespace rodway::bench
