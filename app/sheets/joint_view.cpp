#include "app/sheets/joint_view.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <algorithm>
#include <numeric>

namespace rodway {

JointView::JointView(QWidget* parent) : QWidget(parent) {
    setObjectName("joint");
    setAccessibleName(tr("Drawing of the joint"));
    setFocusPolicy(Qt::StrongFocus);
    setAttribute(Qt::WA_OpaquePaintEvent);
}

void JointView::set_drawing(JointDrawing drawing) {
    drawing_ = std::move(drawing);
    say_selected();
    update();
}

/// What a look at the drawing tells: where the selected bolt stands, and which are missed or done
/// twice.
void JointView::say_selected() {
    QStringList said{drawing_.title};
    for (std::size_t at = 0; at < drawing_.bolts.size(); ++at) {
        const JointBolt& bolt = drawing_.bolts[at];
        for (std::size_t pass = 0; pass < bolt.passes.size(); ++pass) {
            const BoltMark mark = bolt.passes[pass];
            const bool wrong = mark != BoltMark::waiting && mark != BoltMark::done;
            if (wrong || drawing_.selected == at) {
                said << tr("bolt %1, pass %2: %3")
                            .arg(bolt.name)
                            .arg(pass + 1)
                            .arg(drawing_.mark_words[static_cast<std::size_t>(mark)]);
            }
        }
    }
    setAccessibleDescription(said.join("; "));
    setToolTip(said.join('\n'));
}

void JointView::walk(int by) {
    std::vector<std::size_t> order = drawing_.path;
    if (order.empty()) {
        order.resize(drawing_.bolts.size());
        std::iota(order.begin(), order.end(), std::size_t{0});
    }
    if (order.empty()) {
        return;
    }
    std::ptrdiff_t next = by > 0 ? 0 : static_cast<std::ptrdiff_t>(order.size()) - 1;
    if (drawing_.selected) {
        const auto here = std::find(order.begin(), order.end(), *drawing_.selected);
        next = std::clamp<std::ptrdiff_t>(here - order.begin() + by, 0,
                                          static_cast<std::ptrdiff_t>(order.size()) - 1);
    }
    drawing_.selected = order[static_cast<std::size_t>(next)];
    say_selected();
    update();
}

void JointView::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    const Palette colours = palette_for(theme_of(palette()));
    painter.fillRect(rect(), colours.paper);
    paint_joint(painter, QRectF(rect()).adjusted(3, 3, -3, -3), drawing_, colours, font(),
                hasFocus());
    if (hasFocus()) {
        painter.setPen(QPen(colours.accent, 2.0));
        painter.setBrush(Qt::NoBrush);
        painter.drawRect(rect().adjusted(1, 1, -1, -1));
    }
}

void JointView::mousePressEvent(QMouseEvent* event) {
    const auto bolt =
        bolt_at(event->position(), QRectF(rect()).adjusted(3, 3, -3, -3), drawing_, font());
    if (event->button() == Qt::LeftButton && bolt) {
        drawing_.selected = bolt;
        say_selected();
        update();
        emit bolt_chosen(static_cast<int>(*bolt));
    }
}

void JointView::keyPressEvent(QKeyEvent* event) {
    switch (event->key()) {
        case Qt::Key_Left:
        case Qt::Key_Right:
            walk(event->key() == Qt::Key_Right ? 1 : -1);
            break;
        case Qt::Key_Return:
        case Qt::Key_Enter:
        case Qt::Key_Space:
            if (drawing_.selected) {
                emit bolt_chosen(static_cast<int>(*drawing_.selected));
            }
            break;
        default:
            QWidget::keyPressEvent(event);
    }
}

void JointView::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::PaletteChange) {
        update();
    }
}

} // namespace rodway
