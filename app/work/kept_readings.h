#pragma once

#include <QString>
#include <cstdint>
#include <string>
#include <vector>

#include "app/edit_stack/shop_session.h"
#include "app/work/build_sheets.h"

namespace rodway {

/// What is typed in one box, ready to be kept: one reading, or two where two are said in one breath
/// of neighbours: rings "18 and 20 thou" at "3" or "3 top" (top, second), lash "26/28 hot" at "3"
/// or "3I" (intake, exhaust). A slash parts lashes only: of a length it is a fraction's.
/// Errors: as `reading_to_keep`.
Result<std::vector<Reading>> readings_to_keep(const Quantity& quantity, const std::string& position,
                                              const std::string& text,
                                              const std::string& unit = {});

/// Keeps readings of one build, in their order, as one act: `taken_by`, `taken_at`, build and
/// set-up are filled in. At least one. Returns their ids. Errors: as `ShopSession::create`.
Result<std::vector<std::int64_t>> keep_readings(ShopSession& session, std::int64_t build_id,
                                                const BuildSheets& sheets,
                                                std::vector<Reading> readings, const QString& what);

} // namespace rodway
