#include "db/transfer_check.h"

#include <algorithm>
#include <charconv>
#include <optional>
#include <tuple>
#include <utility>

#include "db/connection.h"

namespace rodway {
namespace {

constexpr const char* exists_field = "exists";

Error wrong(ErrorCode code, std::string field, int line, std::string value = {},
            std::string expected = {}) {
    Error error{code, std::move(field), std::move(value), std::move(expected), {}, {}};
    if (line > 0) error.line = line;
    return error;
}

Error with_line(Error error, int line) {
    if (line > 0) error.line = line;
    return error;
}

std::string text_at(const FieldTexts& fields, const std::string& name) {
    const auto found = fields.find(name);
    return found == fields.end() ? std::string() : found->second;
}

/// Whether an undo must turn this field round: erased texts are left out on either side.
bool counts_for_undo(const TransferEdit& edit) {
    const auto kind = record_kind_from(edit.kind);
    const RecordField* field = kind ? find_field(table_of(*kind), edit.field) : nullptr;
    return field == nullptr || !field->personal;
}

using EditText = std::tuple<std::string, std::int64_t, std::string, std::optional<std::string>,
                            std::optional<std::string>>;

std::vector<EditText> edits_for_undo(const TransferAct& act, bool turned) {
    std::vector<EditText> all;
    all.reserve(act.edits.size());
    for (const TransferEdit& edit : act.edits) {
        if (!counts_for_undo(edit)) continue;
        all.emplace_back(edit.kind, edit.id, edit.field, turned ? edit.after : edit.before,
                         turned ? edit.before : edit.after);
    }
    if (turned) std::reverse(all.begin(), all.end());
    return all;
}

class Player {
  public:
    explicit Player(const std::vector<TransferAct>& history) : history_(history) {}

    Result<TransferContent> play() {
        for (std::size_t at = 0; at < history_.size(); ++at) {
            auto step = check_heading(at);
            for (const TransferEdit& edit : history_[at].edits) {
                if (step) step = play(edit);
            }
            if (step) step = check_owners(history_[at]);
            if (!step) return step.error();
        }
        return std::move(content_);
    }

  private:
    Result<Done> check_heading(std::size_t at) {
        const TransferAct& act = history_[at];
        if (act.edits.empty()) return wrong(ErrorCode::missing_field, "edits", act.line);
        if (act.who.empty()) return wrong(ErrorCode::empty_text, "who", act.line);
        if (!storable_text(act.who)) return wrong(ErrorCode::not_utf8, "who", act.line, act.who);
        if (!is_utc_time(act.when_utc)) {
            return wrong(ErrorCode::wrong_type, "when", act.line, act.when_utc,
                         "YYYY-MM-DDThh:mm:ssZ");
        }
        if (!act.undoes) return Done{};
        const std::string number = std::to_string(*act.undoes);
        if (*act.undoes < 1 || *act.undoes > static_cast<std::int64_t>(at)) {
            return wrong(ErrorCode::out_of_range, "undoes", act.line, number);
        }
        const TransferAct& undone = history_[static_cast<std::size_t>(*act.undoes - 1)];
        if (edits_for_undo(undone, true) != edits_for_undo(act, false)) {
            return wrong(ErrorCode::changed_since, "undoes", act.line, number);
        }
        return Done{};
    }

    /// Whether the record has the number that is its due.
    Result<Done> check_number(const RecordRef& record, const std::string& field, int line) {
        if (numbers_.given().count(record) != 0) return Done{};
        const RecordRef next{record.kind, last_[record.kind] + 1};
        if (record != next || (record.kind == RecordKind::build && record.id != 1)) {
            return wrong(ErrorCode::out_of_range, field, line, std::to_string(record.id),
                         std::to_string(next.id));
        }
        ++last_[record.kind];
        numbers_.number(record);
        return Done{};
    }

    Result<Done> check_form(const RecordRef& record, const TransferEdit& edit) {
        if (edit.field == exists_field || is_geometry_path(record.kind, edit.field)) return Done{};
        const RecordField* field = find_field(table_of(record.kind), edit.field);
        if (field == nullptr) return wrong(ErrorCode::unknown_field, edit.field, edit.line);
        for (const auto* text : {&edit.before, &edit.after}) {
            if (!*text) continue;
            if (const auto checked = check_text(*field, **text); !checked) {
                return with_line(checked.error(), edit.line);
            }
            if (!field->refers_to) continue;
            const RecordRef target{*field->refers_to, std::stoll(**text)};
            if (const auto checked = check_number(target, edit.field, edit.line); !checked) {
                return checked;
            }
            if (!is_of_a_build(target.kind)) content_.shop.insert(target);
        }
        return Done{};
    }

