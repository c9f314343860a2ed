#pragma once

#include <algorithm>
#include <charconv>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <system_error>
#include <type_traits>
#include <utility>
#include <vector>

#include "core/base/assert.h"
#include "core/base/result.h"
#include "core/build/edit.h"
#include "db/record_shape.h"
#include "db/record_tables.h"
#include "db/typed_value_text.h"

namespace rodway {

/// The fields of one record as Edits write them. A record that is there has "exists" = "1"; one
/// that is not there has no fields at all. An absent field is not in the map.
using FieldTexts = std::map<std::string, std::string>;

namespace record_fields {

template <typename Value>
struct IsOptional : std::false_type {};
template <typename Value>
struct IsOptional<std::optional<Value>> : std::true_type {};

/// Nothing for an empty text and a flag that is down.
template <typename Value>
std::optional<std::string> text_of(RecordKind kind, const char* name, const Value& value) {
    if constexpr (IsOptional<Value>::value) {
        return value ? text_of(kind, name, *value) : std::nullopt;
    } else if constexpr (std::is_same_v<Value, bool>) {
        return value ? std::optional<std::string>("1") : std::nullopt;
    } else if constexpr (std::is_enum_v<Value>) {
        const RecordField* field = find_field(table_of(kind), name);
        RODWAY_ASSERT(field != nullptr && static_cast<std::size_t>(value) < field->choices.size());
        return std::string(field->choices[static_cast<std::size_t>(value)]);
    } else if constexpr (std::is_integral_v<Value>) {
        return std::to_string(value);
    } else {
        return value.empty() ? std::nullopt : std::optional<std::string>(value);
    }
}

/// Whether the text is one that the member can hold.
template <typename Value>
bool set(RecordKind kind, const char* name, const std::string& text, Value& value) {
    if constexpr (IsOptional<Value>::value) {
        return set(kind, name, text, value.emplace());
    } else if constexpr (std::is_same_v<Value, bool>) {
        value = text == "1";
        return value;
    } else if constexpr (std::is_enum_v<Value>) {
        const auto& choices = find_field(table_of(kind), name)->choices;
        const auto found = std::find(choices.begin(), choices.end(), text);
        if (found == choices.end()) return false;
        value = static_cast<Value>(found - choices.begin());
        return true;
    } else if constexpr (std::is_integral_v<Value>) {
        const char* const end = text.data() + text.size();
        const auto [behind, failure] = std::from_chars(text.data(), end, value);
        return failure == std::errc() && behind == end;
    } else {
        value = text;
        return true;
    }
}

/// Whether a record carries geometry, by path.
template <typename Record>
inline constexpr bool has_geometry =
    std::is_same_v<Record, SetUpRecord> || std::is_same_v<Record, KnownEngine>;

} // namespace record_fields

/// All fields of a record, with `exists`.
template <typename Record>
[[nodiscard]] FieldTexts fields_of(const Record& record) {
    using Shape = RecordShape<Record>;
    FieldTexts texts{{"exists", "1"}};
    Shape::visit(
        [&texts](const char* name, const auto& value) {
            if (auto text = record_fields::text_of(Shape::kind, name, value)) {
                texts.emplace(name, std::move(*text));
            }
        },
        record);
    if constexpr (record_fields::has_geometry<Record>) {
        for (const auto& [path, value] : record.fields) texts.emplace(path, to_edit_text(value));
    }
    return texts;
}

/// The record with these fields.
/// Errors: damaged_file, `field` and `value` what no edit could have written.
template <typename Record>
[[nodiscard]] Result<Record> record_from(std::int64_t id, const FieldTexts& texts) {
    using Shape = RecordShape<Record>;
    Record record;
    record.id = id;
    std::optional<Error> damage;
    Shape::visit(
        [&](const char* name, auto& value) {
            const auto found = texts.find(name);
            if (found == texts.end()) return;
            if (!record_fields::set(Shape::kind, name, found->second, value)) {
                damage = Error{ErrorCode::damaged_file, name, found->second, {}, {}, {}};
            }
        },
        record);
    if constexpr (record_fields::has_geometry<Record>) {
        for (const auto& [field, text] : texts) {
            if (!is_geometry_path(Shape::kind, field)) continue;
            const auto typed = typed_value_from(text);
            if (typed) {
                record.fields.emplace(field, *typed);
            } else {
                damage = Error{ErrorCode::damaged_file, field, text, {}, {}, {}};
            }
        }
    }
    if (damage) return *damage;
    return record;
}

/// Records by id, as `record_from` makes each.
template <typename Record>
[[nodiscard]] Result<std::vector<Record>> records_from(
    const std::map<std::int64_t, FieldTexts>& rows) {
    std::vector<Record> records;
    records.reserve(rows.size());
    for (const auto& [id, texts] : rows) {
        auto record = record_from<Record>(id, texts);
        if (!record) return record.error();
        records.push_back(std::move(record).value());
    }
    return records;
}

/// The edits that create the record; its id is given by `new_id`.
template <typename Record>
[[nodiscard]] std::vector<Edit> edits_to_create(const Record& record) {
    const RecordRef ref{RecordShape<Record>::kind, record.id};
    std::vector<Edit> edits{Edit{ref, "exists", std::nullopt, "1"}};
    for (const auto& [field, text] : fields_of(record)) {
        if (field != "exists") edits.push_back(Edit{ref, field, std::nullopt, text});
    }
    return edits;
}

/// The edits of the fields in which `after` differs; none if it doesn't. Both have the same id.
template <typename Record>
[[nodiscard]] std::vector<Edit> edits_to_change(const Record& before, const Record& after) {
    RODWAY_ASSERT(before.id == after.id);
    const RecordRef ref{RecordShape<Record>::kind, before.id};
    const FieldTexts from = fields_of(before);
    const FieldTexts to = fields_of(after);
    FieldTexts all = from;
    all.insert(to.begin(), to.end());
    std::vector<Edit> edits;
    for (const auto& [field, any_text] : all) {
        const auto a = from.find(field);
        const auto b = to.find(field);
        Edit edit{ref, field, std::nullopt, std::nullopt};
        if (a != from.end()) edit.before = a->second;
        if (b != to.end()) edit.after = b->second;
        if (edit.before != edit.after) edits.push_back(std::move(edit));
    }
    return edits;
}

} // namespace rodway
