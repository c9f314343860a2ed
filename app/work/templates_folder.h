#pragma once

#include <QString>

#include "app/edit_stack/shop_session.h"

namespace rodway {

/// Where the shop keeps templates of its own, see `templates_folder_name`; empty: nowhere said.
[[nodiscard]] QString templates_folder_of(ShopFile& shop);

/// Keeps it among what belongs to the shop's papers. Errors: those of `ShopSession::act`.
Result<Done> keep_templates_folder(ShopSession& session, const QString& folder);

} // namespace rodway
