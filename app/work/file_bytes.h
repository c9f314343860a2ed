#pragma once

#include <QString>
#include <string>

#include "core/base/result.h"

namespace rodway {

/// A whole file. Error: cannot_read, `field` the path.
Result<std::string> read_file(const QString& path);

} // namespace rodway
