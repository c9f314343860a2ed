#include "db/edits.h"

#include <algorithm>
#include <map>
#include <utility>

#include "db/connection.h"
#include "db/history.h"
#include "db/history_seal.h"
#include "db/record_rows.h"
#include "db/record_tables.h"
#include "db/search_index.h"
#include "db/typed_value_text.h"

namespace rodway {
namespace {

constexpr const char* exists_field = "exists";

struct Change {
    FieldTexts before;
    FieldTexts after;

    /// As far as anything is known of the record, before it is gone or from when it is there.
    [[nodiscard]] const FieldTexts& any() const { return before.empty() ? after : before; }
    [[nodiscard]] bool creates() const { return before.empty() && !after.empty(); }
    [[nodiscard]] bool removes() const { return !before.empty() && after.empty(); }
};

std::optional<std::string> text_at(const FieldTexts& texts, const std::string& field) {
    const auto found = texts.find(field);
    if (found == texts.end()) return std::nullopt;
    return found->second;
}

Error field_error(ErrorCode code, const std::string& field, std::string value = {},
                  std::string expected = {}) {
    return Error{code, field, std::move(value), std::move(expected), {}, {}};
}

Error changed(const std::string& field, const std::optional<std::string>& stored,
              const std::optional<std::string>& expected) {
    return field_error(ErrorCode::changed_since, field, stored.value_or(std::string()),
                       expected.value_or(std::string()));
}

Result<Done> check_geometry(const Edit& edit) {
    if (!storable_text(edit.field)) return field_error(ErrorCode::not_utf8, edit.field);
    if (!edit.after) return Done{};
    const auto typed = typed_value_from(*edit.after);
    if (!typed) {
        Error error = typed.error();
        error.field = edit.field;
        return error;
    }
    // Each part by itself, for each has a column of its own.
    if (!storable_text(typed->text) || !storable_text(typed->unit)) {
        return field_error(ErrorCode::not_utf8, edit.field, *edit.after);
    }
    return Done{};
}

/// Whether the edit names a field that may be edited, and a text that the field can hold.
Result<Done> check_edit(const Edit& edit) {
    if (edit.record.id < 1) {
        return field_error(ErrorCode::out_of_range, "id", std::to_string(edit.record.id));
    }
    if (edit.field == exists_field) {
        if (!edit.after || *edit.after == "1") return Done{};
        return field_error(ErrorCode::not_a_choice, edit.field, *edit.after, "1");
    }
    if (is_geometry_path(edit.record.kind, edit.field)) return check_geometry(edit);
    const RecordField* field = find_field(table_of(edit.record.kind), edit.field);
    if (field == nullptr) return field_error(ErrorCode::unknown_field, edit.field);
    return edit.after ? check_text(*field, *edit.after) : Done{};
}

/// One act on its way into the file, inside a write transaction.
class ActWriter {
  public:
    ActWriter(Connection& connection, Act& act) : connection_(connection), act_(act) {}

    Result<Done> write() {
        auto step = compare();
        if (step) step = check();
        if (step) step = write_records();
        if (step) step = write_search();
        if (step) step = write_history();
        return step;
    }

  private:
    /// Follows the edits one by one from what is stored.
    Result<Done> compare() {
        for (const Edit& edit : act_.edits) {
            if (auto checked = check_edit(edit); !checked) return checked;
            if (changes_.count(edit.record) == 0) {
                auto stored = stored_fields(connection_, edit.record);
                if (!stored) return stored.error();
                changes_[edit.record] = Change{*stored, *stored};
            }
            FieldTexts& now = changes_[edit.record].after;
            const auto found = text_at(now, edit.field);
            if (found != edit.before) return changed(edit.field, found, edit.before);
            if (edit.after) {
                now[edit.field] = *edit.after;
            } else {
                now.erase(edit.field);
            }
        }
        return Done{};
    }

    Result<Done> check() {
        for (const auto& [record, change] : changes_) {
            auto checked = check_existence(record, change);
            if (checked && !change.after.empty()) checked = check_fields(record, change);
            if (!checked) return checked;
        }
        return Done{};
    }

    Result<Done> check_existence(const RecordRef& record, const Change& change) {
        if (change.after.count(exists_field) == 0 && !change.after.empty()) {
            const auto& [field, value] = *change.after.begin();
            // Of a record that is being removed, this is a field which the remover didn't know of.
            if (!change.before.empty()) return changed(field, value, std::nullopt);
            return field_error(ErrorCode::no_such_record, field, value);
        }
        if (!change.creates() || act_.undoes) return Done{};
        const auto earlier = connection_.single(
            QStringLiteral("SELECT 1 FROM edits WHERE record_kind = ? AND record_id = ? LIMIT 1"),
            {to_variant(std::string(table_of(record.kind).word)),
             QVariant::fromValue<qlonglong>(record.id)});
        if (!earlier) return earlier.error();
        // A second record under an old id would run two histories together.
        if (earlier->isValid()) return changed(exists_field, "removed", std::nullopt);
        return Done{};
    }

