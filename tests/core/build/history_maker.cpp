#include "tests/core/build/history_maker.h"

#include <algorithm>

#include "core/build/utc_time.h"

namespace rodway {

std::string HistoryMaker::time_of(std::int64_t act) const {
    constexpr std::int64_t day_s = 86400;
    return utc_text(*utc_seconds("2026-03-01T12:00:00Z") + (act - 1) * day_s);
}

void HistoryMaker::begin_act(const std::string& who) {
    ++act_;
    who_ = who;
}

std::optional<std::string> HistoryMaker::stored(RecordRef record, const std::string& field) const {
    const auto found = stored_.find({record.kind, record.id});
    if (found == stored_.end()) {
        return std::nullopt;
    }
    const auto text = found->second.find(field);
    return text == found->second.end() ? std::nullopt : std::optional(text->second);
}

void HistoryMaker::set(RecordRef record, const std::string& field,
                       const std::optional<std::string>& text) {
    const auto before = stored(record, field);
    if (before == text) {
        return;
    }
    auto& fields = stored_[{record.kind, record.id}];
    if (text) {
        fields[field] = *text;
    } else {
        fields.erase(field);
    }
    changes_.push_back({act_, who_, time_of(act_), Edit{record, field, before, text}});
}

void HistoryMaker::make(RecordRef record, const std::map<std::string, std::string>& fields) {
    begin_act();
    set(record, "exists", "1");
    for (const auto& [field, text] : fields) {
        set(record, field, text);
    }
}

void HistoryMaker::remove(RecordRef record) {
    begin_act();
    const auto fields = stored_[{record.kind, record.id}];
    for (const auto& [field, text] : fields) {
        set(record, field, std::nullopt);
    }
}

bool HistoryMaker::undo(std::int64_t act) {
    std::vector<Edit> edits;
    for (const BuildChange& change : changes_) {
        if (change.act == act) {
            edits.push_back(change.edit);
        }
    }
    const bool stands =
        !edits.empty() && std::all_of(edits.begin(), edits.end(), [&](const Edit& e) {
            return stored(e.record, e.field) == e.after;
        });
    // A record goes with all its fields, or stays.
    const bool whole = std::all_of(edits.begin(), edits.end(), [&](const Edit& e) {
        const auto of_record = [&](const Edit& other) { return other.record == e.record; };
        const auto written = std::count_if(edits.begin(), edits.end(), of_record);
        return e.field != "exists" || !e.after ||
               static_cast<std::size_t>(written) == stored_.at({e.record.kind, e.record.id}).size();
    });
    if (!stands || !whole) {
        return false;
    }
    begin_act();
    for (const Edit& edit : swapped(edits)) {
        set(edit.record, edit.field, edit.after);
    }
    return true;
}

std::int64_t HistoryMaker::reading(const std::string& quantity, const std::string& position,
                                   const std::string& text, const std::string& unit) {
    const std::int64_t id = ++last_reading_;
    std::map<std::string, std::string> fields{
        {"quantity", quantity}, {"text", text}, {"unit", unit}, {"status", "measured"}};
    if (!position.empty()) {
        fields["position"] = position;
    }
    make({RecordKind::reading, id}, fields);
    return id;
}

} // namespace rodway
