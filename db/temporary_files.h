#pragma once

#include <string>

namespace rodway {

/// Whatever is written under a name of its own first, until it is whole, is called ".rodway-" and
/// what nobody else thinks of; a power cut or a kill leaves it lying.

/// A path in `folder` for a file or folder in the making.
[[nodiscard]] std::string temporary_path(const std::string& folder);

/// Removes those that lie in `folder` itself and were touched by nobody for a day: who still writes
/// one does so much more often. What goes by another name, links, and what can't be removed stay.
void remove_stale_temporaries(const std::string& folder);

} // namespace rodway
