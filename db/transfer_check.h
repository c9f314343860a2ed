#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/build/build_transfer.h"
#include "db/build_records.h"
#include "db/record_tables.h"

namespace rodway {

/// Whether records of this kind belong to a build, by way of their owners.
[[nodiscard]] bool is_of_a_build(RecordKind kind);

/// Gives records the numbers of a transfer: each kind from 1 in the order of asking.
class TransferNumbers {
  public:
    std::int64_t number(const RecordRef& record);
    [[nodiscard]] const std::map<RecordRef, std::int64_t, ByKindAndId>& given() const {
        return numbers_;
    }

  private:
    std::map<RecordRef, std::int64_t, ByKindAndId> numbers_;
    std::map<RecordKind, std::int64_t> last_;
};

/// What a transfer's history says.
struct TransferContent {
    RecordTexts records;                   ///< that it leads to
    std::set<RecordRef, ByKindAndId> shop; ///< records of the shop that it names
    std::set<std::string> words;           ///< of sheets and quantities
    std::set<std::string> digests;         ///< of photos
    std::set<std::string> books;           ///< digests of books as they were given away
};

/// Plays a history. Errors, with `line`:
/// - not_a_choice `record` (a kind of record that no build has), unknown_field, and as
///   `check_text`;
/// - out_of_range `id` or a reference (`expected` the number that the order of the history gives),
///   `undoes` (not an act before it);
/// - changed_since: an edit that doesn't begin where those before it ended (`expected`: with what
///   it begins), or (`undoes`) an act that isn't what it undoes turned round;
/// - missing_field for an act without edits and a record that belongs to no build; wrong_type
///   `when`; empty_text, not_utf8 `who`.
Result<TransferContent> play_transfer(const std::vector<TransferAct>& history);

/// The same, and that the rest of the transfer is what belongs to this history, in its order.
/// Errors: also missing_field, out_of_range and unknown_field for records and photos that are
/// lacking, elsewhere or too many, and changed_since for a record that isn't what the history leads
/// to (`value` the record's text, `expected` the history's).
Result<TransferContent> check_transfer(const BuildTransfer& build);

/// The order in which the shop's own sheets and their quantities are numbered.
[[nodiscard]] bool numbered_before(const FieldTexts& a, const FieldTexts& b);

} // namespace rodway
