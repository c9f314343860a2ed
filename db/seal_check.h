#pragma once

// SQL stays in `db`: nothing outside it includes this header.

#include <vector>

#include "core/base/result.h"
#include "db/check_report.h"
#include "db/connection.h"

namespace rodway {

/// Makes every link of the history again and compares: `history_altered` for an act that is not
/// what was sealed, `history_shortened` if acts were taken off the end.
Result<Done> check_seals(Connection& connection, std::vector<Finding>& findings);

} // namespace rodway
