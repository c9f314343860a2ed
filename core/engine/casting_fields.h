#pragma once

#include <string>

#include "core/castings/flange_setting.h"
#include "core/castings/head_setting.h"
#include "core/engine/field_reader.h"

namespace rodway {

/// "banks/left/flange/…", nothing if that bank has none.
[[nodiscard]] std::optional<FlangeSetting> read_flange(FieldReader& fields,
                                                       const std::string& bank_path);

/// "banks/left/deck_milled" and "banks/left/head/…"; what isn't there is as it was when the places
/// were taken.
[[nodiscard]] HeadSetting read_head(FieldReader& fields, const std::string& bank_path);

} // namespace rodway