    Result<Done> check_fields(const RecordRef& record, const Change& change) {
        for (const RecordField& field : table_of(record.kind).fields) {
            const std::string name(field.name);
            const auto wanted = text_at(change.after, name);
            if (!wanted && field.needed) return field_error(ErrorCode::missing_field, name);
            if (wanted == text_at(change.before, name)) continue;
            if (field.fixed && !change.creates()) {
                return field_error(ErrorCode::unknown_field, name, wanted.value_or(std::string()),
                                   "fixed");
            }
            if (!wanted || !field.refers_to) continue;
            auto checked = check_reference(record, field, *wanted);
            if (!checked) return checked;
        }
        return check_together(record.kind, [&change](const std::string& name) {
            return text_at(change.after, name);
        });
    }

    Result<Done> check_reference(const RecordRef& record, const RecordField& field,
                                 const std::string& id) {
        const RecordRef target{*field.refers_to, std::stoll(id)};
        bool there = false;
        if (const auto touched = changes_.find(target); touched != changes_.end()) {
            there = !touched->second.after.empty();
        } else {
            const auto stored = stored_fields(connection_, target);
            if (!stored) return stored.error();
            there = !stored->empty();
        }
        bool other_build = false;
        if (there) {
            const auto own = build_of(record);
            const auto theirs = build_of(target);
            if (!own || !theirs) return own ? theirs.error() : own.error();
            other_build = *theirs != shop_wide && *own != *theirs;
        }
        if (!there || other_build) {
            return field_error(ErrorCode::no_such_record, std::string(field.name), id);
        }
        return Done{};
    }

    /// The build that a record belongs to, by way of its owner; `shop_wide` if to none.
    Result<std::int64_t> build_of(const RecordRef& record) {
        if (record.kind == RecordKind::build) return std::int64_t{record.id};
        const RecordField* owner = owner_field(table_of(record.kind));
        if (owner == nullptr) return std::int64_t{shop_wide};
        FieldTexts fields;
        if (const auto touched = changes_.find(record); touched != changes_.end()) {
            fields = touched->second.any();
        } else {
            auto stored = stored_fields(connection_, record);
            if (!stored) return stored.error();
            fields = std::move(stored).value();
        }
        const auto id = text_at(fields, std::string(owner->name));
        if (!id) return std::int64_t{shop_wide};
        return build_of(RecordRef{*owner->refers_to, std::stoll(*id)});
    }

    /// Owners come before what they own, and go after it: the map is in that order.
    Result<Done> write_records() {
        for (const auto& [record, change] : changes_) {
            if (!change.creates()) continue;
            auto written = insert_record(connection_, record, change.after);
            if (!written) return written;
        }
        for (const auto& [record, change] : changes_) {
            if (change.before.empty() || change.after.empty()) continue;
            auto written = update_record(connection_, record, change.before, change.after);
            if (!written) return written;
        }
        for (auto at = changes_.rbegin(); at != changes_.rend(); ++at) {
            if (!at->second.removes()) continue;
            const auto dependant = dependant_of(connection_, at->first);
            if (!dependant) return dependant.error();
            if (*dependant) {
                const std::string word(table_of((*dependant)->kind).word);
                return changed(exists_field, word + ' ' + std::to_string((*dependant)->id),
                               std::nullopt);
            }
            auto written = remove_record(connection_, at->first);
            if (!written) return written;
        }
        return Done{};
    }

    Result<Done> write_search() {
        std::vector<SearchedChange> changes;
        changes.reserve(changes_.size());
        for (const auto& [record, change] : changes_) {
            changes.push_back({record, change.before, change.after});
        }
        return update_search(connection_, changes);
    }

