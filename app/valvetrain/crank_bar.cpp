#include "app/valvetrain/crank_bar.h"

#include <QComboBox>
#include <QDoubleSpinBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QSettings>
#include <QShortcut>
#include <QSignalBlocker>
#include <QSlider>
#include <algorithm>
#include <cmath>

#include "app/valvetrain/survey_pictures.h"
#include "core/barring/full_lift_order.h"
#include "core/units/crank_arc.h"

namespace rodway {
namespace {

constexpr int frame_ms = 33;
constexpr const char* speed_key = "valvetrain/turning_speed";
/// Nearer than this the crank stands at a place already.
constexpr double there_deg = 0.01;

} // namespace

CrankBar::CrankBar(ValvetrainModel* model, QWidget* parent)
    : QWidget(parent),
      model_(model),
      crank_(new QSlider(Qt::Horizontal)),
      angle_(new QDoubleSpinBox),
      speed_(new QComboBox) {
    crank_->setObjectName("crank");
    crank_->setAccessibleName(tr("Crank angle"));
    crank_->setToolTip(
        tr("Crank degrees from cylinder 1 firing. Arrow keys 1°, Page keys 10°; "
           "Alt with an arrow turns from anywhere, with Shift by 10°"));
    crank_->setRange(0, 719);
    crank_->setPageStep(10);
    angle_->setObjectName("crank_angle");
    angle_->setAccessibleName(tr("Crank angle in degrees"));
    angle_->setRange(0.0, 719.9);
    angle_->setDecimals(1);
    angle_->setWrapping(true);
    angle_->setKeyboardTracking(false);
    angle_->setSuffix(QString(u'\u00b0'));
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->addWidget(new QLabel(tr("Crank")));
    row->addWidget(crank_, 1);
    row->addWidget(angle_);
    auto* full = add_button("crank_full_lift", tr("Full lift"), tr("Of the selected valve"));
    auto* least = add_button("crank_least", tr("Least"),
                             tr("Where the selected rod has its least clearance"));
    auto* next_full = add_button("crank_next_full_lift", tr("Next full lift"),
                                 tr("Of whichever valve comes next (F7; Shift+F7 goes back)"));
    auto* next_least = add_button("crank_next_least", tr("Next least"),
                                  tr("To the least clearance of whichever rod comes next (F8; "
                                     "Shift+F8 goes back)"));
    play_ = add_button("crank_play", tr("Turn"), tr("Turns and stops (F9)"));
    play_->setCheckable(true);
    speed_->setObjectName("crank_speed");
    speed_->setAccessibleName(tr("How fast it turns"));
    for (const int deg : {10, 30, 90, 180, 360}) {
        speed_->addItem(tr("%1° a second").arg(deg), deg);
    }
    speed_->setCurrentIndex(
        std::max(0, speed_->findData(QSettings().value(speed_key, 90).toInt())));
    row->addWidget(speed_);
    clock_.setInterval(frame_ms);
    connect(crank_, &QSlider::valueChanged, this,
            [this](int value) { model_->set_crank(CrankAngle::deg(value)); });
    connect(angle_, &QDoubleSpinBox::valueChanged, this,
            [this](double value) { model_->set_crank(CrankAngle::deg(value)); });
    connect(full, &QPushButton::clicked, this, &CrankBar::go_to_full_lift);
    connect(least, &QPushButton::clicked, this, &CrankBar::go_to_least);
    connect(next_full, &QPushButton::clicked, this, [this] { step_full_lift(true); });
    connect(next_least, &QPushButton::clicked, this, [this] { step_least(true); });
    connect(play_, &QPushButton::toggled, this, [this](bool on) {
        since_.start();
        on ? clock_.start() : clock_.stop();
    });
    connect(speed_, &QComboBox::currentIndexChanged, this,
            [this] { QSettings().setValue(speed_key, speed_->currentData()); });
    connect(&clock_, &QTimer::timeout, this, &CrankBar::go_on);
    connect(model_, &ValvetrainModel::crank_changed, this, &CrankBar::show_crank);
}

QPushButton* CrankBar::add_button(const char* name, const QString& text, const QString& tip) {
    auto* button = new QPushButton(text);
    button->setObjectName(name);
    button->setToolTip(tip);
    layout()->addWidget(button);
    return button;
}

void CrankBar::add_keys(QWidget* page) {
    const auto key = [&](const QKeySequence& keys, auto work) {
        auto* shortcut = new QShortcut(keys, page);
        shortcut->setContext(Qt::WidgetWithChildrenShortcut);
        connect(shortcut, &QShortcut::activated, this, work);
    };
    key(Qt::ALT | Qt::Key_Right, [this] { turn_by(1.0); });
    key(Qt::ALT | Qt::Key_Left, [this] { turn_by(-1.0); });
    key(Qt::ALT | Qt::SHIFT | Qt::Key_Right, [this] { turn_by(10.0); });
    key(Qt::ALT | Qt::SHIFT | Qt::Key_Left, [this] { turn_by(-10.0); });
    key(Qt::Key_F7, [this] { step_full_lift(true); });
    key(Qt::SHIFT | Qt::Key_F7, [this] { step_full_lift(false); });
    key(Qt::Key_F8, [this] { step_least(true); });
    key(Qt::SHIFT | Qt::Key_F8, [this] { step_least(false); });
    key(Qt::Key_F9, [this] { play_->toggle(); });
}

void CrankBar::stop() {
    play_->setChecked(false);
}

void CrankBar::hideEvent(QHideEvent* event) {
    QWidget::hideEvent(event);
    stop(); // nobody looks
}

void CrankBar::show_crank() {
    const double deg = model_->crank().in_deg();
    const QSignalBlocker quiet_slider(crank_);
    const QSignalBlocker quiet_angle(angle_);
    crank_->setValue(static_cast<int>(deg));
    angle_->setValue(deg);
}

void CrankBar::turn_by(double deg) {
    model_->set_crank(model_->crank() + CrankAngle::deg(deg));
}

void CrankBar::go_on() {
    const double seconds = static_cast<double>(since_.restart()) / 1000.0;
    turn_by(seconds * speed_->currentData().toInt());
}

void CrankBar::go_to_full_lift() {
    if (model_->engine() && model_->selected()) {
        model_->set_crank(model_->engine()->full_lift_angle(*model_->selected()));
    }
}

void CrankBar::go_to_least() {
    const ValveClearance* line = model_->selected_line();
    if (model_->engine() && line && line->found.minimum) {
        model_->set_crank(angle_of_minimum(*model_->engine(), *line));
    }
}

void CrankBar::step_full_lift(bool forward) {
    const auto stops = model_->engine()
                           ? full_lift_order(*model_->engine(), model_->crank())
                           : Result<std::vector<FullLiftStop>>(std::vector<FullLiftStop>());
    if (!stops || stops->empty()) {
        return;
    }
    double ahead = 0.0;
    const FullLiftStop* to = nullptr;
    for (const FullLiftStop& stop : *stops) {
        ahead += stop.turn_deg;
        const bool here = ahead < there_deg || ahead > 720.0 - there_deg;
        if (!here && (to == nullptr || !forward)) {
            to = &stop;
        }
    }
    if (to == nullptr) {
        return;
    }
    const auto& valves = to->valves;
    if (!model_->selected() ||
        std::find(valves.begin(), valves.end(), *model_->selected()) == valves.end()) {
        model_->select(valves.front());
    }
    model_->set_crank(to->at);
}

void CrankBar::step_least(bool forward) {
    const auto& lines = model_->lines();
    const ValveClearance* selected = model_->selected_line();
    const std::ptrdiff_t in_hand = selected ? selected - lines.data() : -1;
    const ValveClearance* to = nullptr;
    double best = 0.0;
    for (const ValveClearance& line : lines) {
        if (!line.found.minimum) {
            continue;
        }
        double turn = degrees_ahead(model_->crank(), angle_of_minimum(*model_->engine(), line));
        turn = forward ? turn : 720.0 - turn;
        if (turn < there_deg || turn > 720.0 - there_deg) {
            // Rods that are tightest together take their turn in the engine's order.
            const std::ptrdiff_t at = &line - lines.data();
            turn = (forward ? at > in_hand : at < in_hand) ? 0.0 : 720.0;
        }
        // Of several at one angle the first in the engine's order comes first; going back, the
        // last.
        const bool together = std::abs(turn - best) <= there_deg;
        const bool sooner = together ? !forward : turn < best;
        if (turn < 720.0 && (to == nullptr || sooner)) {
            to = &line;
            best = turn;
        }
    }
    if (to == nullptr) {
        return;
    }
    const CrankAngle at = angle_of_minimum(*model_->engine(), *to);
    model_->select(to->position);
    model_->set_crank(at);
}

} // namespace rodway
