#include "db/history_replay.h"

#include "db/record_tables.h"

namespace rodway {
namespace {

QVariant number_value(std::int64_t number) {
    return QVariant::fromValue<qlonglong>(number);
}

bool follows(const Replay& replay, const FieldRef& at, const PlayedEdit& edit) {
    if (edit.erased || replay.unknown.count(at) != 0) return true;
    const auto record = replay.records.find(at.record);
    if (record == replay.records.end()) return !edit.before;
    const auto text = record->second.find(at.field);
    return text == record->second.end() ? !edit.before : edit.before == text->second;
}

} // namespace

void play(Replay& replay, const FieldRef& at, const PlayedEdit& edit) {
    FieldTexts& texts = replay.records[at.record];
    if (edit.erased) {
        replay.unknown.insert(at);
        texts.erase(at.field);
    } else {
        replay.unknown.erase(at);
        if (edit.after) {
            texts[at.field] = *edit.after;
        } else {
            texts.erase(at.field);
        }
    }
    if (texts.empty()) replay.records.erase(at.record);
}

Result<Replay> replay_history(Connection& connection, std::int64_t build_id, std::int64_t last_act,
                              const std::function<void(const FieldRef&)>& broken) {
    Replay replay;
    std::optional<std::string> unknown_kind;
    const auto take = [&](const Row& row) {
        const auto kind = record_kind_from(row.text(0));
        if (!kind) {
            unknown_kind = row.text(0);
            return;
        }
        const FieldRef at{{*kind, row.integer(1)}, row.text(2)};
        const PlayedEdit edit{row.optional_text(3), row.optional_text(4), row.integer(5) != 0};
        if (!follows(replay, at, edit)) broken(at);
        play(replay, at, edit);
    };
    // CROSS JOIN keeps SQLite from reading all edits to find those of one build.
    const auto rows = connection.each(
        QStringLiteral("SELECT e.record_kind, e.record_id, e.field, e.before, e.after,"
                       " e.erased_digest IS NOT NULL FROM history_links l"
                       " CROSS JOIN edits e ON e.act = l.act"
                       " WHERE l.build_id = ? AND l.act <= ? AND e.build_id IS ?"
                       " ORDER BY l.act, e.ordinal"),
        {number_value(build_id), number_value(last_act),
         build_id == shop_wide ? QVariant() : number_value(build_id)},
        take);
    if (!rows) return rows.error();
    if (unknown_kind) {
        return Error{ErrorCode::damaged_file, connection.path(), *unknown_kind, {}, {}, {}};
    }
    return replay;
}

} // namespace rodway