    Result<Done> play(const TransferEdit& edit) {
        const auto kind = record_kind_from(edit.kind);
        if (!kind || !is_of_a_build(*kind)) {
            return wrong(ErrorCode::not_a_choice, "record", edit.line, edit.kind);
        }
        const RecordRef record{*kind, edit.id};
        auto step = check_number(record, "id", edit.line);
        if (step) step = check_form(record, edit);
        if (!step) return step;
        FieldTexts& now = content_.records[record];
        const auto found = now.find(edit.field);
        const auto stored = found == now.end() ? std::nullopt : std::optional(found->second);
        if (stored != edit.before) {
            return wrong(ErrorCode::changed_since, edit.field, edit.line,
                         stored.value_or(std::string()), edit.before.value_or(std::string()));
        }
        if (edit.after) {
            now[edit.field] = *edit.after;
            note_word(*kind, edit);
            const RecordField* owner = owner_field(table_of(*kind));
            if (owner != nullptr && edit.field == owner->name) owned_.insert(record);
        } else {
            now.erase(edit.field);
        }
        if (now.empty()) content_.records.erase(record);
        return Done{};
    }

    void note_word(RecordKind kind, const TransferEdit& edit) {
        const bool sheet = kind == RecordKind::sheet && edit.field == "kind";
        const bool step = kind == RecordKind::step && edit.field == "sheet_kind";
        const bool quantity =
            (kind == RecordKind::reading || kind == RecordKind::limit) && edit.field == "quantity";
        if (sheet || step || quantity) content_.words.insert(*edit.after);
        if (kind == RecordKind::photo && edit.field == "digest") {
            content_.digests.insert(*edit.after);
        }
        if (kind == RecordKind::hand_off && edit.field == "book_digest") {
            content_.books.insert(*edit.after);
        }
    }

    /// A record that says nothing of its owner would be the whole shop's; one that never had an
    /// owner is no record of this build.
    Result<Done> check_owners(const TransferAct& act) {
        for (const TransferEdit& edit : act.edits) {
            const RecordKind kind = *record_kind_from(edit.kind);
            const RecordField* owner = owner_field(table_of(kind));
            if (owner == nullptr) continue;
            const RecordRef ref{kind, edit.id};
            const auto record = content_.records.find(ref);
            const bool is_there = record != content_.records.end();
            if (is_there ? record->second.count(std::string(owner->name)) == 0
                         : owned_.count(ref) == 0) {
                return wrong(ErrorCode::missing_field, std::string(owner->name), edit.line);
            }
        }
        return Done{};
    }

    const std::vector<TransferAct>& history_;
    TransferContent content_;
    TransferNumbers numbers_;
    std::map<RecordKind, std::int64_t> last_;
    std::set<RecordRef, ByKindAndId> owned_; ///< that have or had an owner
};

Result<Done> check_records(const std::vector<TransferRecord>& records, const RecordTexts& led_to) {
    auto wanted = led_to.begin();
    for (const TransferRecord& record : records) {
        const auto kind = record_kind_from(record.kind);
        if (!kind) return wrong(ErrorCode::not_a_choice, "record", record.line, record.kind);
        if (record.removed) return wrong(ErrorCode::unknown_field, "removed", record.line);
        if (wanted == led_to.end() || wanted->first != RecordRef{*kind, record.id}) {
            return wrong(ErrorCode::out_of_range, "id", record.line, std::to_string(record.id),
                         wanted == led_to.end() ? std::string() : std::to_string(wanted->first.id));
        }
        FieldTexts all = record.fields;
        all.insert(wanted->second.begin(), wanted->second.end());
        for (const auto& [field, unused] : all) {
            const std::string said = text_at(record.fields, field);
            const std::string played = text_at(wanted->second, field);
            if (said != played) {
                return wrong(ErrorCode::changed_since, field, record.line, said, played);
            }
        }
        ++wanted;
    }
    if (wanted == led_to.end()) return Done{};
    return wrong(ErrorCode::missing_field, "records", 0,
                 std::string(table_of(wanted->first.kind).word));
}

/// Whether the shop's records are those that the history names, and the sheets whose words it uses.
class ShopRecordsCheck {
  public:
    ShopRecordsCheck(const std::vector<TransferRecord>& records, const TransferContent& content)
        : records_(records), content_(content) {}

    Result<Done> run() {
        const TransferRecord* before = nullptr;
        for (const TransferRecord& record : records_) {
            auto step = check_place(record, before);
            if (step) step = check_use(record);
            if (!step) return step;
            before = &record;
        }
        for (const RecordRef& named : content_.shop) {
            if (found_.count(named) == 0) {
                return wrong(ErrorCode::missing_field, "shop", 0,
                             std::string(table_of(named.kind).word));
            }
        }
        return Done{};
    }

