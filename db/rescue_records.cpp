#include "db/rescue_records.h"

#include <algorithm>
#include <iterator>
#include <optional>
#include <string>
#include <utility>

#include "db/record_tables.h"
#include "db/typed_value_text.h"

namespace rodway {
namespace {

std::optional<RecordRef> reference_in(const RecordField& field, const FieldTexts& texts) {
    const auto found = texts.find(std::string(field.name));
    if (!field.refers_to || found == texts.end() || !check_text(field, found->second)) {
        return std::nullopt;
    }
    return RecordRef{*field.refers_to, std::stoll(found->second)};
}

bool may_hold(RecordKind kind, const std::string& field, const std::string& text) {
    if (field == "exists") return text == "1";
    if (is_geometry_path(kind, field)) {
        return storable_text(field) && storable_text(text) && typed_value_from(text);
    }
    const RecordField* const known = find_field(table_of(kind), field);
    return known != nullptr && check_text(*known, text);
}

/// Chooses the texts of each record, then lets go of what refers to nothing.
class Settling {
  public:
    Settling(const RescuedRows& rows, const RescuedHistory& history,
             const std::function<bool(std::int64_t)>& sealed)
        : rows_(rows), history_(history), sealed_(sealed) {}

    SettledRecords settle() {
        RecordTexts all = rows_.records;
        all.insert(history_.replay.records.begin(), history_.replay.records.end());
        for (const auto& [ref, unused] : all) choose(ref);
        while (let_go()) {
        }
        SettledRecords settled;
        settled.records = std::move(records_);
        for (auto& [ref, notes] : notes_) {
            settled.notes.insert(settled.notes.end(), notes.begin(), notes.end());
        }
        return settled;
    }

  private:
    void tell(RescueCode code, const RecordRef& ref, const std::string& field = {}) {
        notes_[ref].push_back({code, ref, field});
    }

    static const FieldTexts& texts_of(const RecordTexts& all, const RecordRef& ref) {
        static const FieldTexts nothing;
        const auto found = all.find(ref);
        return found == all.end() ? nothing : found->second;
    }

    void choose(const RecordRef& ref) {
        const FieldTexts& stored = texts_of(rows_.records, ref);
        const FieldTexts& played = texts_of(history_.replay.records, ref);
        if (has_sealed_history(ref)) {
            choose_history(ref, stored, played);
        } else if (stored.empty() && rows_.whole.count(ref.kind) != 0) {
            tell(RescueCode::no_row, ref);
        } else if (stored.empty()) {
            keep(ref, played, RescueCode::replayed);
        } else {
            choose_row(ref, stored, played);
        }
    }

    /// A damaged edit may have lost its record's owner or tell of another record: whose seals must
    /// hold is said by all of its edits and by the row, not by the owner that they lead to.
    [[nodiscard]] bool has_sealed_history(const RecordRef& ref) const {
        std::set<std::int64_t> builds;
        if (const auto at = history_.chains.find(ref); at != history_.chains.end()) {
            builds = at->second;
        }
        if (rows_.records.count(ref) != 0) builds.insert(build_in(rows_.records, ref));
        return std::all_of(builds.begin(), builds.end(), sealed_);
    }

    /// The row only knows what was erased from the history.
    void choose_history(const RecordRef& ref, const FieldTexts& stored, const FieldTexts& played) {
        FieldTexts texts = played;
        for (const auto& [field, text] : stored) {
            if (history_.replay.unknown.count({ref, field}) != 0) texts.emplace(field, text);
        }
        if (texts == stored) {
            keep(ref, texts, std::nullopt);
        } else if (played.empty()) {
            tell(RescueCode::without_history, ref);
        } else {
            keep(ref, texts, RescueCode::replayed);
        }
    }

    void choose_row(const RecordRef& ref, const FieldTexts& stored, const FieldTexts& played) {
        FieldTexts texts;
        bool filled = false;
        for (const auto& [field, text] : stored) {
            if (may_hold(ref.kind, field, text)) texts.emplace(field, text);
        }
        for (const auto& [field, text] : played) {
            const bool unread = stored.count(field) != 0 ||
                                (!rows_.geometry_whole && is_geometry_path(ref.kind, field));
            if (unread && texts.emplace(field, text).second) filled = true;
        }
        bool differs = filled;
        for (const auto& [field, text] : texts) {
            const auto found = played.find(field);
            const bool same = found != played.end() && found->second == text;
            if (!same && history_.replay.unknown.count({ref, field}) == 0) differs = true;
        }
        for (const auto& [field, unused] : played) differs = differs || texts.count(field) == 0;
        differs = differs || texts.size() < stored.size();
        keep(ref, texts,
             filled    ? std::optional(RescueCode::replayed)
             : differs ? std::optional(RescueCode::differs)
                       : std::nullopt);
    }

