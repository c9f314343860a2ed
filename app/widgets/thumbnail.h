#pragma once

#include <QIcon>
#include <QImage>
#include <QString>

namespace rodway {

/// A picture file made small, turned as the camera was; no picture if it can't be read. May be
/// called on any thread.
[[nodiscard]] QImage small_picture(const QString& file, int side_px);

/// The same to show.
[[nodiscard]] QIcon thumbnail(const QString& file, int side_px);

} // namespace rodway
