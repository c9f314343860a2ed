#pragma once

#include <QIcon>
#include <QString>

namespace rodway {

/// A picture file made small, turned as the camera was; no picture if it can't be read.
[[nodiscard]] QIcon thumbnail(const QString& file, int side_px);

} // namespace rodway
