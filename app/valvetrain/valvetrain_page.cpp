#include "app/valvetrain/valvetrain_page.h"

#include <QEvent>
#include <QLabel>
#include <QShortcut>
#include <QSplitter>
#include <QStackedWidget>
#include <QVBoxLayout>

#include "app/edit_stack/shop_session.h"
#include "app/valvetrain/barring_panel.h"
#include "app/valvetrain/causes_panel.h"
#include "app/valvetrain/crank_bar.h"
#include "app/valvetrain/curve_panel.h"
#include "app/valvetrain/hot_panel.h"
#include "app/valvetrain/motion_panel.h"
#include "app/valvetrain/numbers_panel.h"
#include "app/valvetrain/panel_chooser.h"
#include "app/valvetrain/readings_panel.h"
#include "app/valvetrain/spread_panel.h"
#include "app/valvetrain/survey_pictures.h"
#include "app/valvetrain/survey_table.h"
#include "app/valvetrain/tube_panel.h"
#include "app/valvetrain/variants_panel.h"
#include "app/valvetrain/view_bar.h"
#include "app/valvetrain/what_if_panel.h"
#include "app/valvetrain/work_bar.h"
#include "app/words/cautions.h"
#include "app/words/clearance_words.h"
#include "app/words/error_text.h"
#include "app/words/lengths.h"
#include "db/build_store.h"
#include "db/reading_store.h"
#include "db/set_up_store.h"
#include "render/cylinder_plan_view.h"
#include "render/scene_view.h"

