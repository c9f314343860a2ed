#pragma once

#include <QTimer>

#include "app/valvetrain/valvetrain_model.h"
#include "app/window/place_page.h"
#include "core/build/records.h"
#include "render/palette.h"

class QComboBox;
class QCheckBox;
class QLabel;
class QSlider;
class QStackedWidget;

namespace rodway {

class ClearanceCurve;
class CylinderPlanView;
class NumbersPanel;
class SceneView;
class ShopSession;
class SurveyTable;
class WhatIfPanel;

/// The valvetrain of one build: the plan, the 3D view, the curve, the crank, the figures and
/// what-if boxes, all of one selected valve at one crank angle.
class ValvetrainPage : public PlacePage {
    Q_OBJECT

  public:
    explicit ValvetrainPage(QWidget* parent = nullptr);
    ~ValvetrainPage() override;

    void take(ShopSession* session, std::int64_t build_id) override;
    void refresh() override;
    [[nodiscard]] ValvetrainModel& model() { return *model_; }

  protected:
    void changeEvent(QEvent* event) override;

  private:
    QWidget* make_left();
    QWidget* make_middle();
    QWidget* make_right();
    QWidget* make_view_bar();
    QWidget* make_crank_bar();
    void show_answer();
    void show_selection();
    void show_crank();
    void show_scene_options();
    void go_to_minimum();
    void take_theme();
    void show_plan();

    ShopSession* session_ = nullptr;
    Build build_;
    std::int64_t set_up_id_ = 0;
    QString refused_;    ///< why the last what-if was not tried
    bool shown_ = false; ///< this build's answer has been shown once
    ValvetrainModel* model_;
    QStackedWidget* stack_;
    QLabel* empty_;
    QLabel* title_;
    CylinderPlanView* plan_;
    SurveyTable* table_;
    SceneView* view_;
    ClearanceCurve* curve_;
    QSlider* crank_;
    QLabel* crank_text_;
    NumbersPanel* numbers_;
    WhatIfPanel* what_if_;
    QLabel* trying_;
    QComboBox* others_;
    QCheckBox* section_;
    QCheckBox* sweep_;
    QTimer play_;
};

} // namespace rodway
