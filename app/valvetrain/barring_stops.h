#pragma once

#include <QStringList>
#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/engine/engine.h"

namespace rodway {

/// What may be wanted of an engine that is barred over.
enum class BarringTask { open_now, loosen_shaft, full_lift_order, lash_walk, lash_stops };

/// One line of a task's list: a crank angle to stop at, if the line has one, what is there, and a
/// valve to be looked at.
struct BarringStop {
    std::optional<CrankAngle> at;
    QStringList texts;
    std::optional<ValvePosition> valve;
};

struct BarringList {
    QStringList columns; ///< of `texts`
    std::vector<BarringStop> stops;
    QStringList notes; ///< what the list leaves out, and what it takes for granted
};

/// A task's list. `from`: where a walk starts, or, for `open_now`, where the crank stands;
/// `margin_deg`: kept clear at both ends of every heel.
/// Errors: those of the task's own computation.
[[nodiscard]] Result<BarringList> barring_list(BarringTask task, const Engine& engine,
                                               CrankAngle from, double margin_deg);

} // namespace rodway
