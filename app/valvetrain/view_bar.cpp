#include "app/valvetrain/view_bar.h"

#include <QComboBox>
#include <QFileDialog>
#include <QHBoxLayout>
#include <QLabel>
#include <QMenu>
#include <QSlider>
#include <QToolButton>
#include <algorithm>
#include <cmath>

#include "app/valvetrain/survey_pictures.h"
#include "app/valvetrain/view_picture.h"
#include "app/words/clearance_words.h"
#include "app/words/error_text.h"
#include "app/words/lengths.h"
#include "app/words/view_words.h"
#include "render/scene_view.h"

namespace rodway {
namespace {

/// Slider steps of the section: a hundredth of an inch, an inch and a half either way.
constexpr double section_step_mm = 0.254;
constexpr int section_reach = 150;

/// Of a view saved to a file; its height follows the window's.
constexpr int saved_width = 1920;

QToolButton* menu_button(const QString& text, const QString& tip, QMenu* menu) {
    auto* button = new QToolButton;
    button->setText(text);
    button->setToolTip(tip);
    button->setPopupMode(QToolButton::InstantPopup);
    button->setMenu(menu);
    button->setFocusPolicy(Qt::StrongFocus);
    return button;
}

} // namespace

ViewBar::ViewBar(ValvetrainModel* model, SceneView* view, QWidget* parent)
    : QWidget(parent), model_(model), view_(view), others_(new QComboBox), cut_(new QComboBox) {
    setObjectName("view_bar");
    others_->setAccessibleName(tr("Which trains are drawn"));
    others_->addItems({tr("All trains"), tr("Others faded"), tr("This train alone")});
    others_->setCurrentIndex(1);
    cut_->setAccessibleName(tr("Section"));
    cut_->setToolTip(tr("Cuts the picture open along a plane through the rod"));
    cut_->addItems({tr("No section"), tr("Cut across the crank"), tr("Cut along the crank"),
                    tr("Cut across the rod")});
    auto* row = new QHBoxLayout;
    row->setContentsMargins(0, 0, 0, 0);
    for (QComboBox* choice : {others_, cut_}) {
        choice->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
        choice->setMinimumContentsLength(9);
        row->addWidget(choice, 1);
    }
    row->addWidget(
        menu_button(tr("&Look"), tr("From where the picture is looked at"), make_look_menu()));
    row->addWidget(menu_button(tr("S&how"), tr("What is drawn"), make_show_menu()));
    row->addWidget(menu_button(tr("Save"), tr("Writes what is seen to a file"), make_save_menu()));
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(2);
    layout->addLayout(row);
    layout->addWidget(make_section_row());
    for (QComboBox* choice : {others_, cut_}) {
        connect(choice, &QComboBox::currentIndexChanged, this, &ViewBar::show_options);
    }
    connect(model_, &ValvetrainModel::answered, this, &ViewBar::show_options);
    connect(model_, &ValvetrainModel::selection_changed, this, &ViewBar::show_options);
    connect(model_, &ValvetrainModel::crank_changed, this, &ViewBar::show_closest);
    connect(view_, &SceneView::section_moved, this, &ViewBar::move_section);
    view_->set_front_label(front_words());
    view_->set_description([this](const Picked& picked) { return described(picked); });
    show_options();
}

QMenu* ViewBar::make_look_menu() {
    auto* menu = new QMenu(this);
    const auto add = [&](const QString& text, Look look, bool at_train) {
        menu->addAction(text, this, [this, look, at_train] {
            // Down the rod, the rocker would hide most of what one looks for.
            glass_rockers_->setChecked(look == Look::along_rod);
            view_->look_from(look, at_train ? model_->selected() : std::nullopt);
        });
    };
    add(tr("Along the &rod, from the rocker down"), Look::along_rod, true);
    menu->addAction(tr("This &train"), this, [this] {
        if (model_->selected()) {
            view_->frame_valve(*model_->selected());
        }
    });
    menu->addAction(tr("The whole &engine"), this, [this] { view_->frame_all(); });
    menu->addSeparator();
    add(tr("From the &corner"), Look::corner, false);
    add(tr("From the &front"), Look::front, false);
    add(tr("From the re&ar"), Look::rear, false);
    add(tr("From the &left"), Look::left, false);
    add(tr("From the ri&ght"), Look::right, false);
    add(tr("From a&bove"), Look::above, false);
    menu->addSeparator();
    add(tr("This train from the front"), Look::front, true);
    add(tr("This train from above"), Look::above, true);
    return menu;
}

QAction* ViewBar::add_shown(QMenu* menu, const QString& text, bool on) {
    QAction* action = menu->addAction(text);
    action->setCheckable(true);
    action->setChecked(on);
    connect(action, &QAction::toggled, this, &ViewBar::show_options);
    return action;
}

QMenu* ViewBar::make_show_menu() {
    auto* menu = new QMenu(this);
    sweep_ = add_shown(menu, tr("&Space the rod takes through a turn"), false);
    verdicts_ = add_shown(menu, tr("&Verdicts on the rods"), false);
    glass_rockers_ = add_shown(menu, tr("Rockers as &glass"), false);
    castings_ = add_shown(menu, tr("&Passages and what stands beside"), true);
    pistons_ = add_shown(menu, tr("Pis&tons"), true);
    lens_ = add_shown(menu, tr("&Lens at the closest point"), true);
    return menu;
}

QMenu* ViewBar::make_save_menu() {
    auto* menu = new QMenu(this);
    const auto add = [&](const QString& text, ViewFile file) {
        menu->addAction(text, this, [this, file] { ask_file(file); });
    };
    add(tr("This &view (PNG)…"), ViewFile::view);
    add(tr("Down the &tube (SVG, PNG)…"), ViewFile::tube);
    add(tr("&Curve (SVG, PNG)…"), ViewFile::curve);
    add(tr("&Plan (SVG, PNG)…"), ViewFile::plan);
    menu->addSeparator();
    add(tr("Clearance of every valve (C&SV)…"), ViewFile::clearances);
    add(tr("Every valve through a t&urn (CSV)…"), ViewFile::curves);
    return menu;
}

QWidget* ViewBar::make_section_row() {
    section_row_ = new QWidget;
    section_ = new QSlider(Qt::Horizontal);
    section_->setAccessibleName(tr("Where the section is cut"));
    section_->setToolTip(
        tr("Moves the section off the rod; Page up and Page down in the picture do it too"));
    section_->setRange(-section_reach, section_reach);
    section_->setPageStep(10);
    section_text_ = new QLabel;
    auto* row = new QHBoxLayout(section_row_);
    row->setContentsMargins(0, 0, 0, 0);
    row->addWidget(new QLabel(tr("Section at")));
    row->addWidget(section_, 1);
    row->addWidget(section_text_);
    connect(section_, &QSlider::valueChanged, this, &ViewBar::show_options);
    return section_row_;
}

void ViewBar::set_curve_valves(std::function<std::vector<ValvePosition>()> valves) {
    curve_valves_ = std::move(valves);
}

void ViewBar::set_tube_choice(std::function<TubeChoice()> choice) {
    tube_choice_ = std::move(choice);
}

void ViewBar::show_options() {
    const Cut cut = static_cast<Cut>(cut_->currentIndex());
    const double by_mm = section_step_mm * section_->value();
    section_row_->setVisible(cut != Cut::none);
    section_text_->setText(section_->value() == 0 ? tr("the rod") : words::signed_inches(by_mm));
    SceneShow show;
    show.selected = model_->selected();
    show.others = static_cast<Others>(others_->currentIndex());
    show.rod_sweep = sweep_->isChecked();
    show.pistons = pistons_->isChecked();
    show.castings = castings_->isChecked();
    show.rockers = glass_rockers_->isChecked() ? Rockers::glass : Rockers::shown;
    if (verdicts_->isChecked()) {
        show.states = states_of(model_->lines());
    }
    if (show.selected && model_->scene()) {
        show.section = section_of(*model_->scene(), cut, *show.selected, view_->camera(), by_mm);
    }
    view_->set_show(show);
    view_->set_lens_shown(lens_->isChecked());
    show_closest();
}

// At the crank angle of the valve's least clearance that very place, with what is certified of it;
// elsewhere the nearest at that angle.
void ViewBar::show_closest() {
    const ValveClearance* line = model_->selected_line();
    if (!model_->engine() || line == nullptr || !line->found.minimum) {
        view_->clear_closest();
        return;
    }
    const Engine& engine = *model_->engine();
    constexpr double same_deg = 0.05;
    const double off = (model_->crank() - angle_of_minimum(engine, *line)).in_cycle().in_deg();
    const bool at_least = off < same_deg || off > 720.0 - same_deg;
    const auto spot = at_least ? std::optional(closest_spot(engine, *line))
                               : closest_spot_at(engine, line->position, model_->crank());
    if (spot) {
        view_->set_closest(spot->valve, spot->label, spot->p_rod_E, spot->p_wall_E);
    } else {
        view_->clear_closest();
    }
}

void ViewBar::move_section(double by_mm) {
    section_->setValue(section_->value() + static_cast<int>(std::lround(by_mm / section_step_mm)));
}

QString ViewBar::described(const Picked& picked) const {
    if (!picked.valve) {
        return words::part_kind(picked.kind, picked.name);
    }
    const QString part =
        tr("%1: %2").arg(words::valve(*picked.valve), words::part_kind(picked.kind, picked.name));
    for (const ValveClearance& line : model_->lines()) {
        if (line.position == *picked.valve && model_->engine()) {
            return line.found.minimum
                       ? tr("%1\nLeast clearance %2, %3")
                             .arg(part, words::inches(line.found.minimum->clearance_mm),
                                  words::place(*line.found.minimum, *model_->engine()))
                       : tr("%1\n%2").arg(part, words::status(line));
        }
    }
    return part;
}

ViewSource ViewBar::source() const {
    ViewSource source{*model_, {}, {}, {}, by_hand_, font()};
    const int height = view_->width() > 0 ? saved_width * view_->height() / view_->width() : 0;
    source.view = view_->picture({saved_width, std::max(height, 64)});
    if (source.view) {
        const double scale = static_cast<double>(saved_width) / std::max(1, view_->width());
        source.view->font = font();
        source.view->font.setPixelSize(
            std::max(8, static_cast<int>(std::lround(scale * fontInfo().pixelSize()))));
        source.view->frame.palette = palette_for(Theme::light);
    }
    if (tube_choice_) {
        source.tube = tube_choice_();
    } else if (model_->selected()) {
        source.tube = {*model_->selected(), 0, model_->crank(), {}};
    }
    if (curve_valves_) {
        source.curve_valves = curve_valves_();
    } else if (model_->selected()) {
        source.curve_valves = {*model_->selected()};
    }
    return source;
}

void ViewBar::save(ViewFile file, const QString& path) {
    const auto written = write_view_file(file, source(), path);
    if (!written) {
        emit failed(words::error_in_file(path, written.error()));
        return;
    }
    emit said(tr("Wrote %1.").arg(path));
}

void ViewBar::ask_file(ViewFile file) {
    const QString path = QFileDialog::getSaveFileName(
        this, tr("Write to a file"), offered_name(file, model_->selected()), name_filter(file));
    if (!path.isEmpty()) {
        save(file, path);
    }
}

} // namespace rodway
