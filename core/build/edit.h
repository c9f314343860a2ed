#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace rodway {

/// The nouns of the shop file, each behind those it refers to.
enum class RecordKind {
    shop_detail,
    shop_sheet_kind,
    shop_quantity,
    shop_plan,
    person,
    customer,
    instrument,
    product,
    known_engine,
    build,
    casting_number,
    promise,
    visit,
    hand_off,
    set_up,
    stage,
    step,
    gate,
    part,
    waiver,
    cure,
    open_item,
    decision,
    approval,
    worked_time,
    account_line,
    sheet,
    limit,
    reading,
    sign_off,
    note,
    photo
};

struct RecordRef {
    RecordKind kind;
    std::int64_t id = 0;

    bool operator==(const RecordRef&) const = default;
};

/// For maps: owners before what they own.
struct ByKindAndId {
    bool operator()(const RecordRef& a, const RecordRef& b) const {
        return a.kind != b.kind ? a.kind < b.kind : a.id < b.id;
    }
};

/// The one way anything changes: one field of one record, from one text to another.
///
/// A value travels as the text people typed with its unit behind it (".3125 in"); nothing is an
/// absent field, never an empty text or a zero. Creating and removing a record is an Edit of its
/// field `exists` between nothing and "1". A set-up's geometry fields are named by their path
/// ("trains/3I/rod/diameter").
struct Edit {
    RecordRef record;
    std::string field;
    std::optional<std::string> before;
    std::optional<std::string> after;
    /// The texts were personal and were erased since: neither `before` nor `after` is known.
    bool erased = false;

    bool operator==(const Edit&) const = default;
};

/// What one person did in one go. Applied whole or not at all, and undone whole.
struct Act {
    std::int64_t number = 0; ///< given by the shop file
    std::string who;
    std::string when_utc;               ///< ISO 8601, e.g. 2026-03-01T14:05:00Z
    std::optional<std::int64_t> undoes; ///< number of the act that this one takes back
    std::vector<Edit> edits;
};

/// The same edits turned round and in reverse order: what takes them back.
[[nodiscard]] std::vector<Edit> swapped(const std::vector<Edit>& edits);

} // namespace rodway
