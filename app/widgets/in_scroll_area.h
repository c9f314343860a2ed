#pragma once

#include <QScrollArea>

namespace rodway {

/// Lets a page be larger than the room it has: it scrolls where it must and fills the room where it
/// can. The keyboard's focus is scrolled into sight; the area itself doesn't take it.
[[nodiscard]] inline QScrollArea* in_scroll_area(QWidget* page) {
    auto* area = new QScrollArea;
    area->setWidgetResizable(true);
    area->setFrameShape(QFrame::NoFrame);
    area->setFocusPolicy(Qt::NoFocus);
    area->setWidget(page);
    return area;
}

} // namespace rodway
