#include "app/work/note_acts.h"

#include <QCoreApplication>

#include "core/build/part_check.h"
#include "core/build/word_list.h"
#include "db/edits.h"
#include "db/record_fields.h"

namespace rodway {
namespace {

struct NoteActs {
    Q_DECLARE_TR_FUNCTIONS(NoteActs)
};

Result<Note> checked(Note note) {
    note.text = without_blanks(note.text);
    if (note.text.empty()) {
        return Error{ErrorCode::empty_text, "text", {}, {}, {}, {}};
    }
    if (note.text.size() > longest_note) {
        return Error{ErrorCode::wrong_type, "text", note.text, "note_shorter", {}, {}};
    }
    const auto position = kept_line(note.position.value_or(std::string()), "position");
    if (!position) {
        return position.error();
    }
    note.position = position->empty() ? std::nullopt : std::optional(*position);
    return note;
}

} // namespace

Result<std::int64_t> keep_note(ShopSession& session, const KeptAt& at, const std::string& text,
                               bool in_book) {
    Note typed;
    typed.build_id = at.build_id;
    typed.stage_id = at.stage_id;
    typed.step_id = at.step_id;
    typed.position = at.position;
    typed.text = text;
    typed.in_book = in_book;
    typed.written_by = session.who().toStdString();
    typed.written_at = session.now();
    auto note = checked(std::move(typed));
    if (!note) {
        return note.error();
    }
    Note kept = std::move(note).value();
    return session.create(
        RecordKind::note,
        [&](std::int64_t id) {
            kept.id = id;
            return edits_to_create(kept);
        },
        NoteActs::tr("note"));
}

Result<Done> change_note(ShopSession& session, const Note& before, Note after) {
    const auto note = checked(std::move(after));
    if (!note) {
        return note.error();
    }
    std::vector<Edit> edits = edits_to_change(before, *note);
    if (edits.empty()) {
        return Done{};
    }
    const auto act = session.act(std::move(edits), NoteActs::tr("change of a note"));
    return act ? Result<Done>(Done{}) : Result<Done>(act.error());
}

Result<Done> take_away(ShopSession& session, RecordRef record, const QString& what) {
    auto edits = edits_to_remove(session.shop(), record);
    if (!edits) {
        return edits.error();
    }
    const auto act = session.act(std::move(edits).value(), what);
    return act ? Result<Done>(Done{}) : Result<Done>(act.error());
}

} // namespace rodway
