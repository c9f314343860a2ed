#pragma once

#include <QString>

namespace rodway::words {

/// The caution behind a stage's or step's key, see `core/build/caution.h`; empty for a key unknown.
[[nodiscard]] QString caution(const QString& key);
/// What stands under every clearance that leaves the program.
[[nodiscard]] QString clearance_caution();

} // namespace rodway::words
