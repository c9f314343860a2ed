#include "app/valvetrain/tube_view.h"

#include <QKeyEvent>

namespace rodway {
namespace {

constexpr double fine_cut_mm = 0.254; // a hundredth of an inch
constexpr double coarse_cut_mm = 2.54;
constexpr double fine_turn_deg = 1.0;
constexpr double coarse_turn_deg = 10.0;

} // namespace

TubeView::TubeView(QWidget* parent) : QWidget(parent) {
    setObjectName("tube");
    setAccessibleName(tr("View down the tube"));
    setFocusPolicy(Qt::StrongFocus);
    set_theme(theme_of(palette()));
}

void TubeView::set_content(const TubeContent& content) {
    content_ = content;
    // What the drawing says, for those who hear it.
    QStringList said{content.heading};
    said << (content.slices.empty() ? QStringList(content.empty_text) : content.notes);
    setAccessibleDescription(said.join(". "));
    update();
}

void TubeView::set_theme(Theme theme) {
    palette_ = palette_for(theme);
    update();
}

void TubeView::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    paint_tube(painter, rect(), content_, {palette_, font()});
    if (hasFocus()) {
        painter.setPen(QPen(palette_.accent, 2.0));
        painter.setBrush(Qt::NoBrush);
        painter.drawRect(rect().adjusted(1, 1, -1, -1));
    }
}

void TubeView::keyPressEvent(QKeyEvent* event) {
    const bool coarse = event->modifiers().testFlag(Qt::ShiftModifier);
    const double cut = coarse ? coarse_cut_mm : fine_cut_mm;
    const double turn = coarse ? coarse_turn_deg : fine_turn_deg;
    switch (event->key()) {
        case Qt::Key_Up:
            emit cut_moved(-cut);
            break;
        case Qt::Key_Down:
            emit cut_moved(cut);
            break;
        case Qt::Key_Left:
            emit crank_turned(-turn);
            break;
        case Qt::Key_Right:
            emit crank_turned(turn);
            break;
        case Qt::Key_Home:
            emit cut_back();
            break;
        default:
            QWidget::keyPressEvent(event);
    }
}

} // namespace rodway
