#pragma once

#include <QString>

#include "core/clearance/doubt.h"

namespace rodway::words {

/// "lifter taller", "left intake gasket thicker": the way in which the parameter grows.
[[nodiscard]] QString growing(const EngineParameter& parameter, const EngineLayout& layout);
/// "lifter's height", "left intake gasket": the dimension itself.
[[nodiscard]] QString dimension(const EngineParameter& parameter, const EngineLayout& layout);
/// "per thou", "per degree".
[[nodiscard]] QString per_unit(ParameterKind kind);
/// "lash set again with the adjuster, same rod".
[[nodiscard]] QString held(Held held);
[[nodiscard]] QString doubt_kind(const DoubtContribution& share, const EngineLayout& layout);
[[nodiscard]] QString doubt_source(DoubtSource source);

// The words of `--json`: never translated.
[[nodiscard]] QString token(ParameterKind kind);
[[nodiscard]] QString token(DoubtKind kind);
[[nodiscard]] QString token(DoubtSource source);

} // namespace rodway::words
