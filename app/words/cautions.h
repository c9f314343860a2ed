#pragma once

#include <QString>

namespace rodway::words {

/// The caution behind a stage's key ("barring_over", "torque", "lifting"); empty for a key unknown.
[[nodiscard]] QString caution(const QString& key);
/// What stands under every clearance that leaves the program.
[[nodiscard]] QString clearance_caution();

} // namespace rodway::words
