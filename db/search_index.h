#pragma once

// SQL stays in `db`: nothing outside it includes this header.

#include <vector>

#include "core/base/result.h"
#include "core/build/edit.h"
#include "db/check_report.h"
#include "db/connection.h"
#include "db/record_fields.h"

namespace rodway {

/// The index of words over the records. It holds nothing of its own: whatever is wrong with it,
/// making it again from the records mends it.

/// What an act makes of one record.
struct SearchedChange {
    RecordRef record;
    const FieldTexts& before;
    const FieldTexts& after;
};

/// Brings the index from `before` to `after`, inside the transaction that has already written the
/// records. An index that turns out to be damaged is made again at once: it must not stand in the
/// way of an edit.
/// Errors: out_of_range (`field` "id") for an id that leaves no room for its kind in the index.
Result<Done> update_search(Connection& connection, const std::vector<SearchedChange>& changes);

/// Makes the index again from the records, inside a write transaction.
Result<Done> remake_search(Connection& connection);

/// The words of removed texts stay in the file for a while, out of the index's reach. This takes
/// them out, inside a write transaction: for texts that were erased on purpose.
Result<Done> drop_old_search_words(Connection& connection);

/// Compares the index with one made from the records beside it: a finding for each of the two that
/// differs. Inside a transaction.
Result<Done> check_search(Connection& connection, std::vector<Finding>& findings);

} // namespace rodway
