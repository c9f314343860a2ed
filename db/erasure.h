#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/build/edit.h"
#include "db/shop_file.h"

namespace rodway {

/// A text that is to go, and what stands in its place; nothing where the field may be absent.
struct TextToErase {
    RecordRef record;
    std::string field;
    std::optional<std::string> instead;
};

struct Erasure {
    Act act; ///< the act by which the records lost their texts
    /// Builds whose customer it was: books of these that were given away still name him.
    std::vector<std::int64_t> builds;
    /// Books given away of builds that are his now, as the shop kept them: how many files went, and
    /// the paths of those that couldn't.
    int books_deleted = 0;
    std::vector<std::string> books_left;
    /// Fields that hold one of the customer's names and were left: notes, captions, ...
    std::vector<TextToErase> still_named;
    /// Whether nothing of it is left in the file's free pages and its log either. It is not while
    /// another window reads: closing it and erasing an empty list then clears them.
    bool file_cleared = false;
};

/// Takes texts out of their records and out of the whole history. What each edit said is gone with
/// its salt; its digest stays, so that the chain of the build still holds (see `db/history_seal`).
/// Backups made before and books given away still have them.
/// Errors: those of `apply`, nothing being changed then.
Result<Erasure> erase_texts(ShopFile& shop, const std::vector<TextToErase>& texts,
                            const std::string& who, const std::string& when_utc);

/// The same for everything that says who a customer is, in his record and on his builds, and the
/// books given away of these, as far as this shop keeps them: that one was given away, when, and
/// its digest stay. The record stays, with "-" for a name and the time in `erased`. Errors:
/// no_such_record; those of `apply`.
Result<Erasure> erase_customer(ShopFile& shop, std::int64_t customer_id, const std::string& who,
                               const std::string& when_utc);

} // namespace rodway
