#pragma once

#include <QWidget>

#include "render/tube_drawing.h"

namespace rodway {

/// The view down a tube as a widget: shows its content and turns keys into wishes.
/// Keys: up and down move the cut between the ends, with Shift by a tenth of an inch; left and
/// right turn the crank by 1°, with Shift by 10°; Home brings the cut back.
class TubeView : public QWidget {
    Q_OBJECT

  public:
    explicit TubeView(QWidget* parent = nullptr);

    void set_content(const TubeContent& content);
    void set_theme(Theme theme);
    [[nodiscard]] const TubeContent& content() const { return content_; }
    [[nodiscard]] QSize sizeHint() const override { return {420, 420}; }
    [[nodiscard]] QSize minimumSizeHint() const override { return {220, 200}; }

  signals:
    void cut_moved(double deeper_mm);
    void cut_back();
    void crank_turned(double by_deg);

  protected:
    void paintEvent(QPaintEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

  private:
    TubeContent content_;
    Palette palette_;
};

} // namespace rodway
