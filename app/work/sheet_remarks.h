#pragma once

#include <QString>
#include <optional>
#include <string>
#include <vector>

#include "app/edit_stack/shop_session.h"
#include "core/build/records.h"

namespace rodway {

/// What was noted and photographed beside one kind of sheet of a build.
struct SheetRemarks {
    std::optional<std::int64_t> sheet_id; ///< the newest record of this kind; nothing before the
                                          ///< first remark or step made one
    std::vector<Note> notes;              ///< in the order written
    std::vector<Photo> photos;
};

/// Errors: those of reading the file.
Result<SheetRemarks> sheet_remarks(ShopFile& shop, std::int64_t build_id, const std::string& kind);

/// Where a remark belongs. `position` as kept; empty: to the sheet as a whole.
struct RemarkPlace {
    std::int64_t build_id = 0;
    std::string kind;
    std::string position;
};

/// Keeps a note; the sheet's record is made with it if there is none yet. Errors: empty_text,
/// `field` "text"; those of `ShopSession::create`.
Result<std::int64_t> keep_sheet_note(ShopSession& session, const RemarkPlace& place,
                                     const std::string& text);

/// Copies a picture to the shop's photos and keeps it the same way. Errors: not_a_choice, `field`
/// "photo", for a file that can't be shown as a picture; those of `keep` and `create`.
Result<std::int64_t> keep_sheet_photo(ShopSession& session, const RemarkPlace& place,
                                      const QString& file);

} // namespace rodway
