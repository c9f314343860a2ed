#pragma once

#include <string>
#include <string_view>

#include "core/build/records.h"
#include "core/clearance/passage_pose.h"
#include "core/engine/engine.h"

namespace rodway {

/// A train's port tube ("tube") or one of its further passages; nothing if none is called so.
[[nodiscard]] const Passage* find_passage(const Train& train, std::string_view name);

/// The set-up that `engine` was made of, with one passage moved to a pose: new texts for the six
/// fields of its centre and axis, all else untouched. A pose is from where the passage stands now;
/// what its casting has moved since it was located is taken off again.
///
/// Each length keeps its unit; it is written to 0.0001 mm or 0.00001 in, the axis to 0.0000001:
/// far less than anybody can measure. `doubt_mm`: what the readings leave open of the least
/// clearance there (`Passage::fitted_doubt_mm`), rounded up; empty: none is known, and none that
/// stood there before is kept.
/// Errors: valve_unknown ("valve"), not_a_choice ("passage"), banks_parallel, and those of
/// `make_engine` where the moved passage makes no engine.
Result<SetUpFields> fields_at_pose(const SetUpFields& fields, const Engine& engine,
                                   const ValvePosition& valve, const std::string& passage,
                                   const PassagePose& pose, std::optional<double> doubt_mm = {});

} // namespace rodway
