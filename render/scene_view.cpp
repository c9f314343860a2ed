#include "render/scene_view.h"

#include <QApplication>
#include <QHelpEvent>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QToolTip>
#include <QWheelEvent>
#include <cmath>

namespace rodway {
namespace {

constexpr int still_after_ms = 200;
constexpr double degrees_per_pixel = 0.35;
constexpr double key_turn_deg = 6.0;
constexpr double key_move_px = 40.0;
constexpr double key_zoom = 1.2;
constexpr double key_section_mm = 1.0;

} // namespace

SceneView::SceneView(Result<std::unique_ptr<Renderer>> renderer, QWidget* parent)
    : QWidget(parent) {
    if (renderer) {
        renderer_ = std::move(renderer).value();
    }
    frame_.palette = palette_for(theme_of(palette()));
    frame_.smooth = true;
    setFocusPolicy(Qt::StrongFocus);
    setAttribute(Qt::WA_OpaquePaintEvent);
    still_.setSingleShot(true);
    still_.setInterval(still_after_ms);
    connect(&still_, &QTimer::timeout, this, [this] {
        frame_.smooth = true;
        out_of_date_ = true;
        update();
    });
}

SceneView::~SceneView() = default;

PictureSize SceneView::pixels() const {
    const double ratio = devicePixelRatioF();
    return {std::max(1, static_cast<int>(std::lround(width() * ratio))),
            std::max(1, static_cast<int>(std::lround(height() * ratio)))};
}

void SceneView::moved() {
    frame_.smooth = false;
    out_of_date_ = true;
    still_.start();
    update();
}

void SceneView::set_scene(std::shared_ptr<const Scene> scene) {
    frame_.scene = std::move(scene);
    if (frame_.scene && !framed_) {
        frame_all();
        framed_ = true;
    }
    moved();
}

void SceneView::set_crank(CrankAngle crank) {
    frame_.crank = crank;
    moved();
}

void SceneView::set_show(const SceneShow& show) {
    frame_.show = show;
    moved();
}

void SceneView::set_camera(const Camera& camera) {
    framed_ = true;
    frame_.camera = camera;
    moved();
}

void SceneView::set_theme(Theme theme) {
    frame_.palette = palette_for(theme);
    moved();
}

void SceneView::set_closest(const ValvePosition& valve, const QString& label, const Vec3& p_rod_E,
                            const Vec3& p_wall_E) {
    closest_ = ClosestSpot{valve, label, p_rod_E, p_wall_E};
    setAccessibleDescription(label);
    moved();
}

void SceneView::clear_closest() {
    closest_.reset();
    setAccessibleDescription({});
    moved();
}

void SceneView::set_lens_shown(bool shown) {
    lens_shown_ = shown;
    moved();
}

void SceneView::set_no_graphics_text(const QString& text) {
    no_graphics_text_ = text;
    if (!renderer_) {
        setAccessibleDescription(text);
    }
    update();
}

void SceneView::set_front_label(const QString& label) {
    front_label_ = label;
    update();
}

void SceneView::set_description(std::function<QString(const Picked&)> describe) {
    describe_ = std::move(describe);
}

std::optional<PictureRequest> SceneView::picture(PictureSize size) const {
    if (!frame_.scene) {
        return std::nullopt;
    }
    PictureRequest request;
    request.frame = frame_;
    request.frame.size = size;
    request.frame.smooth = true;
    request.closest = closest_;
    request.lens = lens_shown_;
    request.front_label = front_label_;
    return request;
}

void SceneView::change_camera(const Camera& camera) {
    set_camera(camera);
    emit camera_changed();
}

void SceneView::frame_all() {
    if (frame_.scene) {
        Camera camera = frame_.camera;
        camera.perspective = true;
        camera.roll_deg = 0.0;
        change_camera(framed(camera, frame_.scene->outline_E(), pixels()));
    }
}

void SceneView::frame_valve(const ValvePosition& valve) {
    if (frame_.scene) {
        Camera camera = frame_.camera;
        camera.perspective = true;
        camera.roll_deg = 0.0;
        change_camera(framed(camera, frame_.scene->outline_E(valve), pixels()));
    }
}

void SceneView::look_along_rod(const ValvePosition& valve) {
    if (frame_.scene) {
        if (const std::optional<Segment> rod = frame_.scene->rod_E(valve, frame_.crank)) {
            change_camera(along_rod(frame_.camera, *rod));
        }
    }
}

void SceneView::look_from(Look look, const std::optional<ValvePosition>& valve) {
    if (frame_.scene) {
        change_camera(looked_at(*frame_.scene, look, valve, frame_.crank, pixels()));
    }
}

void SceneView::render_picture() {
    out_of_date_ = false;
    frame_.size = pixels();
    picture_ = {};
    lens_picture_ = {};
    const Result<QImage> drawn = renderer_->draw(frame_);
    if (!drawn) {
        // The context was lost: no picture from here on, and the words say so.
        renderer_.reset();
        setAccessibleDescription(no_graphics_text_);
        return;
    }
    picture_ = *drawn;
    picture_.setDevicePixelRatio(devicePixelRatioF());
    if (closest_ && lens_shown_) {
        const double side = lens_place(QSizeF(size()), {}).width() * devicePixelRatioF();
        lens_frame_ =
            lens_frame(frame_, *closest_, std::max(1, static_cast<int>(std::lround(side))));
        if (const Result<QImage> lens = renderer_->draw(lens_frame_)) {
            lens_picture_ = *lens;
        }
    }
}

void SceneView::paint_text(QPainter& painter, const QString& text) const {
    painter.setPen(frame_.palette.ink);
    painter.drawText(rect().adjusted(24, 24, -24, -24), Qt::AlignCenter | Qt::TextWordWrap, text);
}

void SceneView::paint_notes(QPainter& painter) {
    const double ratio = devicePixelRatioF();
    paint_states(painter, frame_, ratio);
    paint_front(painter, frame_, front_label_, ratio);
    if (!closest_) {
        return;
    }
    paint_closest(painter, frame_, *closest_, ratio);
    if (!lens_picture_.isNull()) {
        const std::optional<PicturePoint> at =
            projected(frame_.camera, frame_.size, closest_->p_rod_E);
        const QPointF spot = at ? QPointF(at->x, at->y) / ratio : QPointF();
        paint_lens(painter, lens_place(QSizeF(size()), spot), lens_picture_, lens_frame_,
                   *closest_);
    }
}

bool SceneView::event(QEvent* event) {
    if (event->type() == QEvent::ToolTip && describe_) {
        const auto* help = static_cast<QHelpEvent*>(event);
        const std::optional<Picked> picked = part_at(help->pos(), 2.0);
        const QString text = picked ? describe_(*picked) : QString();
        QToolTip::showText(help->globalPos(), text, this);
        return true;
    }
    return QWidget::event(event);
}

std::optional<Picked> SceneView::part_at(const QPointF& place, double reach) {
    if (!renderer_ || !frame_.scene) {
        return std::nullopt;
    }
    frame_.size = pixels();
    const double ratio = devicePixelRatioF();
    return renderer_->pick(frame_, static_cast<int>(place.x() * ratio),
                           static_cast<int>(place.y() * ratio), static_cast<int>(reach * ratio));
}

void SceneView::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    if (renderer_ && frame_.scene && out_of_date_) {
        render_picture();
    }
    if (!renderer_ || picture_.isNull() || !frame_.scene) {
        painter.fillRect(rect(), frame_.palette.paper);
        if (!renderer_) {
            paint_text(painter, no_graphics_text_);
        }
    } else {
        painter.drawImage(QPointF(0.0, 0.0), picture_);
        paint_notes(painter);
    }
    if (hasFocus()) {
        painter.setPen(QPen(frame_.palette.accent, 2.0));
        painter.setBrush(Qt::NoBrush);
        painter.drawRect(rect().adjusted(1, 1, -1, -1));
    }
}

