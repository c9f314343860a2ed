#include "app/work/sheet_remarks.h"
#include "app/work/given.h"

#include <QCoreApplication>
#include <QImageReader>
#include <algorithm>

#include "db/attachments.h"
#include "db/build_records.h"
#include "db/photo_store.h"

namespace rodway {
namespace {

struct Remarks {
    Q_DECLARE_TR_FUNCTIONS(Remarks)
};

/// Creates a record that belongs to a sheet, and in the same act the sheet if there is none.
Result<std::int64_t> create_beside_sheet(
    ShopSession& session, RecordKind kind, const RemarkPlace& place, const QString& what,
    const std::function<std::vector<Edit>(std::int64_t id, std::int64_t sheet_id)>& make) {
    const auto there = sheet_remarks(session.shop(), place.build_id, place.kind);
    if (!there) {
        return there.error();
    }
    return session.create(
        kind,
        [&](std::int64_t id) {
            if (there->sheet_id) {
                return make(id, *there->sheet_id);
            }
            // While the file can't say which is free, any will do: both get theirs later.
            const auto free = new_id(session.shop(), RecordKind::sheet);
            Sheet sheet;
            sheet.id = free ? *free : id;
            sheet.build_id = place.build_id;
            sheet.kind = place.kind;
            sheet.opened_at = session.now();
            std::vector<Edit> edits = edits_to_create(sheet);
            const std::vector<Edit> own = make(id, sheet.id);
            edits.insert(edits.end(), own.begin(), own.end());
            return edits;
        },
        what);
}

} // namespace

Result<SheetRemarks> sheet_remarks(ShopFile& shop, std::int64_t build_id, const std::string& kind) {
    const auto sheets = load_records<Sheet>(shop, build_id);
    if (!sheets) {
        return sheets.error();
    }
    const auto notes = load_records<Note>(shop, build_id);
    if (!notes) {
        return notes.error();
    }
    const auto pictures = photos(shop, build_id);
    if (!pictures) {
        return pictures.error();
    }
    SheetRemarks remarks;
    for (const Sheet& sheet : *sheets) {
        if (sheet.kind == kind) {
            remarks.sheet_id = sheet.id;
        }
    }
    const auto belongs = [&](std::optional<std::int64_t> sheet_id) {
        return std::any_of(sheets->begin(), sheets->end(), [&](const Sheet& sheet) {
            return sheet.kind == kind && sheet_id == sheet.id;
        });
    };
    std::copy_if(notes->begin(), notes->end(), std::back_inserter(remarks.notes),
                 [&](const Note& note) { return belongs(note.sheet_id); });
    std::copy_if(pictures->begin(), pictures->end(), std::back_inserter(remarks.photos),
                 [&](const Photo& photo) { return belongs(photo.sheet_id); });
    return remarks;
}

Result<std::int64_t> keep_sheet_note(ShopSession& session, const RemarkPlace& place,
                                     const std::string& text) {
    if (QString::fromStdString(text).trimmed().isEmpty()) {
        return Error{ErrorCode::empty_text, "text", text, {}, {}, {}};
    }
    return create_beside_sheet(session, RecordKind::note, place, Remarks::tr("note"),
                               [&](std::int64_t id, std::int64_t sheet_id) {
                                   Note note;
                                   note.id = id;
                                   note.build_id = place.build_id;
                                   note.sheet_id = sheet_id;
                                   note.position = given(place.position);
                                   note.text = text;
                                   note.written_by = session.who().toStdString();
                                   note.written_at = session.now();
                                   return edits_to_create(note);
                               });
}

Result<std::int64_t> keep_sheet_photo(ShopSession& session, const RemarkPlace& place,
                                      const QString& file) {
    if (!QImageReader(file).canRead()) {
        return Error{ErrorCode::not_a_choice, "photo", file.toStdString(), "jpg png", {}, {}};
    }
    const auto kept = keep(session.shop(), file.toStdString());
    if (!kept) {
        return kept.error();
    }
    return create_beside_sheet(session, RecordKind::photo, place, Remarks::tr("photo"),
                               [&](std::int64_t id, std::int64_t sheet_id) {
                                   Photo photo;
                                   photo.id = id;
                                   photo.build_id = place.build_id;
                                   photo.sheet_id = sheet_id;
                                   photo.position = given(place.position);
                                   photo.digest = kept->digest;
                                   photo.file_name = kept->file_name;
                                   photo.added_at = session.now();
                                   photo.added_by = session.who().toStdString();
                                   return edits_to_create(photo);
                               });
}

} // namespace rodway
