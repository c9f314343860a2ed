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
/// A rate as people say it: thou of clearance for a thou, or for a degree.
[[nodiscard]] double per_thou_or_degree(double per_unit, ParameterKind kind);
/// "+0.31"; "+0.31, less: -0.20" where growing and shrinking act unlike.
[[nodiscard]] QString rate(const CauseRate& rate, ParameterKind kind);
/// "tube: inboard wall, lifter end"; an obstacle by its name.
[[nodiscard]] QString place(const ClearancePlace& place, const Engine& engine);
/// "on the heel", "at full lift", "at 0.120 in of lobe lift".
[[nodiscard]] QString lift_of(const ClearancePlace& place);
/// How much of a dimension: "+0.012 in", "-0.35°".
[[nodiscard]] QString change_of(double change, ParameterKind kind);
/// "lash set again with the adjuster, same rod".
[[nodiscard]] QString held(Held held);
[[nodiscard]] QString doubt_kind(const DoubtContribution& share, const EngineLayout& layout);
[[nodiscard]] QString doubt_source(DoubtSource source);

// The words of `--json`: never translated.
[[nodiscard]] QString token(ParameterKind kind);
[[nodiscard]] QString token(DoubtKind kind);
[[nodiscard]] QString token(DoubtSource source);

} // namespace rodway::words
