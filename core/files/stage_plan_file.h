#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/build/stage_plan.h"

namespace rodway {

/// The file of a stage plan: JSON that a person can edit. `resources/guide/stage-plan-file.md`
/// describes it.
inline constexpr std::string_view stage_plan_format = "rodway-stage-plan";
inline constexpr int stage_plan_version = 1;

/// Reads a stage plan: the whole file is good, or nothing of it is taken. `own_sheets`: kinds of
/// sheet that there are beside the built-in ones.
///
/// Errors, `field` the path ("stages/2/steps/5/caution", counted from 1), `line` the file's: as
/// `utf8_text`; not_json, wrong_format, newer_version (`value`, `expected` the versions);
/// missing_field, unknown_field, wrong_type, empty_text; not_a_choice for a caution, kind of sheet,
/// part's role or need that there isn't (`expected` those there are), and for an id that is not one
/// word (`expected` "one_word"); duplicate_field for an id or key that stands twice; those of
/// `parse_needs` and `parse_part_roles`.
Result<StagePlan> read_stage_plan_file(std::string_view bytes,
                                       const std::vector<std::string>& own_sheets = {});

/// The file's text; the same bytes for the same plan.
[[nodiscard]] std::string write_stage_plan_file(const StagePlan& plan);

} // namespace rodway
