#pragma once

#include <QString>

#include "app/work/note_acts.h"

namespace rodway {

/// Copies a picture to the shop's photos and keeps it in the name of who works here, now: one act.
/// The original stays as it is.
/// Errors: wrong_type "photo" (`value` the file's name, `expected` "picture", or "whole_picture"
/// for one that is cut short); as `keep_note` of the position; those of `keep` and
/// `ShopSession::create`.
Result<std::int64_t> keep_photo(ShopSession& session, const KeptAt& at, const QString& file);

/// Changes what stands by a photo; nothing happens if nothing differs.
/// Errors: as `kept_line`, field "caption" or "position"; those of `ShopSession::act`.
Result<Done> change_photo(ShopSession& session, const Photo& before, Photo after);

} // namespace rodway
