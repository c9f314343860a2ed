#pragma once

#include <QElapsedTimer>
#include <QTimer>
#include <QWidget>

#include "app/valvetrain/valvetrain_model.h"

class QComboBox;
class QDoubleSpinBox;
class QPushButton;
class QSlider;

namespace rodway {

/// Turns the crank: by hand, to the next full lift or least clearance, or steadily at a chosen
/// speed.
class CrankBar : public QWidget {
    Q_OBJECT

  public:
    explicit CrankBar(ValvetrainModel* model, QWidget* parent = nullptr);

    /// Keys that turn the crank wherever the focus is in `page`.
    void add_keys(QWidget* page);
    void stop();

  protected:
    void hideEvent(QHideEvent* event) override;

  private:
    QPushButton* add_button(const char* name, const QString& text, const QString& tip);
    void show_crank();
    void turn_by(double deg);
    void go_to_full_lift();
    void go_to_least();
    /// To the next, or the one before, of all valves; selects the valve.
    void step_full_lift(bool forward);
    void step_least(bool forward);
    void go_on();

    ValvetrainModel* model_;
    QSlider* crank_;
    QDoubleSpinBox* angle_;
    QPushButton* play_;
    QComboBox* speed_;
    QTimer clock_;
    QElapsedTimer since_;
};

} // namespace rodway
