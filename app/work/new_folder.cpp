#include "app/work/new_folder.h"

#include <QFileInfo>
#include <QUuid>

#include "app/work/file_bytes.h"
#include "db/attachments.h"
#include "db/durable_file.h"

namespace rodway {

NewFolder::NewFolder(const QString& target, std::string photos_name)
    : target_(QFileInfo(target).absoluteFilePath()),
      parent_(QFileInfo(target_).absolutePath()),
      photos_name_(std::move(photos_name)) {
    temporary_ =
        parent_.filePath(QStringLiteral(".rodway-") + QUuid::createUuid().toString(QUuid::Id128));
}

NewFolder::~NewFolder() {
    if (!kept_) QDir(temporary_).removeRecursively();
}

Result<Done> NewFolder::make() {
    if (QFileInfo::exists(target_) || QFileInfo(target_).isSymLink()) {
        return Error{ErrorCode::cannot_write, target_.toStdString(), "exists", {}, {}, {}};
    }
    auto step = make_folder_durably(parent_.absolutePath().toStdString(),
                                    QFileInfo(temporary_).fileName().toStdString());
    if (step) step = make_folder_durably(temporary_.toStdString(), photos_name_);
    if (step) return step;
    Error error = step.error();
    error.field = target_.toStdString();
    return error;
}

Result<Done> NewFolder::write(std::string_view name, std::string_view bytes) {
    return write_durably(path(name), bytes);
}

Result<Done> NewFolder::copy_photo(const std::string& source, const std::string& name,
                                   const std::string& digest) {
    const auto bytes = read_file(QString::fromStdString(source));
    if (!bytes) return bytes.error();
    const std::string target = path(photos_name_ + '/' + name);
    if (const auto written = write_durably(target, *bytes); !written) return written;
    const auto found = digest_of_file(target);
    if (!found) return found.error();
    if (*found == digest) return Done{};
    return Error{ErrorCode::wrong_type, source, *found, digest, {}, {}};
}

Result<QString> NewFolder::keep() {
    auto step = sync_folder(path(photos_name_));
    if (step) step = sync_folder(temporary_.toStdString());
    if (step) step = rename_to_free_name(temporary_.toStdString(), target_.toStdString());
    if (!step) return step.error();
    kept_ = true;
    return target_;
}

std::string NewFolder::path(std::string_view name) const {
    return QDir(temporary_)
        .filePath(QString::fromUtf8(name.data(), static_cast<qsizetype>(name.size())))
        .toStdString();
}

} // namespace rodway
