#pragma once

#include <QWidget>

namespace rodway {

/// Keeps its room while it is hidden, so that what stands above it stays where it is.
inline void keep_room(QWidget& widget) {
    QSizePolicy policy = widget.sizePolicy();
    policy.setRetainSizeWhenHidden(true);
    widget.setSizePolicy(policy);
}

} // namespace rodway
