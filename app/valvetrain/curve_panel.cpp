#include "app/valvetrain/curve_panel.h"

#include <QComboBox>
#include <QGridLayout>
#include <QLabel>
#include <QToolButton>
#include <QVBoxLayout>

#include "app/valvetrain/survey_pictures.h"
#include "app/words/clearance_words.h"
#include "render/plots/clearance_curve.h"

namespace rodway {

CurvePanel::CurvePanel(ValvetrainModel* model, QWidget* parent)
    : TrainPanel(model, parent),
      curve_(new ClearanceCurve),
      which_(new QComboBox),
      choice_(new QWidget),
      choice_grid_(new QGridLayout(choice_)) {
    curve_->setObjectName("curve");
    curve_->setAccessibleName(tr("Clearance and valve lift by crank angle"));
    curve_->setMinimumHeight(300);
    which_->setObjectName("curve_which");
    which_->setAccessibleName(tr("Whose curves are drawn"));
    which_->addItems({tr("This valve"), tr("Its cylinder"), tr("Its bank"), tr("Chosen valves"),
                      tr("All valves")});
    choice_grid_->setContentsMargins(0, 0, 0, 0);
    choice_grid_->setSpacing(2);
    choice_->hide();
    auto* row = new QHBoxLayout;
    row->addWidget(new QLabel(tr("Show")));
    row->addWidget(which_);
    row->addStretch();
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 4, 0, 0);
    layout->addLayout(row);
    layout->addWidget(choice_);
    layout->addWidget(curve_, 1);
    connect(which_, &QComboBox::currentIndexChanged, this, &CurvePanel::refresh);
    connect(curve_, &ClearanceCurve::crank_chosen, this,
            [this](double deg) { model_->set_crank(CrankAngle::deg(deg)); });
}

CurvePanel::Which CurvePanel::which() const {
    return static_cast<Which>(which_->currentIndex());
}

void CurvePanel::set_theme(Theme theme) {
    curve_->set_theme(theme);
}

void CurvePanel::offer_valves() {
    std::vector<ValvePosition> there;
    for (const ValveClearance& line : model_->lines()) {
        there.push_back(line.position);
    }
    if (there == offered_) {
        return;
    }
    offered_ = there;
    qDeleteAll(buttons_);
    buttons_.clear();
    constexpr int in_a_row = 8;
    for (const ValvePosition& valve : offered_) {
        auto* button = new QToolButton;
        button->setText(words::valve(valve));
        button->setAccessibleName(tr("Draw %1").arg(words::valve(valve)));
        button->setCheckable(true);
        button->setChecked(model_->selected() == valve);
        button->setFocusPolicy(Qt::StrongFocus);
        button->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
        const int at = static_cast<int>(buttons_.size());
        choice_grid_->addWidget(button, at / in_a_row, at % in_a_row);
        buttons_.push_back(button);
        connect(button, &QToolButton::toggled, this, &CurvePanel::refresh);
    }
}

std::vector<ValvePosition> CurvePanel::valves() const {
    std::vector<ValvePosition> drawn;
    const auto& selected = model_->selected();
    if (!model_->engine() || !selected) {
        return drawn;
    }
    const EngineLayout& layout = model_->engine()->layout;
    for (std::size_t at = 0; at < offered_.size(); ++at) {
        const ValvePosition& valve = offered_[at];
        const bool there = [&] {
            switch (which()) {
                case Which::this_valve:
                    return valve == *selected;
                case Which::cylinder:
                    return valve.cylinder == selected->cylinder;
                case Which::bank:
                    return layout.cylinder(valve.cylinder).bank ==
                           layout.cylinder(selected->cylinder).bank;
                case Which::chosen:
                    return buttons_[at]->isChecked();
                case Which::all:
                    return true;
            }
            return false;
        }();
        if (there) {
            drawn.push_back(valve);
        }
    }
    return drawn;
}

void CurvePanel::show_valve() {
    if (!model_->engine()) {
        return;
    }
    offer_valves();
    choice_->setVisible(which() == Which::chosen);
    curve_->set_content(survey_curves(*model_->engine(), model_->lines(), valves()));
}

void CurvePanel::show_crank() {
    curve_->set_cursor(model_->crank().in_deg());
}

} // namespace rodway
