#pragma once

#include "app/valvetrain/valvetrain_model.h"
#include "app/window/place_page.h"
#include "core/build/records.h"
#include "render/palette.h"

class QLabel;
class QStackedWidget;

namespace rodway {

class CrankBar;
class CurvePanel;
class CylinderPlanView;
class HotPanel;
class MotionPanel;
class PanelChooser;
class ReadingsPanel;
class SceneView;
class ShopSession;
class SurveyTable;
class TubePanel;
class VariantsPanel;
class ViewBar;
class WhatIfPanel;
class WorkBar;

/// The valvetrain of one build: the plan, the 3D view, one panel of several, the crank and what-if
/// boxes, all of one selected valve at one crank angle.
class ValvetrainPage : public PlacePage {
    Q_OBJECT

  public:
    explicit ValvetrainPage(QWidget* parent = nullptr);
    ~ValvetrainPage() override;

    void take(ShopSession* session, std::int64_t build_id) override;
    void refresh() override;
    [[nodiscard]] ValvetrainModel& model() { return *model_; }
    [[nodiscard]] PanelChooser& panels() { return *panels_; }
    [[nodiscard]] ViewBar& view_bar() { return *view_bar_; }

  protected:
    void changeEvent(QEvent* event) override;

  private:
    QWidget* make_left();
    QWidget* make_view();
    void make_panels();
    void lay_out();
    void listen();
    void show_what_if();
    void show_answer();
    void show_selection();
    void show_crank();
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
    PanelChooser* panels_;
    CurvePanel* curve_;
    VariantsPanel* variants_;
    ReadingsPanel* readings_;
    MotionPanel* motion_;
    HotPanel* hot_;
    CrankBar* crank_;
    WhatIfPanel* what_if_;
    WorkBar* work_;
    ViewBar* view_bar_;
    TubePanel* tube_;
};

} // namespace rodway
