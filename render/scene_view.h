#pragma once

#include <QTimer>
#include <QWidget>
#include <functional>
#include <memory>

#include "render/annotation.h"
#include "render/look.h"
#include "render/offscreen_picture.h"
#include "render/renderer.h"

namespace rodway {

/// The valvetrain in 3D, as a plain widget that shows the renderer's pictures.
/// Mouse: left drag turns; right, middle or Shift drag moves; wheel zooms; click picks a valve; the
/// pointer held still says what is under it.
/// Keys: arrows turn, Shift+arrows move, + and - zoom, Home shows all, Page up and down move the
/// section.
/// Coarse while it moves, smooth when it has stood still for a moment.
class SceneView : public QWidget {
    Q_OBJECT

  public:
    /// Without graphics it shows the text given by `set_no_graphics_text`.
    explicit SceneView(Result<std::unique_ptr<Renderer>> renderer, QWidget* parent = nullptr);
    ~SceneView() override;

    /// Null: nothing is drawn but the ground. The first scene is framed; later ones keep the
    /// camera.
    void set_scene(std::shared_ptr<const Scene> scene);
    void set_crank(CrankAngle crank);
    void set_show(const SceneShow& show);
    void set_camera(const Camera& camera);
    void set_theme(Theme theme);
    /// The dimension line at a train's closest spot. Points: block frame, mm.
    void set_closest(const ValvePosition& valve, const QString& label, const Vec3& p_rod_E,
                     const Vec3& p_wall_E);
    void clear_closest();
    void set_lens_shown(bool shown);
    void set_no_graphics_text(const QString& text);
    /// Names the front end of the crank in the picture.
    void set_front_label(const QString& label);
    /// What is said of the part under the pointer; nothing is said where the text is empty.
    void set_description(std::function<QString(const Picked&)> describe);

    /// Brings all, or one train, into the picture, direction kept, with perspective.
    void frame_all();
    void frame_valve(const ValvePosition& valve);
    /// From the rocker down along that valve's rod, without perspective. `SceneShow::rockers` says
    /// whether its rocker stands in the way.
    void look_along_rod(const ValvePosition& valve);
    /// From one of the usual sides, at one train or at everything.
    void look_from(Look look, const std::optional<ValvePosition>& valve);

    /// What is seen now, as a picture for a file: the same direction and the same height of it.
    /// Nothing without a scene.
    [[nodiscard]] std::optional<PictureRequest> picture(PictureSize size) const;

    [[nodiscard]] const Camera& camera() const { return frame_.camera; }
    [[nodiscard]] const SceneShow& show_options() const { return frame_.show; }
    [[nodiscard]] CrankAngle crank() const { return frame_.crank; }
    [[nodiscard]] bool has_graphics() const { return renderer_ != nullptr; }
    [[nodiscard]] QSize sizeHint() const override { return {800, 520}; }
    [[nodiscard]] QSize minimumSizeHint() const override { return {320, 240}; }

  signals:
    void valve_picked(const rodway::ValvePosition& valve);
    void camera_changed();
    /// A key asks for the section to move, towards what is taken away where above 0.
    void section_moved(double by_mm);

  protected:
    bool event(QEvent* event) override;
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

  private:
    void moved();
    void change_camera(const Camera& camera);
    void render_picture();
    void paint_notes(QPainter& painter);
    [[nodiscard]] std::optional<Picked> part_at(const QPointF& place, double reach);
    void paint_text(QPainter& painter, const QString& text) const;
    [[nodiscard]] PictureSize pixels() const;

    std::unique_ptr<Renderer> renderer_;
    Frame frame_;
    std::optional<ClosestSpot> closest_;
    bool lens_shown_ = true;
    bool framed_ = false;
    bool out_of_date_ = true;
    QString no_graphics_text_;
    QString front_label_;
    std::function<QString(const Picked&)> describe_;
    QImage picture_;
    QImage lens_picture_;
    Frame lens_frame_;
    QTimer still_;
    QPoint last_mouse_;
    QPoint pressed_at_;
    bool dragged_ = false;
};

} // namespace rodway
