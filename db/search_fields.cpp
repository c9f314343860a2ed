#include "db/search_fields.h"

#include <algorithm>

namespace rodway {
namespace {

std::vector<SearchedKind> make_kinds() {
    using K = RecordKind;
    return {
        {K::reading, 0, "quantity", {"position", "text", "note"}},
        {K::build,
         1,
         "name",
         {"job_number", "customer", "engine", "use", "fuel", "speed_range", "target_power", "scope",
          "exclusions", "state", "terms", "note"}},
        {K::customer, 2, "name", {"phone", "email", "address", "note"}},
        {K::part,
         3,
         "item",
         {"size", "marking", "position", "supplier", "order_number", "failed", "note"}},
        {K::note, 4, {}, {"text", "position", "written_by"}},
        {K::open_item,
         5,
         "title",
         {"detail", "position", "if_it_goes_wrong", "outcome", "opened_by", "closed_by"}},
        {K::decision, 6, "question", {"choice", "reason", "decided_by"}},
        {K::photo, 7, "caption", {"file_name", "position"}},
        {K::visit, 8, "reason", {"found", "done"}},
        {K::sheet, 9, "title", {"kind", "note"}},
        {K::instrument, 10, "name", {"measures", "serial_number", "note"}},
        {K::person, 11, "name", {"initials", "role", "note"}},
        {K::product, 12, "name", {"purpose", "note"}},
        {K::casting_number, 13, "number", {"position", "date_code", "note"}},
        {K::promise, 14, {}, {"reason"}},
        {K::hand_off, 15, "given_to", {"settings", "service_dates", "note"}},
        {K::set_up, 16, "name", {}},
        {K::waiver, 17, "subject", {"reason", "waived_by"}},
        {K::cure, 18, "place", {"applied_by", "note"}},
        {K::approval, 19, "subject", {"by_whom", "manner", "note"}},
        {K::worked_time, 20, "work", {}},
        {K::account_line, 21, "text", {}},
        {K::limit, 22, "quantity", {"position", "source", "note"}},
        {K::sign_off,
         23,
         "subject",
         {"value", "limit_text", "limit_source", "signed_by", "note", "withdrawn_by",
          "withdrawn_reason"}},
        {K::shop_detail, 24, "name", {"content"}},
        {K::shop_sheet_kind, 25, "title", {"word", "note"}},
        {K::shop_quantity, 26, "title", {"word", "positions"}},
        {K::known_engine, 27, "name", {"measured_by", "note"}},
    };
}

} // namespace

const std::vector<SearchedKind>& searched_kinds() {
    static const std::vector<SearchedKind> kinds = make_kinds();
    return kinds;
}

const SearchedKind* searched_kind(RecordKind kind) {
    const auto& kinds = searched_kinds();
    const auto found = std::find_if(kinds.begin(), kinds.end(),
                                    [kind](const SearchedKind& k) { return k.kind == kind; });
    return found == kinds.end() ? nullptr : &*found;
}

bool can_be_found(const FieldTexts& fields) {
    return fields.count("exists") != 0 && fields.count("erased") == 0;
}

std::optional<std::int64_t> noun_row(const RecordRef& record) {
    const SearchedKind* searched = searched_kind(record.kind);
    if (searched == nullptr || record.kind == RecordKind::reading) return std::nullopt;
    if (record.id > highest_searched_id) return std::nullopt;
    return record.id * numbers_of_kinds + searched->number;
}

std::optional<RecordRef> record_of_noun_row(std::int64_t row) {
    for (const SearchedKind& searched : searched_kinds()) {
        if (searched.kind != RecordKind::reading && searched.number == row % numbers_of_kinds) {
            return RecordRef{searched.kind, row / numbers_of_kinds};
        }
    }
    return std::nullopt;
}

} // namespace rodway
