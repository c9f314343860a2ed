#include "app/work/photo_acts.h"

#include <QCoreApplication>
#include <QFileInfo>

#include "app/work/picture_file.h"
#include "core/build/part_check.h"
#include "db/attachments.h"
#include "db/record_fields.h"

namespace rodway {
namespace {

struct PhotoActs {
    Q_DECLARE_TR_FUNCTIONS(PhotoActs)
};

/// Nothing is left of blanks alone.
Result<Done> tidy(std::optional<std::string>& text, const char* field) {
    const auto line = kept_line(text.value_or(std::string()), field);
    if (!line) {
        return line.error();
    }
    text = line->empty() ? std::nullopt : std::optional(*line);
    return Done{};
}

Result<Done> tidy(Photo& photo) {
    if (const auto caption = tidy(photo.caption, "caption"); !caption) {
        return caption;
    }
    return tidy(photo.position, "position");
}

Error not_shown(const QString& file, const char* expected) {
    return Error{
        ErrorCode::wrong_type, "photo", QFileInfo(file).fileName().toStdString(), expected, {}, {}};
}

} // namespace

Result<std::int64_t> keep_photo(ShopSession& session, const KeptAt& at, const QString& file) {
    Photo photo;
    photo.build_id = at.build_id;
    photo.stage_id = at.stage_id;
    photo.step_id = at.step_id;
    photo.position = at.position;
    photo.added_at = session.now();
    photo.added_by = session.who().toStdString();
    if (const auto tidied = tidy(photo); !tidied) {
        return tidied.error();
    }
    switch (picture_file(file)) {
        case PictureFile::cut_short:
            return not_shown(file, "whole_picture");
        case PictureFile::no_picture:
            return not_shown(file, "picture");
        case PictureFile::not_there:
            return not_shown(file, "file_gone");
        case PictureFile::whole:
            break;
    }
    const auto kept = keep(session.shop(), file.toStdString());
    if (!kept) {
        return kept.error();
    }
    photo.digest = kept->digest;
    photo.file_name = kept->file_name;
    return session.create(
        RecordKind::photo,
        [&](std::int64_t id) {
            photo.id = id;
            return edits_to_create(photo);
        },
        PhotoActs::tr("photo"));
}

Result<Done> change_photo(ShopSession& session, const Photo& before, Photo after) {
    if (const auto tidied = tidy(after); !tidied) {
        return tidied;
    }
    std::vector<Edit> edits = edits_to_change(before, after);
    if (edits.empty()) {
        return Done{};
    }
    const auto act = session.act(std::move(edits), PhotoActs::tr("words of a photo"));
    return act ? Result<Done>(Done{}) : Result<Done>(act.error());
}

} // namespace rodway