void SceneView::resizeEvent(QResizeEvent*) {
    if (frame_.scene && frame_.size.height == 0) {
        // Framed before its size was known.
        frame_.camera = framed(frame_.camera, frame_.scene->outline_E(), pixels());
    }
    moved();
}

void SceneView::mousePressEvent(QMouseEvent* event) {
    pressed_at_ = last_mouse_ = event->pos();
    dragged_ = false;
    event->accept();
}

void SceneView::mouseMoveEvent(QMouseEvent* event) {
    const QPoint by = event->pos() - last_mouse_;
    if (event->buttons() == Qt::NoButton || by.isNull()) {
        return;
    }
    if (!dragged_ &&
        (event->pos() - pressed_at_).manhattanLength() < QApplication::startDragDistance()) {
        return;
    }
    dragged_ = true;
    last_mouse_ = event->pos();
    const bool moves = !event->buttons().testFlag(Qt::LeftButton) ||
                       event->modifiers().testFlag(Qt::ShiftModifier);
    const double ratio = devicePixelRatioF();
    change_camera(
        moves ? panned(frame_.camera, by.x() * ratio, by.y() * ratio, pixels())
              : orbited(frame_.camera, degrees_per_pixel * by.x(), degrees_per_pixel * by.y()));
}

void SceneView::mouseReleaseEvent(QMouseEvent* event) {
    if (dragged_ || event->button() != Qt::LeftButton) {
        return;
    }
    const std::optional<Picked> picked = part_at(event->position(), 4.0);
    if (picked && picked->valve) {
        emit valve_picked(*picked->valve);
    }
}

void SceneView::wheelEvent(QWheelEvent* event) {
    const double notches = event->angleDelta().y() / 120.0;
    if (notches != 0.0) {
        change_camera(zoomed(frame_.camera, std::pow(key_zoom, notches)));
    }
    event->accept();
}

void SceneView::keyPressEvent(QKeyEvent* event) {
    const bool moves = event->modifiers().testFlag(Qt::ShiftModifier);
    const auto go = [&](double right, double down) {
        change_camera(moves
                          ? panned(frame_.camera, key_move_px * right, key_move_px * down, pixels())
                          : orbited(frame_.camera, key_turn_deg * right, key_turn_deg * down));
    };
    switch (event->key()) {
        case Qt::Key_Left:
            go(-1.0, 0.0);
            break;
        case Qt::Key_Right:
            go(1.0, 0.0);
            break;
        case Qt::Key_Up:
            go(0.0, -1.0);
            break;
        case Qt::Key_Down:
            go(0.0, 1.0);
            break;
        case Qt::Key_Plus:
        case Qt::Key_Equal:
            change_camera(zoomed(frame_.camera, key_zoom));
            break;
        case Qt::Key_Minus:
            change_camera(zoomed(frame_.camera, 1.0 / key_zoom));
            break;
        case Qt::Key_Home:
            frame_all();
            break;
        case Qt::Key_PageUp:
            emit section_moved(key_section_mm);
            break;
        case Qt::Key_PageDown:
            emit section_moved(-key_section_mm);
            break;
        default:
            QWidget::keyPressEvent(event);
    }
}

} // namespace rodway
