#pragma once

#include <QString>
#include <QStringList>

namespace rodway {

enum class PictureFile {
    whole,
    cut_short,  ///< begins as a picture and has no end: still being copied, or damaged
    no_picture, ///< nothing that can be shown
    not_there,  ///< no such file, or it can't be read
};

/// How a picture's file stands. JPEG and PNG are followed to their end; of other kinds what can be
/// read counts as whole.
[[nodiscard]] PictureFile picture_file(const QString& path);

/// Endings of files that can be shown as pictures, in small letters: "jpg".
[[nodiscard]] const QStringList& picture_suffixes();

/// "Pictures (*.jpg …)", for asking for files.
[[nodiscard]] QString picture_filter();

} // namespace rodway
