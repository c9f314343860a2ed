#include "db/record_tables.h"

#include <QDate>
#include <QDateTime>
#include <QString>
#include <algorithm>
#include <array>
#include <charconv>
#include <limits>
#include <utility>

#include "db/connection.h"
#include "db/reading_status_text.h"

namespace rodway {
namespace {

RecordField text(std::string_view name) {
    return {name, FieldForm::text, false, false, {}, {}, false};
}
RecordField needed_text(std::string_view name) {
    return {name, FieldForm::text, true, false, {}, {}, false};
}
RecordField of_form(std::string_view name, FieldForm form) {
    return {name, form, false, false, {}, {}, false};
}
RecordField needed(std::string_view name, FieldForm form) {
    return {name, form, true, false, {}, {}, false};
}
RecordField needed_choice(std::string_view name, std::vector<std::string_view> choices) {
    return {name, FieldForm::choice, true, false, {}, std::move(choices), false};
}
RecordField owner(std::string_view name, RecordKind kind) {
    return {name, FieldForm::reference, true, true, kind, {}, false};
}
RecordField link(std::string_view name, RecordKind kind) {
    return {name, FieldForm::reference, false, false, kind, {}, false};
}
RecordField fixed(RecordField field) {
    field.fixed = true;
    return field;
}
RecordField personal(RecordField field) {
    field.personal = true;
    return field;
}
RecordField of_build() {
    return owner("build_id", RecordKind::build);
}

RecordField note() {
    return text("note");
}

std::vector<RecordTable> tables_of_the_shop() {
    using K = RecordKind;
    using F = FieldForm;
    return {
        {K::shop_detail,
         "shop_detail",
         "shop_details",
         {needed_text("name"), needed_text("content")}},
        {K::shop_sheet_kind,
         "shop_sheet_kind",
         "shop_sheet_kinds",
         {fixed(needed_text("word")), needed_text("title"), note()}},
        {K::shop_quantity,
         "shop_quantity",
         "shop_quantities",
         {owner("sheet_kind_id", K::shop_sheet_kind), fixed(needed_text("word")),
          needed_text("title"), fixed(needed_text("form")), text("unit"), text("positions")}},
        {K::shop_plan,
         "shop_plan",
         "shop_plans",
         {fixed(needed_text("word")), needed_text("title"), needed_text("content"), note()}},
        {K::person,
         "person",
         "people",
         {needed_text("name"), text("initials"), text("role"), of_form("left", F::date), note()}},
        {K::customer,
         "customer",
         "customers",
         {personal(needed_text("name")), personal(text("phone")), personal(text("email")),
          personal(text("address")), personal(text("note")), of_form("erased", F::utc)}},
        {K::instrument,
         "instrument",
         "instruments",
         {needed_text("name"), text("measures"), text("resolution"), text("serial_number"),
          of_form("calibrated", F::date), of_form("calibration_due", F::date),
          of_form("retired", F::date), note()}},
        {K::product,
         "product",
         "products",
         {needed_text("name"), text("purpose"), of_form("handling_minutes", F::count),
          of_form("full_minutes", F::count), note()}},
        {K::known_engine,
         "known_engine",
         "known_engines",
         {needed_text("name"), fixed(needed("version", F::count)), text("measured_by"),
          of_form("measured_on", F::date), note()}},
    };
}

std::vector<RecordTable> tables_of_the_job() {
    using K = RecordKind;
    using F = FieldForm;
    return {
        {K::build,
         "build",
         "builds",
         {needed_text("name"), personal(text("customer")), text("engine"),
          of_form("promised", F::date), note(), of_form("archived", F::utc),
          link("customer_id", K::customer), text("job_number"), text("use"), text("fuel"),
          text("speed_range"), text("target_power"), text("scope"), text("exclusions"),
          text("state"), text("terms"), text("plan")}},
        {K::casting_number,
         "casting_number",
         "casting_numbers",
         {of_build(), needed_text("position"), needed_text("number"), text("date_code"), note()}},
        {K::promise,
         "promise",
         "promises",
         {of_build(), needed("promised", F::date), text("reason"), needed("told_at", F::utc)}},
        {K::visit,
         "visit",
         "visits",
         {of_build(), needed("visited", F::date), needed_text("reason"), text("found"),
          text("done")}},
        {K::hand_off,
         "hand_off",
         "hand_offs",
         {of_build(), fixed(needed("version", F::count)), fixed(of_form("book_digest", F::digest)),
          fixed(needed("history_head", F::digest)), fixed(needed_text("program_version")),
          fixed(text("given_to")), fixed(needed("given_at", F::utc)), fixed(text("settings")),
          fixed(text("service_dates")), fixed(text("signature")), note()}},
        {K::set_up, "set_up", "set_ups", {of_build(), needed_text("name")}},
    };
}

std::vector<RecordTable> tables_of_the_plan() {
    using K = RecordKind;
    using F = FieldForm;
    return {
        {K::stage,
         "stage",
         "stages",
         {of_build(), needed("ordinal", F::count), needed_text("title"), text("caution"),
          text("plan_item")}},
        {K::step,
         "step",
         "steps",
         {owner("stage_id", K::stage), needed("ordinal", F::count), needed_text("title"),
          text("ticked_by"), of_form("ticked_at", F::utc), text("detail"), text("caution"),
          text("sheet_kind"), text("not_needed"), text("plan_item"), text("part_roles")}},
        {K::gate,
         "gate",
         "gates",
         {owner("stage_id", K::stage), needed("ordinal", F::count), needed_text("title"),
          text("needs"), text("plan_item")}},
        {K::part,
         "part",
         "parts",
         {of_build(),
          link("step_id", K::step),
          link("replaces_id", K::part),
          needed_text("item"),
          text("size"),
          text("marking"),
          of_form("count", F::count),
          text("position"),
          needed_choice("owner", {"shop", "customer"}),
          text("supplier"),
          text("order_number"),
          of_form("cost", F::money),
          text("weight"),
          of_form("needed", F::date),
          of_form("ordered", F::date),
          of_form("promised", F::date),
          of_form("received", F::date),
          of_form("measured", F::date),
          of_form("fitted", F::date),
          of_form("returned", F::date),
          of_form("kept_until", F::date),
          text("failed"),
          note(),
          text("role"),
          of_form("temporary", F::flag),
          text("condition"),
          text("thread"),
          text("length"),
          text("drive"),
          text("lubricant"),
          text("tightening")}},
        {K::waiver,
         "waiver",
         "waivers",
         {of_build(), link("gate_id", K::gate), needed_text("subject"), needed_text("reason"),
          of_form("customer_told", F::flag), needed_text("waived_by"), needed("waived_at", F::utc),
          of_form("until", F::date), text("hold")}},
        {K::cure,
         "cure",
         "cures",
         {of_build(), link("product_id", K::product), link("step_id", K::step),
          needed_text("place"), of_form("handling_minutes", F::count),
          of_form("full_minutes", F::count), needed_text("applied_by"),
          needed("applied_at", F::utc), of_form("ended", F::utc), note()}},
        {K::open_item,
         "open_item",
         "open_items",
         {of_build(), link("step_id", K::step), link("gate_id", K::gate),
          needed_choice("kind",
                        {"temporary_part", "watch", "decision", "risk", "question", "other"}),
          needed_text("title"), text("detail"), text("position"), text("if_it_goes_wrong"),
          of_form("customer_told", F::flag), of_form("due", F::date), needed_text("opened_by"),
          needed("opened_at", F::utc), text("closed_by"), of_form("closed_at", F::utc),
          text("outcome"), link("part_id", K::part)}},
        {K::decision,
         "decision",
         "decisions",
         {of_build(), needed_text("question"), needed_text("choice"), text("reason"),
          needed_text("decided_by"), needed("decided_at", F::utc)}},
    };
}

std::vector<RecordTable> tables_of_the_account() {
    using K = RecordKind;
    using F = FieldForm;
    return {
        {K::approval,
         "approval",
         "approvals",
         {of_build(), needed_text("subject"), of_form("amount", F::money),
          needed_choice("answer", {"asked", "approved", "declined"}), text("by_whom"),
          text("manner"), needed("asked_at", F::utc), of_form("answered_at", F::utc), note()}},
        {K::worked_time,
         "worked_time",
         "worked_times",
         {of_build(), link("person_id", K::person), needed("day", F::date),
          needed("minutes", F::count), needed_text("work")}},
        {K::account_line,
         "account_line",
         "account_lines",
         {of_build(), link("approval_id", K::approval),
          needed_choice("paper", {"estimate", "extra", "deposit", "invoice"}),
          needed("ordinal", F::count), needed_text("text"), needed("amount", F::money),
          of_form("dated", F::date)}},
    };
}

std::vector<RecordTable> tables_of_the_checks() {
    using K = RecordKind;
    using F = FieldForm;
    return {
        {K::sheet,
         "sheet",
         "sheets",
         {of_build(), link("step_id", K::step), fixed(needed_text("kind")), text("title"),
          needed("opened_at", F::utc), note()}},
        {K::limit,
         "limit",
         "limits",
         {fixed(link("build_id", K::build)), needed_text("quantity"), text("position"), text("low"),
          text("high"), text("unit"), needed_text("source"), note(),
          of_form("serviceable", F::flag)}},
        {K::reading,
         "reading",
         "readings",
         {of_build(), link("set_up_id", K::set_up), needed_text("quantity"), text("position"),
          text("text"), text("unit"), needed_choice("status", reading_status_choices()),
          needed_text("taken_by"), needed("taken_at", F::utc), link("sheet_id", K::sheet),
          link("instrument_id", K::instrument), text("resolution"), text("method"),
          text("temperature"), note()}},
        {K::sign_off,
         "sign_off",
         "sign_offs",
         {of_build(), fixed(link("gate_id", K::gate)), fixed(link("step_id", K::step)),
          fixed(link("reading_id", K::reading)), fixed(needed_text("subject")),
          fixed(text("value")), fixed(text("limit_text")), fixed(text("limit_source")),
          fixed(needed_text("verdict")), fixed(needed_text("program_version")),
          fixed(needed_text("signed_by")), fixed(needed("signed_at", F::utc)), fixed(note()),
          text("withdrawn_by"), of_form("withdrawn_at", F::utc), text("withdrawn_reason"),
          fixed(link("stage_id", K::stage))}},
        {K::note,
         "note",
         "notes",
         {of_build(), link("stage_id", K::stage), link("step_id", K::step),
          link("sheet_id", K::sheet), text("position"), needed_text("text"),
          of_form("in_book", F::flag), needed_text("written_by"), needed("written_at", F::utc),
          link("part_id", K::part)}},
        {K::photo,
         "photo",
         "photos",
         {of_build(), link("stage_id", K::stage), fixed(needed("digest", F::digest)),
          needed_text("file_name"), text("caption"), needed("added_at", F::utc),
          link("step_id", K::step), link("reading_id", K::reading), text("position"),
          of_form("in_book", F::flag), text("added_by"), of_form("taken_at", F::utc),
          link("part_id", K::part), link("sheet_id", K::sheet)}},
    };
}

std::vector<RecordTable> make_tables() {
    std::vector<RecordTable> all;
    for (const auto& tables : {tables_of_the_shop(), tables_of_the_job(), tables_of_the_plan(),
                               tables_of_the_account(), tables_of_the_checks()}) {
        all.insert(all.end(), tables.begin(), tables.end());
    }
    return all;
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

/// "-12.50", written the one way: no sign or zero that says nothing.
bool is_money(const std::string& found) {
    constexpr std::size_t cents = 2;
    constexpr std::size_t most_digits = 12; // of the whole amount, so that any sum stays exact
    std::string_view whole = found;
    const bool negative = whole.front() == '-';
    if (negative) whole.remove_prefix(1);
    if (whole.size() < cents + 2 || whole[whole.size() - cents - 1] != '.') return false;
    const std::string_view fraction = whole.substr(whole.size() - cents);
    whole.remove_suffix(cents + 1);
    const auto is_digit = [](char c) { return c >= '0' && c <= '9'; };
    if (!std::all_of(whole.begin(), whole.end(), is_digit) ||
        !std::all_of(fraction.begin(), fraction.end(), is_digit)) {
        return false;
    }
    if (whole.size() > most_digits || (whole.size() > 1 && whole.front() == '0')) return false;
    return !(negative && whole == "0" && fraction == "00");
}

Result<Done> check_choice(const RecordField& field, const std::string& found) {
    std::string all;
    for (const std::string_view choice : field.choices) {
        if (choice == found) return Done{};
        if (!all.empty()) all += ", ";
        all += choice;
    }
    return wrong(ErrorCode::not_a_choice, field, found, std::move(all));
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

const RecordField* owner_field(const RecordTable& table) {
    if (table.kind == RecordKind::build) return nullptr;
    const auto found =
        std::find_if(table.fields.begin(), table.fields.end(), [](const RecordField& field) {
            return field.refers_to && (field.fixed || field.name == "build_id");
        });
    return found == table.fields.end() ? nullptr : &*found;
}

const std::vector<PathTable>& path_tables() {
    static const std::vector<PathTable> tables{
        {RecordKind::set_up, "set_up_fields", "set_up_id"},
        {RecordKind::known_engine, "known_engine_fields", "known_engine_id"}};
    return tables;
}

const PathTable* path_table(RecordKind kind) {
    const auto& tables = path_tables();
    const auto found = std::find_if(tables.begin(), tables.end(),
                                    [kind](const PathTable& table) { return table.kind == kind; });
    return found == tables.end() ? nullptr : &*found;
}

bool is_geometry_path(RecordKind kind, std::string_view field) {
    return path_table(kind) != nullptr && field.find('/') != std::string_view::npos;
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
        case FieldForm::money:
            if (is_money(found)) return Done{};
            return wrong(ErrorCode::wrong_type, field, found, "1250.00");
        case FieldForm::flag:
            if (found == "1") return Done{};
            return wrong(ErrorCode::not_a_choice, field, found, "1");
        case FieldForm::choice:
            return check_choice(field, found);
    }
    RODWAY_ASSERT(false);
    return Done{};
}

Result<Done> check_together(
    RecordKind kind,
    const std::function<std::optional<std::string>(const std::string&)>& value_of) {
    // Who and when go together, and there is no reason or outcome without them.
    struct Signature {
        RecordKind kind;
        const char* by;
        const char* at;
        const char* with; // needs the signature, if there is such a field
    };
    constexpr std::array<Signature, 3> signatures{{
        {RecordKind::step, "ticked_by", "ticked_at", nullptr},
        {RecordKind::open_item, "closed_by", "closed_at", "outcome"},
        {RecordKind::sign_off, "withdrawn_by", "withdrawn_at", "withdrawn_reason"},
    }};
    for (const Signature& signature : signatures) {
        if (signature.kind != kind) continue;
        const bool by = value_of(signature.by).has_value();
        const bool at = value_of(signature.at).has_value();
        const bool with = signature.with != nullptr && value_of(signature.with).has_value();
        if (by != at || (with && !by)) {
            return Error{
                ErrorCode::missing_field, by ? signature.at : signature.by, {}, {}, {}, {}};
        }
    }
    if (kind == RecordKind::limit && !value_of("low") && !value_of("high")) {
        return Error{ErrorCode::missing_field, "low", {}, {}, {}, {}};
    }
    if (kind == RecordKind::reading && !value_of("text")) {
        const auto status = reading_status_from(value_of("status").value_or(std::string()));
        RODWAY_ASSERT(status.has_value());
        if (needs_text(*status)) return Error{ErrorCode::missing_field, "text", {}, {}, {}, {}};
    }
    return Done{};
}

} // namespace rodway