  private:
    Result<Done> check_place(const TransferRecord& record, const TransferRecord* before) {
        const auto kind = record_kind_from(record.kind);
        if (!kind || is_of_a_build(*kind) || *kind == RecordKind::shop_detail) {
            return wrong(ErrorCode::not_a_choice, "record", record.line, record.kind);
        }
        const auto kind_before = before == nullptr ? std::nullopt : record_kind_from(before->kind);
        const bool first = kind_before != kind;
        if ((kind_before && *kind < *kind_before) || record.id != (first ? 1 : before->id + 1)) {
            return wrong(ErrorCode::out_of_range, "id", record.line, std::to_string(record.id),
                         std::to_string(first ? 1 : before->id + 1));
        }
        const bool sheets =
            *kind == RecordKind::shop_sheet_kind || *kind == RecordKind::shop_quantity;
        if (sheets && !first && numbered_before(record.fields, before->fields)) {
            return wrong(ErrorCode::out_of_range, "word", record.line,
                         text_at(record.fields, "word"));
        }
        for (const auto& [name, text] : record.fields) {
            if (name == exists_field) continue;
            const RecordField* field = find_field(table_of(*kind), name);
            if (field == nullptr) return wrong(ErrorCode::unknown_field, name, record.line);
            if (const auto checked = check_text(*field, text); !checked) {
                return with_line(checked.error(), record.line);
            }
        }
        for (const RecordField& field : table_of(*kind).fields) {
            if (field.needed && record.fields.count(std::string(field.name)) == 0) {
                return wrong(ErrorCode::missing_field, std::string(field.name), record.line);
            }
        }
        found_.insert(RecordRef{*kind, record.id});
        return Done{};
    }

    bool uses(const TransferRecord& record) const {
        return content_.words.count(text_at(record.fields, "word")) != 0;
    }

    Result<Done> check_use(const TransferRecord& record) {
        const RecordKind kind = *record_kind_from(record.kind);
        bool used = content_.shop.count(RecordRef{kind, record.id}) != 0;
        if (kind == RecordKind::shop_sheet_kind) {
            used = uses(record);
            for (const TransferRecord& other : records_) {
                used =
                    used || (other.kind == table_of(RecordKind::shop_quantity).word &&
                             text_at(other.fields, "sheet_kind_id") == std::to_string(record.id) &&
                             uses(other));
            }
        } else if (kind == RecordKind::shop_quantity) {
            const std::string sheet = text_at(record.fields, "sheet_kind_id");
            used = found_.count(RecordRef{RecordKind::shop_sheet_kind, std::stoll(sheet)}) != 0;
            if (!used) {
                return wrong(ErrorCode::no_such_record, "sheet_kind_id", record.line, sheet);
            }
        }
        if (record.removed && content_.shop.count(RecordRef{kind, record.id}) == 0) {
            return wrong(ErrorCode::unknown_field, "removed", record.line);
        }
        if (used) return Done{};
        return wrong(ErrorCode::unknown_field, "shop", record.line, record.kind);
    }

    const std::vector<TransferRecord>& records_;
    const TransferContent& content_;
    std::set<RecordRef, ByKindAndId> found_;
};

/// Every photo must be named. A book may be: folders from before books went along have none.
Result<Done> check_photos(const std::vector<TransferPhoto>& photos,
                          const std::set<std::string>& digests,
                          const std::set<std::string>& books) {
    auto wanted = digests.begin();
    for (const TransferPhoto& photo : photos) {
        const bool is_wanted = wanted != digests.end() && *wanted == photo.digest;
        if (!is_wanted && books.count(photo.digest) > 0) continue;
        if (!is_wanted) {
            return wrong(ErrorCode::unknown_field, "photos", photo.line, photo.digest);
        }
        ++wanted;
    }
    if (wanted == digests.end()) return Done{};
    return wrong(ErrorCode::missing_field, "photos", 0, *wanted);
}

} // namespace

bool is_of_a_build(RecordKind kind) {
    if (kind == RecordKind::build) return true;
    const RecordField* owner = owner_field(table_of(kind));
    return owner != nullptr && is_of_a_build(*owner->refers_to);
}

std::int64_t TransferNumbers::number(const RecordRef& record) {
    const auto found = numbers_.find(record);
    if (found != numbers_.end()) return found->second;
    return numbers_[record] = ++last_[record.kind];
}

bool numbered_before(const FieldTexts& a, const FieldTexts& b) {
    const auto key = [](const FieldTexts& fields) {
        // As numbers, for "10" comes after "9".
        std::int64_t sheet = 0;
        const std::string text = text_at(fields, "sheet_kind_id");
        std::from_chars(text.data(), text.data() + text.size(), sheet);
        return std::tuple(sheet, text_at(fields, "word"), fields);
    };
    return key(a) < key(b);
}

Result<TransferContent> play_transfer(const std::vector<TransferAct>& history) {
    return Player(history).play();
}

Result<TransferContent> check_transfer(const BuildTransfer& build) {
    auto content = play_transfer(build.history);
    if (!content) return content;
    if (content->records.count(RecordRef{RecordKind::build, 1}) == 0) {
        return wrong(ErrorCode::missing_field, "build", 0);
    }
    auto step = check_records(build.records, content->records);
    if (step) step = ShopRecordsCheck(build.shop, *content).run();
    if (step) step = check_photos(build.photos, content->digests, content->books);
    if (!step) return step.error();
    return content;
}

} // namespace rodway