namespace rodway {

ValvetrainPage::ValvetrainPage(QWidget* parent)
    : PlacePage(parent),
      model_(new ValvetrainModel(this)),
      stack_(new QStackedWidget),
      empty_(new QLabel),
      title_(new QLabel),
      panels_(new PanelChooser),
      crank_(new CrankBar(model_)),
      what_if_(new WhatIfPanel),
      work_(new WorkBar(tr("Working out the clearances…"))) {
    title_->setObjectName("title");
    title_->setWordWrap(true);
    empty_->setAlignment(Qt::AlignCenter);
    empty_->setWordWrap(true);
    make_panels();
    lay_out();
    listen();
    crank_->add_keys(this);
    take_theme();
}

ValvetrainPage::~ValvetrainPage() = default;

void ValvetrainPage::lay_out() {
    auto* across = new QSplitter;
    across->addWidget(make_left());
    across->addWidget(make_view());
    across->addWidget(panels_);
    across->setStretchFactor(0, 0);
    across->setStretchFactor(1, 3);
    across->setStretchFactor(2, 2);
    across->setChildrenCollapsible(false);
    across->setSizes({320, 400, 430});
    panels_->setMinimumWidth(410);
    auto* content = new QWidget;
    auto* down = new QVBoxLayout(content);
    down->setContentsMargins(0, 0, 0, 0);
    down->setSpacing(4);
    down->addWidget(across, 1);
    down->addWidget(crank_);
    down->addWidget(what_if_);
    stack_->addWidget(content);
    stack_->addWidget(empty_);
    auto* top = new QHBoxLayout;
    top->addWidget(title_, 2);
    top->addWidget(work_, 1);
    auto* layout = new QVBoxLayout(this);
    layout->addLayout(top);
    layout->addWidget(stack_, 1);
}

void ValvetrainPage::make_panels() {
    curve_ = new CurvePanel(model_);
    variants_ = new VariantsPanel(model_);
    readings_ = new ReadingsPanel(model_);
    panels_->add("numbers", tr("&Numbers"), new NumbersPanel(model_));
    panels_->add("curve", tr("&Curve"), curve_);
    tube_ = new TubePanel(model_);
    panels_->add("tube", tr("Down the &tube"), tube_);
    panels_->add("causes", tr("C&auses"), new CausesPanel(model_));
    panels_->add("variants", tr("&Variants"), variants_);
    panels_->add("readings", tr("&Readings and fit"), readings_);
    panels_->add("barring", tr("Barring &over"), new BarringPanel(model_));
    panels_->add("spread", tr("Spr&ead"), new SpreadPanel(model_));
    motion_ = new MotionPanel(model_);
    hot_ = new HotPanel(model_);
    panels_->add("motion", tr("In &motion"), motion_);
    panels_->add("hot", tr("Hot an&d cold"), hot_);
}

void ValvetrainPage::listen() {
    connect(model_, &ValvetrainModel::answered, this, &ValvetrainPage::show_answer);
    connect(model_, &ValvetrainModel::selection_changed, this, [this] {
        show_selection();
        go_to_minimum();
    });
    connect(model_, &ValvetrainModel::crank_changed, this, &ValvetrainPage::show_crank);
    connect(model_, &ValvetrainModel::began, work_, [this] { work_->begin(); });
    connect(model_, &ValvetrainModel::answered, work_, &WorkBar::end);
    connect(model_, &ValvetrainModel::stopped, work_, &WorkBar::end);
    connect(model_, &ValvetrainModel::stopped, this, [this] {
        refused_ = tr("it was stopped.");
        show_what_if();
    });
    connect(work_, &WorkBar::stop_wanted, model_, &ValvetrainModel::stop);
    connect(what_if_, &WhatIfPanel::variant_changed, this,
            [this](const Variant& variant, const QString& refused) {
                refused_ = refused;
                model_->set_variant(variant);
            });
    connect(what_if_, &WhatIfPanel::keep_wanted, this, [this] {
        panels_->show_panel("variants");
        variants_->begin_to_keep();
    });
    connect(variants_, &VariantsPanel::try_wanted, what_if_, &WhatIfPanel::put);
    connect(variants_, &VariantsPanel::failed, this, &ValvetrainPage::failed);
    connect(variants_, &VariantsPanel::said, this, &ValvetrainPage::said);
    connect(readings_, &ReadingsPanel::failed, this, &ValvetrainPage::failed);
    connect(readings_, &ReadingsPanel::said, this, &ValvetrainPage::said);
    for (EstimatePanel* panel : std::initializer_list<EstimatePanel*>{motion_, hot_}) {
        connect(panel, &EstimatePanel::failed, this, &ValvetrainPage::failed);
        connect(panel, &EstimatePanel::said, this, &ValvetrainPage::said);
    }
    auto* to_boxes = new QShortcut(Qt::ALT | Qt::Key_W, this);
    to_boxes->setContext(Qt::WidgetWithChildrenShortcut);
    connect(to_boxes, &QShortcut::activated, what_if_, &WhatIfPanel::focus_first);
}

QWidget* ValvetrainPage::make_left() {
    plan_ = new CylinderPlanView;
    plan_->setObjectName("plan");
    plan_->setAccessibleName(tr("Plan of cylinders and valves"));
    plan_->setMinimumSize(300, 210);
    plan_->set_description([this](const PlanValve& valve) {
        for (const ValveClearance& line : model_->lines()) {
            if (line.position == valve.position) {
                return tr("%1: %2. %3")
                    .arg(words::valve(valve.position), valve.value,
                         line.verdict ? words::verdict(*line.verdict) : words::status(line));
            }
        }
        return words::valve(valve.position);
    });
    table_ = new SurveyTable(model_);
    auto* left = new QSplitter(Qt::Vertical);
    left->addWidget(plan_);
    left->addWidget(table_);
    left->setStretchFactor(0, 1);
    left->setStretchFactor(1, 2);
    left->setMinimumWidth(330);
    connect(plan_, &CylinderPlanView::valve_selected, model_, &ValvetrainModel::select);
    connect(plan_, &CylinderPlanView::valve_chosen, model_, &ValvetrainModel::select);
    connect(table_, &SurveyTable::failed, this, &ValvetrainPage::failed);
    connect(table_, &SurveyTable::said, this, &ValvetrainPage::said);
    return left;
}

QWidget* ValvetrainPage::make_view() {
    view_ = new SceneView(Renderer::create());
    view_->setObjectName("view");
    view_->setAccessibleName(tr("Valvetrain in 3D"));
    view_->set_no_graphics_text(
        tr("This machine gives no OpenGL 3.3, so there is no 3D view. All figures, the plan and "
           "the curve stay usable."));
    auto* view = new QWidget;
    auto* layout = new QVBoxLayout(view);
    layout->setContentsMargins(0, 0, 0, 0);
    view_bar_ = new ViewBar(model_, view_);
    view_bar_->set_curve_valves([this] { return curve_->valves(); });
    view_bar_->set_tube_choice([this] { return tube_->choice(); });
    layout->addWidget(view_bar_);
    layout->addWidget(view_, 1);
    auto* caution = new QLabel(words::clearance_caution());
    caution->setObjectName("small");
    caution->setWordWrap(true);
    layout->addWidget(caution);
    connect(view_, &SceneView::valve_picked, model_, &ValvetrainModel::select);
    connect(view_bar_, &ViewBar::failed, this, &ValvetrainPage::failed);
    connect(view_bar_, &ViewBar::said, this, &ValvetrainPage::said);
    return view;
}

void ValvetrainPage::take(ShopSession* session, std::int64_t build_id) {
    Build build;
    if (session != nullptr && build_id != 0) {
        const auto loaded = load_build(session->shop(), build_id);
        if (!loaded) {
            emit failed(words::error_text(loaded.error()));
            return;
        }
        build = *loaded;
    }
    if (session_ != session || build_.id != build.id) {
        model_->clear();
        what_if_->clear();
        shown_ = false;
        refused_.clear();
    }
    session_ = session;
    build_ = build;
    if (session_) {
        panels_->set_who(session_->who());
    } else {
        variants_->set_build(nullptr, 0);
        readings_->set_build(nullptr, 0);
        motion_->set_build(nullptr, 0);
        hot_->set_build(nullptr, 0);
    }
    refresh();
}

void ValvetrainPage::refresh() {
    if (!session_ || build_.id == 0) {
        empty_->setText(tr("Open a build from the Bench to see its valvetrain."));
        stack_->setCurrentIndex(1);
        title_->setText(tr("Valvetrain"));
        return;
    }
    const auto set_up = newest_set_up(session_->shop(), build_.id);
    if (!set_up) {
        emit failed(words::error_text(set_up.error()));
        return;
    }
    title_->setText(tr("Valvetrain: %1").arg(QString::fromStdString(build_.name)));
    if (!*set_up) {
        empty_->setText(
            tr("This build has no set-up yet.\nA set-up says where lifters, rods, rockers and "
               "tubes sit. Describe "
               "the engine in the place Engine, or take a set-up from a file with “Build › Import "
               "set-up…”."));
        stack_->setCurrentIndex(1);
        return;
    }
    set_up_id_ = (*set_up)->id;
    table_->set_build(session_, build_.id, set_up_id_);
    model_->set_fields((*set_up)->fields);
    table_->refresh();
    variants_->set_build(session_, build_.id);
    readings_->set_build(session_, build_.id);
    motion_->set_build(session_, build_.id);
    hot_->set_build(session_, build_.id);
    if (model_->engine()) {
        show_plan();
    }
}

void ValvetrainPage::show_answer() {
    if (model_->trouble()) {
        const QString text = words::error_text(*model_->trouble());
        if (model_->as_it_stands()) {
            // The boxes keep what was typed; the figures go back to what they can answer for.
            refused_ = text;
            model_->set_variant({});
        } else {
            empty_->setText(tr("The set-up makes no engine.\n%1").arg(text));
            stack_->setCurrentIndex(1);
        }
        return;
    }
    if (!model_->engine()) {
        return;
    }
    stack_->setCurrentIndex(0);
    const bool first = !shown_;
    shown_ = true;
    what_if_->set_engine(*model_->as_it_stands());
    show_what_if();
    view_->set_scene(model_->scene());
    show_plan();
    std::vector<ValvePosition> order;
    for (const ValveClearance& line : model_->lines()) {
        order.push_back(line.position);
    }
    plan_->set_walk(order);
    table_->refresh();
    show_selection();
    if (first) {
        go_to_minimum();
    }
}

void ValvetrainPage::show_what_if() {
    const bool trying = !model_->variant().changes_nothing();
    const ValveClearance* now = model_->selected_line();
    const ValveClearance* stands = model_->selected_as_it_stands();
    QString text;
    if (!refused_.isEmpty()) {
        text = trying ? tr("Not tried: %1 The figures are those from before.").arg(refused_)
                      : tr("Not tried: %1 The figures are those of the set-up as it stands.")
                            .arg(refused_);
    } else if (trying && now && stands && now->found.minimum && stands->found.minimum) {
        text =
            tr("TRIED: %1 %2, was %3")
                .arg(words::valve(now->position), words::inches(now->found.minimum->clearance_mm),
                     words::inches(stands->found.minimum->clearance_mm));
    } else if (trying) {
        text = tr("TRIED: not as it stands.");
    } else {
        text = tr("Type into a box to try it; nothing is stored.");
    }
    what_if_->set_answer(text, trying && refused_.isEmpty());
}

void ValvetrainPage::show_plan() {
    // Readings are of the engine as it stands: a what-if is judged by its figures alone.
    ByHand by_hand;
    if (model_->variant().changes_nothing()) {
        if (const auto found = readings(session_->shop(), build_.id)) {
            by_hand = found_by_hand(*found, set_up_id_);
        }
    }
    plan_->set_content(survey_plan(*model_->engine(), model_->lines(), by_hand));
    view_bar_->set_by_hand(by_hand);
}

void ValvetrainPage::show_selection() {
    if (!model_->engine()) {
        return;
    }
    plan_->set_selected(model_->selected());
    table_->show_selected();
    show_what_if();
    show_crank();
}

void ValvetrainPage::show_crank() {
    view_->set_crank(model_->crank());
}

void ValvetrainPage::go_to_minimum() {
    const ValveClearance* line = model_->selected_line();
    if (model_->engine() && line && line->found.minimum) {
        model_->set_crank(angle_of_minimum(*model_->engine(), *line));
    }
}

void ValvetrainPage::take_theme() {
    const Theme theme = theme_of(palette());
    plan_->set_theme(theme);
    view_->set_theme(theme);
    curve_->set_theme(theme);
    tube_->set_theme(theme);
}

void ValvetrainPage::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::PaletteChange) {
        take_theme();
    }
}

} // namespace rodway