    /// As far as its fields can stand in a record at all.
    void keep(const RecordRef& ref, const FieldTexts& wanted, std::optional<RescueCode> code) {
        FieldTexts texts{{"exists", "1"}};
        for (const auto& [field, text] : wanted) {
            if (may_hold(ref.kind, field, text)) texts.emplace(field, text);
        }
        for (const RecordField& field : table_of(ref.kind).fields) {
            if (field.needed && texts.count(std::string(field.name)) == 0) {
                tell(RescueCode::lost, ref, std::string(field.name));
                return;
            }
        }
        const auto together = check_together(ref.kind, [&texts](const std::string& name) {
            const auto found = texts.find(name);
            return found == texts.end() ? std::nullopt : std::optional(found->second);
        });
        if (!together) {
            tell(RescueCode::lost, ref, together.error().field);
            return;
        }
        if (code) tell(*code, ref);
        records_.emplace(ref, std::move(texts));
    }

    /// The build that a record belongs to by way of its owners among those.
    [[nodiscard]] static std::int64_t build_in(const RecordTexts& records, RecordRef ref) {
        for (;;) {
            if (ref.kind == RecordKind::build) return ref.id;
            const RecordField* const owner = owner_field(table_of(ref.kind));
            const auto found = records.find(ref);
            if (owner == nullptr || found == records.end()) return shop_wide;
            const auto above = reference_in(*owner, found->second);
            if (!above) return shop_wide;
            ref = *above;
        }
    }

    /// Whether the record that is referred to is there, and of the same build.
    [[nodiscard]] bool holds(const RecordRef& ref, const RecordRef& target) const {
        if (records_.count(target) == 0) return false;
        const std::int64_t theirs = build_in(records_, target);
        return theirs == shop_wide || theirs == build_in(records_, ref);
    }

    /// One pass; whether anything went.
    bool let_go() {
        bool went = false;
        for (auto at = records_.begin(); at != records_.end();) {
            auto& [ref, texts] = *at;
            bool stays = true;
            for (const RecordField& field : table_of(ref.kind).fields) {
                const auto target = reference_in(field, texts);
                if (!target || holds(ref, *target)) continue;
                const std::string name(field.name);
                went = true;
                if (records_.count(*target) == 0 && notes_.count(*target) == 0) {
                    tell(RescueCode::lost, *target);
                }
                // A limit of a lost build must not become one of the whole shop.
                stays = stays && !field.needed && &field != owner_field(table_of(ref.kind));
                if (!stays) {
                    tell(RescueCode::left_out, ref, name);
                    break;
                }
                tell(RescueCode::unlinked, ref, name);
                texts.erase(name);
            }
            at = stays ? std::next(at) : records_.erase(at);
        }
        return went;
    }

    const RescuedRows& rows_;
    const RescuedHistory& history_;
    const std::function<bool(std::int64_t)>& sealed_;
    RecordTexts records_;
    std::map<RecordRef, std::vector<RescueNote>, ByKindAndId> notes_;
};

} // namespace

std::int64_t RescuedHistory::build_of(RecordRef record) const {
    // A damaged history may lead round in a circle.
    for (int steps = 0; steps < 4; ++steps) {
        if (record.kind == RecordKind::build) return record.id;
        const auto above = owners.find(record);
        if (above == owners.end()) return shop_wide;
        record = above->second;
    }
    return shop_wide;
}

RescuedHistory replay_rows(const RescuedRows& rows) {
    RescuedHistory history;
    for (const auto& [at, edit] : rows.edits) {
        const auto kind = record_kind_from(edit.record_kind);
        if (!kind || edit.record_id < 1) continue;
        const RecordRef ref{*kind, edit.record_id};
        play(history.replay, {ref, edit.field},
             {edit.before, edit.after, !edit.erased_digest.isEmpty()});
        history.chains[ref].insert(edit.build_id.value_or(shop_wide));
        const RecordField* const owner = owner_field(table_of(*kind));
        if (owner == nullptr || owner->name != edit.field || !edit.after) continue;
        if (const auto above = reference_in(*owner, {{edit.field, *edit.after}})) {
            history.owners.insert_or_assign(ref, *above);
        }
    }
    return history;
}

SettledRecords settle_records(const RescuedRows& rows, const RescuedHistory& history,
                              const std::function<bool(std::int64_t)>& sealed) {
    return Settling(rows, history, sealed).settle();
}

} // namespace rodway
