#pragma once

#include <QStringList>
#include <string>

#include "core/base/result.h"

namespace rodway {

/// Every copy of a shop that was made before: backups beside it and at the second place (empty for
/// none), what a restore kept, what a newer version of the program copied before it changed the
/// file. Errors: those of `backups_in`.
Result<QStringList> copies_of_shop(const std::string& shop_path, const std::string& second_place);

/// Removes them; those that stay.
[[nodiscard]] QStringList remove_copies(const QStringList& copies);

} // namespace rodway
