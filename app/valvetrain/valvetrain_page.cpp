#include "app/valvetrain/valvetrain_page.h"

#include <QCheckBox>
#include <QComboBox>
#include <QEvent>
#include <QLabel>
#include <QPushButton>
#include <QScrollArea>
#include <QSlider>
#include <QSplitter>
#include <QStackedWidget>
#include <QVBoxLayout>

#include "app/edit_stack/shop_session.h"
#include "app/valvetrain/numbers_panel.h"
#include "app/valvetrain/survey_pictures.h"
#include "app/valvetrain/survey_table.h"
#include "app/valvetrain/what_if_panel.h"
#include "app/words/cautions.h"
#include "app/words/clearance_words.h"
#include "app/words/error_text.h"
#include "app/words/lengths.h"
#include "db/build_store.h"
#include "db/reading_store.h"
#include "db/set_up_store.h"
#include "render/cylinder_plan_view.h"
#include "render/plots/clearance_curve.h"
#include "render/scene_view.h"

namespace rodway {
namespace {

constexpr int play_every_ms = 40;
constexpr double play_step_deg = 4.0;

} // namespace

ValvetrainPage::ValvetrainPage(QWidget* parent)
    : PlacePage(parent),
      model_(new ValvetrainModel(this)),
      stack_(new QStackedWidget),
      empty_(new QLabel),
      title_(new QLabel) {
    title_->setObjectName("title");
    empty_->setAlignment(Qt::AlignCenter);
    empty_->setWordWrap(true);
    auto* splitter = new QSplitter;
    splitter->addWidget(make_left());
    splitter->addWidget(make_middle());
    splitter->addWidget(make_right());
    splitter->setStretchFactor(0, 0);
    splitter->setStretchFactor(1, 1);
    splitter->setStretchFactor(2, 0);
    splitter->setChildrenCollapsible(false);
    splitter->setSizes({350, 620, 270});
    stack_->addWidget(splitter);
    stack_->addWidget(empty_);
    auto* layout = new QVBoxLayout(this);
    layout->addWidget(title_);
    layout->addWidget(stack_, 1);

    connect(model_, &ValvetrainModel::answered, this, &ValvetrainPage::show_answer);
    connect(model_, &ValvetrainModel::selection_changed, this, [this] {
        show_selection();
        go_to_minimum();
    });
    connect(model_, &ValvetrainModel::crank_changed, this, &ValvetrainPage::show_crank);
    play_.setInterval(play_every_ms);
    connect(&play_, &QTimer::timeout, this,
            [this] { model_->set_crank(model_->crank() + CrankAngle::deg(play_step_deg)); });
    take_theme();
}

ValvetrainPage::~ValvetrainPage() = default;

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

QWidget* ValvetrainPage::make_view_bar() {
    auto* bar = new QWidget;
    auto* row = new QHBoxLayout(bar);
    row->setContentsMargins(0, 0, 0, 0);
    others_ = new QComboBox;
    others_->setAccessibleName(tr("Which trains are drawn"));
    others_->addItems({tr("All trains"), tr("Others faded"), tr("This train alone")});
    others_->setCurrentIndex(1);
    section_ = new QCheckBox(tr("Section"));
    section_->setToolTip(tr("Cut along the rod, square to the crank"));
    sweep_ = new QCheckBox(tr("Sweep"));
    sweep_->setToolTip(tr("The space the rod takes through a turn"));
    auto* along = new QPushButton(tr("Along rod"));
    auto* closer = new QPushButton(tr("This train"));
    auto* all = new QPushButton(tr("Engine"));
    along->setToolTip(tr("Look from the rocker down along the rod"));
    closer->setToolTip(tr("Bring the selected train into the picture"));
    all->setToolTip(tr("Bring the whole engine into the picture"));
    for (QWidget* widget : {static_cast<QWidget*>(others_), static_cast<QWidget*>(section_),
                            static_cast<QWidget*>(sweep_), static_cast<QWidget*>(along),
                            static_cast<QWidget*>(closer), static_cast<QWidget*>(all)}) {
        row->addWidget(widget);
    }
    row->addStretch();
    connect(others_, &QComboBox::currentIndexChanged, this, &ValvetrainPage::show_scene_options);
    connect(section_, &QCheckBox::toggled, this, &ValvetrainPage::show_scene_options);
    connect(sweep_, &QCheckBox::toggled, this, &ValvetrainPage::show_scene_options);
    connect(along, &QPushButton::clicked, this, [this] {
        if (model_->selected()) {
            view_->look_along_rod(*model_->selected());
        }
    });
    connect(closer, &QPushButton::clicked, this, [this] {
        if (model_->selected()) {
            view_->frame_valve(*model_->selected());
        }
    });
    connect(all, &QPushButton::clicked, this, [this] { view_->frame_all(); });
    return bar;
}

QWidget* ValvetrainPage::make_crank_bar() {
    auto* bar = new QWidget;
    auto* row = new QHBoxLayout(bar);
    row->setContentsMargins(0, 0, 0, 0);
    crank_ = new QSlider(Qt::Horizontal);
    crank_->setObjectName("crank");
    crank_->setAccessibleName(tr("Crank angle"));
    crank_->setRange(0, 719);
    crank_->setPageStep(10);
    crank_text_ = new QLabel;
    crank_text_->setMinimumWidth(76);
    auto* play = new QPushButton(tr("Turn"));
    play->setCheckable(true);
    auto* full = new QPushButton(tr("Full lift"));
    auto* least = new QPushButton(tr("Least"));
    least->setToolTip(tr("To the crank angle of the selected rod's least clearance"));
    row->addWidget(new QLabel(tr("Crank")));
    row->addWidget(crank_, 1);
    row->addWidget(crank_text_);
    row->addWidget(full);
    row->addWidget(least);
    row->addWidget(play);
    connect(crank_, &QSlider::valueChanged, this,
            [this](int value) { model_->set_crank(CrankAngle::deg(value)); });
    connect(play, &QPushButton::toggled, this,
            [this](bool on) { on ? play_.start() : play_.stop(); });
    connect(full, &QPushButton::clicked, this, [this] {
        if (model_->engine() && model_->selected()) {
            model_->set_crank(model_->engine()->full_lift_angle(*model_->selected()));
        }
    });
    connect(least, &QPushButton::clicked, this, &ValvetrainPage::go_to_minimum);
    return bar;
}

QWidget* ValvetrainPage::make_middle() {
    view_ = new SceneView(Renderer::create());
    view_->setObjectName("view");
    view_->setAccessibleName(tr("Valvetrain in 3D"));
    view_->set_no_graphics_text(
        tr("This machine gives no OpenGL 3.3, so there is no 3D view. All figures, the plan and "
           "the curve stay usable."));
    curve_ = new ClearanceCurve;
    curve_->setObjectName("curve");
    curve_->setAccessibleName(tr("Clearance and valve lift by crank angle"));
    auto* top = new QWidget;
    auto* top_layout = new QVBoxLayout(top);
    top_layout->setContentsMargins(0, 0, 0, 0);
    top_layout->addWidget(make_view_bar());
    top_layout->addWidget(view_, 1);
    top_layout->addWidget(make_crank_bar());
    auto* middle = new QSplitter(Qt::Vertical);
    middle->addWidget(top);
    middle->addWidget(curve_);
    middle->setStretchFactor(0, 3);
    middle->setStretchFactor(1, 2);
    curve_->setMinimumHeight(170);
    connect(view_, &SceneView::valve_picked, model_, &ValvetrainModel::select);
    connect(curve_, &ClearanceCurve::crank_chosen, this,
            [this](double deg) { model_->set_crank(CrankAngle::deg(deg)); });
    return middle;
}

QWidget* ValvetrainPage::make_right() {
    numbers_ = new NumbersPanel(model_);
    what_if_ = new WhatIfPanel;
    trying_ = new QLabel;
    trying_->setObjectName("caution");
    trying_->setWordWrap(true);
    auto* caution = new QLabel(words::clearance_caution());
    caution->setObjectName("small");
    caution->setWordWrap(true);
    auto* content = new QWidget;
    auto* layout = new QVBoxLayout(content);
    layout->addWidget(numbers_);
    layout->addSpacing(8);
    layout->addWidget(what_if_);
    layout->addWidget(trying_);
    layout->addStretch();
    layout->addWidget(caution);
    auto* scroll = new QScrollArea;
    scroll->setWidget(content);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll->setMinimumWidth(260);
    scroll->setMaximumWidth(360);
    connect(what_if_, &WhatIfPanel::variant_changed, this,
            [this](const Variant& variant, const QString& refused) {
                refused_ = refused;
                model_->set_variant(variant);
            });
    return scroll;
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
    const bool trying = !model_->variant().changes_nothing();
    trying_->setText(
        refused_.isEmpty()
            ? tr("You are looking at a what-if: the figures are not those of the set-up as it "
                 "stands.")
            : tr("Not tried: %1\nThe figures are those of the set-up as it stands.").arg(refused_));
    trying_->setVisible(trying || !refused_.isEmpty());
    what_if_->set_engine(*model_->as_it_stands());
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

void ValvetrainPage::show_plan() {
    // Readings are of the engine as it stands: a what-if is judged by its figures alone.
    ByHand by_hand;
    if (model_->variant().changes_nothing()) {
        if (const auto found = readings(session_->shop(), build_.id)) {
            by_hand = found_by_hand(*found, set_up_id_);
        }
    }
    plan_->set_content(survey_plan(*model_->engine(), model_->lines(), by_hand));
}

void ValvetrainPage::show_selection() {
    if (!model_->engine()) {
        return;
    }
    plan_->set_selected(model_->selected());
    table_->show_selected();
    const ValveClearance* line = model_->selected_line();
    std::vector<ValvePosition> valves;
    if (line) {
        valves.push_back(line->position);
    }
    curve_->set_content(survey_curves(*model_->engine(), model_->lines(), valves));
    if (line && line->found.minimum) {
        const ClosestSpot spot = closest_spot(*model_->engine(), *line);
        view_->set_closest(spot.valve, spot.label, spot.p_rod_E, spot.p_wall_E);
    } else {
        view_->clear_closest();
    }
    show_scene_options();
    show_crank();
}

void ValvetrainPage::show_crank() {
    const double deg = model_->crank().in_deg();
    const QSignalBlocker quiet(crank_);
    crank_->setValue(static_cast<int>(deg));
    crank_text_->setText(words::crank_degrees(deg));
    view_->set_crank(model_->crank());
    curve_->set_cursor(deg);
    numbers_->refresh();
}

void ValvetrainPage::show_scene_options() {
    SceneShow show = view_->show_options();
    show.selected = model_->selected();
    show.others = others_->currentIndex() == 0   ? Others::shown
                  : others_->currentIndex() == 1 ? Others::faded
                                                 : Others::hidden;
    show.rod_sweep = sweep_->isChecked();
    show.section.reset();
    if (section_->isChecked() && model_->selected() && model_->scene()) {
        if (const auto rod = model_->scene()->rod_E(*model_->selected(), model_->crank())) {
            // What lies in front of the rod is cut away, so that its middle is seen.
            show.section = Section{rod->at(0.5), -Vec3::UnitX()};
        }
    }
    view_->set_show(show);
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
}

void ValvetrainPage::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::PaletteChange) {
        take_theme();
    }
}

} // namespace rodway
