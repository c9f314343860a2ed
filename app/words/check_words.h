#pragma once

#include <QString>

#include "db/check_report.h"

namespace rodway::words {

/// One finding of a check of the shop file, in a sentence.
[[nodiscard]] QString check_finding(const Finding& finding);

} // namespace rodway::words
