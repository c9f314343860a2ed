#pragma once

#include <string>
#include <string_view>

#include "core/base/result.h"
#include "core/build/build_transfer.h"

namespace rodway {

/// A folder that holds one whole build: `build.json`, `readings.csv` for people and spreadsheets,
/// and `photos/<digest>.<suffix>`. `resources/guide/build-folder.md` describes it.
inline constexpr std::string_view build_folder_format = "rodway-build";
inline constexpr int build_folder_version = 1;
inline constexpr std::string_view build_json_name = "build.json";
inline constexpr std::string_view readings_csv_name = "readings.csv";
inline constexpr std::string_view build_photos_name = "photos";

/// Reads `build.json`. It checks the file's form; what the records may hold is checked where they
/// go in. Numbers of acts must run from 1, records and photos must stand in order.
/// Errors, `field` the path of the member ("history/3/edits/0/field", counted from 0), `line` the
/// file's: as `utf8_text`; not_json, duplicate_field, wrong_format, newer_version (`value`,
/// `expected` the versions), missing_field, unknown_field, wrong_type, empty_text, out_of_range.
Result<BuildTransfer> read_build_json(std::string_view bytes);

/// The same bytes for the same transfer: one line for an edit, a record, a photo.
[[nodiscard]] std::string write_build_json(const BuildTransfer& build);

} // namespace rodway
