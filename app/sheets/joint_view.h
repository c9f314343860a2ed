#pragma once

#include <QWidget>

#include "render/joint_drawing.h"

namespace rodway {

/// The drawing of a joint as a widget. A click chooses a bolt; left and right walk in the order in
/// which the bolts are tightened, Enter chooses.
class JointView : public QWidget {
    Q_OBJECT

  public:
    explicit JointView(QWidget* parent = nullptr);
    void set_drawing(JointDrawing drawing);
    [[nodiscard]] const JointDrawing& drawing() const { return drawing_; }
    [[nodiscard]] QSize sizeHint() const override { return {640, 200}; }
    [[nodiscard]] QSize minimumSizeHint() const override { return {320, 150}; }

  signals:
    void bolt_chosen(int bolt);

  protected:
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void changeEvent(QEvent* event) override;

  private:
    void walk(int by);
    void say_selected();

    JointDrawing drawing_;
};

} // namespace rodway
