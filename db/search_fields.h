#pragma once

#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include "core/build/edit.h"
#include "db/record_fields.h"

namespace rodway {

/// Which fields of one kind of record are searched.
struct SearchedKind {
    RecordKind kind;
    int number = 0;         ///< stands for the kind in the index; never changes, never used again
    std::string_view title; ///< what the record is called by; empty if it has no such field
    std::vector<std::string_view> body;
};

/// All kinds that are searched. Stages, steps and gates are not: nearly all of their words come
/// from the stage plans, and one word of a plan would bring every build that follows it.
[[nodiscard]] const std::vector<SearchedKind>& searched_kinds();

/// Null if the kind isn't searched.
[[nodiscard]] const SearchedKind* searched_kind(RecordKind kind);

/// Whether the record with these fields can be found: it is there, and not an erased customer.
[[nodiscard]] bool can_be_found(const FieldTexts& fields);

/// Readings have an index of their own; every other record has this row among the nouns. Nothing
/// for a kind that isn't searched, or an id above `highest_searched_id`.
[[nodiscard]] std::optional<std::int64_t> noun_row(const RecordRef& record);
[[nodiscard]] std::optional<RecordRef> record_of_noun_row(std::int64_t row);

/// The factor that leaves room for a kind's number beside the id.
inline constexpr std::int64_t numbers_of_kinds = 64;
inline constexpr std::int64_t highest_searched_id = INT64_MAX / numbers_of_kinds - 1;

} // namespace rodway