    Result<Done> write_history() {
        const QByteArray salt = new_salt();
        const QVariant undoes =
            act_.undoes ? QVariant::fromValue<qlonglong>(*act_.undoes) : QVariant();
        const auto number = connection_.single(
            QStringLiteral("INSERT INTO acts (who, when_utc, undoes, salt) VALUES (?, ?, ?, ?)"
                           " RETURNING number"),
            {to_variant(act_.who), to_variant(act_.when_utc), undoes, salt});
        if (!number) return number.error();
        act_.number = number->toLongLong();
        ActSeal seal(act_.number, act_.who, act_.when_utc, act_.undoes);
        std::map<RecordRef, std::int64_t, ByKindAndId> builds;
        int ordinal = 0;
        for (const Edit& edit : act_.edits) {
            if (builds.count(edit.record) == 0) {
                const auto build = build_of(edit.record);
                if (!build) return build.error();
                builds[edit.record] = *build;
            }
            const std::int64_t build_id = builds[edit.record];
            seal.add(build_id,
                     {edit.record, edit.field,
                      digest_of_edit(salt_of_edit(salt, ordinal), edit.before, edit.after)});
            auto written = write_edit(edit, build_id, ordinal++);
            if (!written) return written;
        }
        return write_links(connection_, act_.number, seal);
    }

    Result<Done> write_edit(const Edit& edit, std::int64_t build_id, int ordinal) {
        return connection_.run(
            QStringLiteral("INSERT INTO edits (act, ordinal, build_id, record_kind, record_id,"
                           " field, before, after) VALUES (?, ?, ?, ?, ?, ?, ?, ?)"),
            {QVariant::fromValue<qlonglong>(act_.number), ordinal,
             build_id == shop_wide ? QVariant() : QVariant::fromValue<qlonglong>(build_id),
             to_variant(std::string(table_of(edit.record.kind).word)),
             QVariant::fromValue<qlonglong>(edit.record.id), to_variant(edit.field),
             to_variant(edit.before), to_variant(edit.after)});
    }

    Connection& connection_;
    Act& act_;
    std::map<RecordRef, Change, ByKindAndId> changes_;
};

Result<Done> check_heading(const Act& act) {
    if (act.edits.empty()) return field_error(ErrorCode::missing_field, "edits");
    if (act.who.empty()) return field_error(ErrorCode::empty_text, "who");
    if (!storable_text(act.who)) return field_error(ErrorCode::not_utf8, "who", act.who);
    if (!is_utc_time(act.when_utc)) {
        return field_error(ErrorCode::wrong_type, "when_utc", act.when_utc, "YYYY-MM-DDThh:mm:ssZ");
    }
    return Done{};
}

} // namespace

Result<Done> apply_within(ShopFile& shop, Act& act) {
    if (const auto checked = check_heading(act); !checked) return checked;
    if (act.undoes) {
        const auto undone = undone_by(shop, *act.undoes);
        if (!undone) return undone.error();
        if (*undone) return changed("act", std::to_string(**undone), std::nullopt);
    }
    return ActWriter(shop.connection(), act).write();
}

Result<std::vector<Act>> apply_all(ShopFile& shop, std::vector<Act> acts) {
    if (const auto there = shop.still_there(); !there) return there.error();
    auto begun = Transaction::begin(shop.connection(), Transaction::Kind::write);
    if (!begun) return begun.error();
    Transaction transaction = std::move(begun).value();
    std::map<std::int64_t, std::int64_t> numbers; // as given -> as written
    for (Act& act : acts) {
        const std::int64_t given = act.number;
        if (act.undoes) {
            const auto written = numbers.find(*act.undoes);
            if (written != numbers.end()) act.undoes = written->second;
        }
        if (const auto written = apply_within(shop, act); !written) return written.error();
        numbers[given] = act.number;
    }
    if (const auto committed = transaction.commit(); !committed) return committed.error();
    return acts;
}

Result<Act> apply(ShopFile& shop, std::vector<Edit> edits, const std::string& who,
                  const std::string& when_utc) {
    const auto acts = apply_all(shop, {Act{0, who, when_utc, std::nullopt, std::move(edits)}});
    if (!acts) return acts.error();
    return acts->front();
}

Result<Act> undo(ShopFile& shop, std::int64_t act, const std::string& who,
                 const std::string& when_utc) {
    const auto done = load_act(shop, act);
    if (!done) return done.error();
    for (const Edit& edit : done->edits) {
        if (edit.erased) return field_error(ErrorCode::erased_text, edit.field);
    }
    const auto acts = apply_all(shop, {Act{0, who, when_utc, act, swapped(done->edits)}});
    if (!acts) return acts.error();
    return acts->front();
}

Result<std::vector<Edit>> edits_to_remove(ShopFile& shop, RecordRef record) {
    const auto fields = stored_fields(shop.connection(), record);
    if (!fields) return fields.error();
    if (fields->empty()) {
        return field_error(ErrorCode::no_such_record, exists_field, std::to_string(record.id));
    }
    std::vector<Edit> edits;
    for (const auto& [field, value] : *fields) edits.push_back({record, field, value, {}});
    return edits;
}

} // namespace rodway
