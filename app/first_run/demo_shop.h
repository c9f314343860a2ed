#pragma once

#include <QString>

#include "core/base/result.h"

namespace rodway {

/// Writes a new shop file with three invented builds: a V8 with port tubes, an inline six that
/// turns the other way, and a flat four; people, and parts and an account of the six. Errors: as
/// `ShopFile::create`.
Result<Done> write_demo_shop(const QString& path);

} // namespace rodway
