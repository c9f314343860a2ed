#include "db/record_tables.h"

#include <QDate>
#include <QDateTime>
#include <QString>
#include <algorithm>
#include <charconv>
#include <limits>

#include "db/connection.h"
#include "db/reading_status_text.h"

namespace rodway {
namespace {

RecordField text(std::string_view name) {
    return {name, FieldForm::text, false, false, {}};
}
RecordField needed_text(std::string_view name) {
    return {name, FieldForm::text, true, false, {}};
}
RecordField of_form(std::string_view name, FieldForm form) {
    return {name, form, false, false, {}};
}
RecordField needed(std::string_view name, FieldForm form) {
    return {name, form, true, false, {}};
}
RecordField owner(std::string_view name, RecordKind kind) {
    return {name, FieldForm::reference, true, true, kind};
}
RecordField link(std::string_view name, RecordKind kind) {
    return {name, FieldForm::reference, false, false, kind};
}

std::vector<RecordTable> make_tables() {
    return {
        {RecordKind::build,
         "build",
         "builds",
         {needed_text("name"), text("customer"), text("engine"),
          of_form("promised", FieldForm::date), text("note"), of_form("archived", FieldForm::utc)}},
        {RecordKind::set_up,
         "set_up",
         "set_ups",
         {owner("build_id", RecordKind::build), needed_text("name")}},
        {RecordKind::stage,
         "stage",
         "stages",
         {owner("build_id", RecordKind::build), needed("ordinal", FieldForm::count),
          needed_text("title"), text("caution")}},
        {RecordKind::step,
         "step",
         "steps",
         {owner("stage_id", RecordKind::stage), needed("ordinal", FieldForm::count),
          needed_text("title"), text("ticked_by"), of_form("ticked_at", FieldForm::utc)}},
        {RecordKind::reading,
         "reading",
         "readings",
         {owner("build_id", RecordKind::build), link("set_up_id", RecordKind::set_up),
          needed_text("quantity"), text("position"), text("text"), text("unit"),
          needed("status", FieldForm::reading_status), needed_text("taken_by"),
          needed("taken_at", FieldForm::utc)}},
        {RecordKind::photo,
         "photo",
         "photos",
         {owner("build_id", RecordKind::build),
          link("stage_id", RecordKind::stage),
          {"digest", FieldForm::digest, true, true, {}},
          needed_text("file_name"),
          text("caption"),
          needed("added_at", FieldForm::utc)}},
    };
}

Error wrong(ErrorCode code, const RecordField& field, const std::string& found,
            std::string expected) {
    return Error{code, std::string(field.name), found, std::move(expected), {}, {}};
}

/// A whole number written the one way the file gives it back: no sign, no leading zero.
Result<Done> check_whole(const RecordField& field, const std::string& found, std::int64_t low,
                         std::int64_t high) {
    std::int64_t number = 0;
    const char* const end = found.data() + found.size();
    const auto [behind, failure] = std::from_chars(found.data(), end, number);
    if (failure == std::errc::result_out_of_range ||
        (failure == std::errc() && behind == end && (number < low || number > high))) {
        Error error = wrong(ErrorCode::out_of_range, field, found, {});
        error.limits = Limits{static_cast<double>(low), static_cast<double>(high), {}};
        return error;
    }
    if (failure != std::errc() || behind != end || std::to_string(number) != found) {
        return wrong(ErrorCode::not_a_number, field, found, {});
    }
    return Done{};
}

bool has_shape(const std::string& found, std::string_view shape) {
    return found.size() == shape.size() &&
           std::equal(found.begin(), found.end(), shape.begin(), [](char c, char wanted) {
               return wanted == '0' ? c >= '0' && c <= '9' : c == wanted;
           });
}

bool is_date(const std::string& found) {
    return has_shape(found, "0000-00-00") &&
           QDate::fromString(QString::fromStdString(found), Qt::ISODate).isValid();
}

bool is_digest(const std::string& found) {
    constexpr std::size_t digits = 64; // SHA-256 in hexadecimal
    return found.size() == digits && std::all_of(found.begin(), found.end(), [](char c) {
               return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f');
           });
}

} // namespace

const std::vector<RecordTable>& record_tables() {
    static const std::vector<RecordTable> tables = make_tables();
    return tables;
}

const RecordTable& table_of(RecordKind kind) {
    const auto& tables = record_tables();
    const auto found = std::find_if(tables.begin(), tables.end(),
                                    [kind](const RecordTable& t) { return t.kind == kind; });
    RODWAY_ASSERT(found != tables.end());
    return *found;
}

std::optional<RecordKind> record_kind_from(std::string_view word) {
    for (const RecordTable& table : record_tables()) {
        if (table.word == word) return table.kind;
    }
    return std::nullopt;
}

const RecordField* find_field(const RecordTable& table, std::string_view name) {
    const auto found = std::find_if(table.fields.begin(), table.fields.end(),
                                    [name](const RecordField& f) { return f.name == name; });
    return found == table.fields.end() ? nullptr : &*found;
}

bool is_geometry_path(RecordKind kind, std::string_view field) {
    return kind == RecordKind::set_up && field.find('/') != std::string_view::npos;
}

bool is_utc_time(const std::string& text) {
    return has_shape(text, "0000-00-00T00:00:00Z") &&
           QDateTime::fromString(QString::fromStdString(text), Qt::ISODate).isValid();
}

Result<Done> check_text(const RecordField& field, const std::string& found) {
    if (found.empty()) return wrong(ErrorCode::empty_text, field, found, {});
    if (!storable_text(found)) return wrong(ErrorCode::not_utf8, field, found, {});
    switch (field.form) {
        case FieldForm::text:
            return Done{};
        case FieldForm::count:
            return check_whole(field, found, 0, std::numeric_limits<int>::max());
        case FieldForm::reference:
            return check_whole(field, found, 1, std::numeric_limits<std::int64_t>::max());
        case FieldForm::date:
            if (is_date(found)) return Done{};
            return wrong(ErrorCode::wrong_type, field, found, "YYYY-MM-DD");
        case FieldForm::utc:
            if (is_utc_time(found)) return Done{};
            return wrong(ErrorCode::wrong_type, field, found, "YYYY-MM-DDThh:mm:ssZ");
        case FieldForm::digest:
            if (is_digest(found)) return Done{};
            return wrong(ErrorCode::wrong_type, field, found, "SHA-256");
        case FieldForm::reading_status:
            if (reading_status_from(found)) return Done{};
            return wrong(ErrorCode::not_a_choice, field, found, reading_status_words());
    }
    RODWAY_ASSERT(false);
    return Done{};
}

Result<Done> check_together(
    RecordKind kind,
    const std::function<std::optional<std::string>(const std::string&)>& value_of) {
    if (kind == RecordKind::step) {
        const bool by = value_of("ticked_by").has_value();
        const bool at = value_of("ticked_at").has_value();
        if (by != at) {
            return Error{ErrorCode::missing_field, by ? "ticked_at" : "ticked_by", {}, {}, {}, {}};
        }
    }
    if (kind == RecordKind::reading && !value_of("text")) {
        const auto status = reading_status_from(value_of("status").value_or(std::string()));
        RODWAY_ASSERT(status.has_value());
        if (needs_text(*status)) return Error{ErrorCode::missing_field, "text", {}, {}, {}, {}};
    }
    return Done{};
}

} // namespace rodway
