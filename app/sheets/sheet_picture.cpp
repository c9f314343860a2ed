#include "app/sheets/sheet_picture.h"

#include <QEvent>
#include <algorithm>

#include "app/sheets/joint_view.h"
#include "app/words/sheet_words.h"
#include "core/sheets/position.h"
#include "render/cylinder_plan_view.h"

namespace rodway {
namespace {

constexpr int least_height = 176;

bool is_of_bolts(Place place) {
    return place == Place::joint || place == Place::bolt || place == Place::bolt_pass;
}

/// The first pass in which a bolt is still to be done; the last if it is done in all.
std::size_t open_pass(const JointBolt& bolt) {
    const auto open = std::find_if(bolt.passes.begin(), bolt.passes.end(), [](BoltMark mark) {
        return mark == BoltMark::waiting || mark == BoltMark::missed;
    });
    const auto done = static_cast<std::size_t>(open - bolt.passes.begin());
    return std::clamp<std::size_t>(done + 1, 1, std::max<std::size_t>(1, bolt.passes.size()));
}

} // namespace

SheetPicture::SheetPicture(QWidget* parent)
    : QStackedWidget(parent), plan_(new CylinderPlanView), joint_view_(new JointView) {
    plan_->setObjectName("sheet_plan");
    plan_->setAccessibleName(tr("Cylinder plan"));
    plan_->setMinimumSize(300, least_height);
    plan_->set_theme(theme_of(palette()));
    joint_view_->setMinimumSize(300, least_height);
    addWidget(plan_);
    addWidget(joint_view_);
    hide();
    plan_->set_description([this](const PlanValve& spot) {
        const std::string* position = shown_ ? shown_->position_at(spot.position) : nullptr;
        const QString where = position != nullptr ? words::sheet_position(*position, place_)
                                                  : tr("Cylinder %1").arg(spot.position.cylinder);
        const QString value = spot.value.isEmpty() ? tr("not measured yet") : spot.value;
        const QString state = words::check_state_text(spot.state);
        return state.isEmpty() ? tr("%1: %2").arg(where, value)
                               : tr("%1: %2, %3").arg(where, value, state);
    });
    connect(plan_, &CylinderPlanView::valve_selected, this,
            [this](const ValvePosition& spot) { choose_spot(spot, false); });
    connect(plan_, &CylinderPlanView::valve_chosen, this,
            [this](const ValvePosition& spot) { choose_spot(spot, true); });
    connect(joint_view_, &JointView::bolt_chosen, this, &SheetPicture::choose_bolt);
}

void SheetPicture::changeEvent(QEvent* event) {
    QStackedWidget::changeEvent(event);
    if (event->type() == QEvent::PaletteChange) {
        plan_->set_theme(theme_of(palette()));
    }
}

void SheetPicture::set_sheet(const BuildSheets& sheets, const AssessedSheet& sheet) {
    engine_ = sheets.engine();
    of_bolts_ = std::any_of(sheet.lines.begin(), sheet.lines.end(), [](const SheetLine& line) {
        return line.quantity.place == Place::bolt_pass;
    });
    joints_ =
        of_bolts_ ? joint_drawings(sheets.taken(), sheets.places()) : std::vector<KnownJoint>();
    joint_ = std::min(joint_, joints_.empty() ? 0 : joints_.size() - 1);
}

void SheetPicture::show_box(const SheetLine* line, const std::string& position) {
    shown_.reset();
    if (line == nullptr) {
        hide();
        return;
    }
    place_ = line->quantity.place;
    if (of_bolts_ && is_of_bolts(place_)) {
        show_joint(*line, position);
        return;
    }
    show_plan(*line, position);
}

void SheetPicture::show_plan(const SheetLine& line, const std::string& position) {
    shown_ = sheet_plan(line, engine_, position);
    setVisible(shown_.has_value());
    if (!shown_) {
        return;
    }
    std::vector<ValvePosition> order;
    for (const auto& [spot, kept] : shown_->spots) {
        order.push_back(spot);
    }
    plan_->set_walk(std::move(order));
    plan_->set_content(shown_->content);
    plan_->set_selected(shown_->content.selected);
    setCurrentWidget(plan_);
}

void SheetPicture::show_joint(const SheetLine& line, const std::string& position) {
    JointDrawing drawing;
    if (joints_.empty()) {
        drawing.title =
            tr("Write under “Each joint” how many bolts it has, in which order and in "
               "which steps they are tightened.");
    } else {
        const auto spot = joint_at(joints_, position, line.quantity.place);
        joint_ = spot ? spot->joint : joint_;
        drawing = joints_[joint_].drawing;
        drawing.selected = spot ? spot->bolt : std::nullopt;
    }
    joint_view_->set_drawing(std::move(drawing));
    setCurrentWidget(joint_view_);
    show();
}

void SheetPicture::choose_spot(const ValvePosition& spot, bool type) {
    if (const std::string* position = shown_ ? shown_->position_at(spot) : nullptr) {
        emit position_chosen(*position, type);
    }
}

void SheetPicture::choose_bolt(int bolt) {
    const auto which = static_cast<std::size_t>(bolt);
    if (joint_ >= joints_.size() || which >= joints_[joint_].bolts.size()) {
        return;
    }
    const KnownJoint& joint = joints_[joint_];
    const std::string& kept = joint.bolts[which];
    emit position_chosen(place_ == Place::bolt_pass
                             ? bolt_in_pass(kept, open_pass(joint.drawing.bolts[which]))
                             : kept,
                         true);
}

} // namespace rodway
