#pragma once

#include <string>
#include <string_view>

#include "core/base/result.h"
#include "core/build/records.h"

namespace rodway {

/// The set-up file: JSON that a person can edit. Objects follow the fields' paths; a key ends in
/// its unit ("diameter_in", "lean_deg"); a point or an axis is a list of three numbers; a lift
/// table is a list of pairs under "lift_table_cam_deg_in". `resources/guide/set-up-file.md`
/// describes it.
///
/// Numbers keep the digits they were written with, so that export then import gives the same
/// fields.
constexpr std::string_view set_up_format = "rodway-set-up";
constexpr int set_up_version = 1;

/// Reads a set-up file and checks it as `make_engine` does: the whole file is good, or nothing of
/// it is taken. Errors: as `utf8_text` and `make_engine`, and not_json, duplicate_field,
/// wrong_format, newer_version, wrong_type; `line` is the file's.
Result<SetUpFields> read_set_up_file(std::string_view bytes);

/// The file's text. Fields the program doesn't know are a bug.
[[nodiscard]] std::string write_set_up_file(const SetUpFields& fields);

} // namespace rodway
