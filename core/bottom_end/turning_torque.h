#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/sheets/row_statistics.h"

namespace rodway {

/// What has just gone in when the engine is turned.
enum class AfterFitting { mains, piston, cam, front_cover, other };

/// The torque that keeps the crank turning, after one more thing went in.
struct TurningReading {
    AfterFitting after = AfterFitting::mains;
    std::optional<int> cylinder;       ///< of a piston
    std::optional<Interval> torque_Nm; ///< empty: not measured; 0 to 500
};

struct TurningStep {
    AfterFitting after = AfterFitting::mains;
    std::optional<int> cylinder;
    std::optional<Interval> torque_Nm;
    /// What it takes more than before. Empty where it or all before it weren't measured, and for
    /// the first.
    std::optional<Interval> added_Nm;
    /// How many things went in since the reading before: more than one, and the added torque can't
    /// be laid at one of them.
    int things_added = 1;
    bool odd = false;   ///< the piston that adds far more or less than its mates
    bool eased = false; ///< it turns more easily than before: worth a second look
};

struct TurningTorque {
    std::vector<TurningStep> steps; ///< as given
    /// Of what single pistons added; empty if none can be told.
    std::optional<RowStatistics> pistons;
    std::vector<std::size_t> piston_steps; ///< the steps that its indices mean
};

/// What each step of an assembly added to the torque that turns it. The odd piston by
/// `row_statistics`, among single pistons only.
/// Errors, `line` counted from 1: too_few_rows ("torque": none); not_a_number, out_of_range
/// ("torque").
Result<TurningTorque> turning_torque(const std::vector<TurningReading>& readings);

} // namespace rodway
