#include "app/valvetrain/tube_panel.h"

#include <QComboBox>
#include <QLabel>
#include <QPushButton>
#include <QSignalBlocker>
#include <QSlider>
#include <QVBoxLayout>
#include <cmath>

#include "app/valvetrain/tube_view.h"

namespace rodway {
namespace {

constexpr double slider_step_mm = 0.254; // a hundredth of an inch

} // namespace

TubePanel::TubePanel(ValvetrainModel* model, QWidget* parent)
    : TrainPanel(model, parent),
      passage_(new QComboBox),
      depth_(new QSlider(Qt::Horizontal)),
      view_(new TubeView) {
    passage_->setObjectName("tube_passage");
    passage_->setAccessibleName(tr("Which passage"));
    depth_->setObjectName("tube_depth");
    depth_->setAccessibleName(tr("How far down the passage is cut"));
    depth_->setPageStep(10);
    auto* back = new QPushButton(tr("Closest"));
    back->setToolTip(tr("Cuts where the rod is closest, or else in the middle"));
    auto* row = new QHBoxLayout;
    row->addWidget(passage_);
    row->addWidget(new QLabel(tr("Cut at")));
    row->addWidget(depth_, 1);
    row->addWidget(back);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 4, 0, 0);
    layout->addLayout(row);
    layout->addWidget(view_, 1);
    connect(passage_, &QComboBox::currentIndexChanged, this, [this] { choose_depth({}); });
    connect(depth_, &QSlider::valueChanged, this,
            [this](int steps) { choose_depth(slider_step_mm * steps); });
    connect(back, &QPushButton::clicked, this, [this] { choose_depth({}); });
    connect(view_, &TubeView::cut_back, this, [this] { choose_depth({}); });
    connect(view_, &TubeView::cut_moved, this, [this](double deeper_mm) {
        if (model_->engine() && model_->selected()) {
            choose_depth(middle_depth_mm(*model_->engine(), model_->lines(), choice()) + deeper_mm);
        }
    });
    connect(view_, &TubeView::crank_turned, this, [this](double by_deg) {
        model_->set_crank(model_->crank() + CrankAngle::deg(by_deg));
    });
}

void TubePanel::set_theme(Theme theme) {
    view_->set_theme(theme);
}

TubeChoice TubePanel::choice() const {
    TubeChoice choice;
    choice.valve = model_->selected().value_or(ValvePosition{});
    choice.passage = static_cast<std::size_t>(std::max(0, passage_->currentIndex()));
    choice.crank = model_->crank();
    choice.depth_mm = depth_mm_;
    return choice;
}

void TubePanel::choose_depth(std::optional<double> depth_mm) {
    depth_mm_ = depth_mm;
    show_crank();
}

void TubePanel::show_valve() {
    if (!model_->engine() || !model_->selected()) {
        TubeContent nothing;
        nothing.empty_text = tr("Choose a valve to look down its tube.");
        view_->set_content(nothing);
        return;
    }
    const QStringList names = passage_words(*model_->engine(), *model_->selected());
    if (shown_ != model_->selected() || passage_->count() != names.size()) {
        const QSignalBlocker quiet(passage_);
        passage_->clear();
        passage_->addItems(names);
        shown_ = model_->selected();
        depth_mm_.reset();
    }
    passage_->setVisible(names.size() > 1);
}

void TubePanel::show_crank() {
    if (!model_->engine() || !model_->selected()) {
        return;
    }
    const Engine& engine = *model_->engine();
    const TubeChoice now = choice();
    if (const auto bore = passage_in_place(engine, now.valve, now.passage)) {
        const QSignalBlocker quiet(depth_);
        depth_->setRange(0, static_cast<int>(std::lround(bore->length_mm / slider_step_mm)));
        depth_->setValue(static_cast<int>(
            std::lround(middle_depth_mm(engine, model_->lines(), now) / slider_step_mm)));
    }
    view_->set_content(tube_content(engine, model_->lines(), now));
}

} // namespace rodway
