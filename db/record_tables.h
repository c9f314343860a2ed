#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/build/edit.h"

namespace rodway {

/// What the text of a field must look like.
enum class FieldForm {
    text,
    count,     ///< a whole number from 0
    reference, ///< id of a record
    date,      ///< 2026-03-01
    utc,       ///< 2026-03-01T14:05:00Z
    digest,    ///< SHA-256 as 64 hexadecimal digits
    money,     ///< -12.50: two decimals, no leading zeros
    flag,      ///< "1", or absent
    choice     ///< one of `choices`
};

/// One field that an Edit may name; its column in the table has the same name.
struct RecordField {
    std::string_view name;
    FieldForm form = FieldForm::text;
    bool needed = false;
    bool fixed = false; ///< set when the record is created, never after
    std::optional<RecordKind> refers_to;
    std::vector<std::string_view> choices;
    bool personal = false; ///< says who a customer is; see `db/erasure`
};

/// The allow-list of one kind of record. Whatever is not in here can't be changed.
struct RecordTable {
    RecordKind kind;
    std::string_view word; ///< as the history writes it
    std::string_view table;
    std::vector<RecordField> fields;
};

/// All kinds, each behind those it refers to.
[[nodiscard]] const std::vector<RecordTable>& record_tables();
[[nodiscard]] const RecordTable& table_of(RecordKind kind);

/// Null if the history has a word that no kind has.
[[nodiscard]] std::optional<RecordKind> record_kind_from(std::string_view word);

/// Null if the kind has no such field. A set-up's geometry paths are no columns.
[[nodiscard]] const RecordField* find_field(const RecordTable& table, std::string_view name);

/// The field through which a record belongs to a build or to another record that does; null for
/// records of the shop as a whole, and for builds.
[[nodiscard]] const RecordField* owner_field(const RecordTable& table);

/// Where the geometry of a kind of record stands, row by row: its path, text and unit.
struct PathTable {
    RecordKind kind;
    std::string_view table;
    std::string_view owner; ///< the column with the record's id
};
[[nodiscard]] const std::vector<PathTable>& path_tables();
/// Null for a kind that has none.
[[nodiscard]] const PathTable* path_table(RecordKind kind);

/// Whether `field` names a part of a set-up's or a known engine's geometry
/// ("trains/3I/rod/diameter").
[[nodiscard]] bool is_geometry_path(RecordKind kind, std::string_view field);

/// Whether `text` has the form of the field; it is never empty.
/// Errors: empty_text, not_utf8, not_a_number, out_of_range, not_a_choice, wrong_type.
[[nodiscard]] Result<Done> check_text(const RecordField& field, const std::string& text);

/// Whether the fields of one record agree with each other. `value_of` gives a field's text.
/// Errors: missing_field.
[[nodiscard]] Result<Done> check_together(
    RecordKind kind, const std::function<std::optional<std::string>(const std::string&)>& value_of);

/// Whether `text` is a UTC time to the second, "2026-03-01T14:05:00Z".
[[nodiscard]] bool is_utc_time(const std::string& text);

} // namespace rodway
