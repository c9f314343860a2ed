#include "app/valvetrain/work_bar.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QProgressBar>
#include <QPushButton>

namespace rodway {
namespace {

constexpr int patience_ms = 300;
constexpr int look_ms = 100;
constexpr int steps = 1000;

} // namespace

WorkBar::WorkBar(const QString& what, QWidget* parent) : QWidget(parent), bar_(new QProgressBar) {
    setObjectName("work_bar");
    bar_->setTextVisible(false);
    bar_->setAccessibleName(what);
    bar_->setMaximumHeight(14);
    auto* stop = new QPushButton(tr("Stop"));
    stop->setObjectName("stop_work");
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->addWidget(new QLabel(what));
    row->addWidget(bar_, 1);
    row->addWidget(stop);
    hide();
    patience_.setSingleShot(true);
    patience_.setInterval(patience_ms);
    look_.setInterval(look_ms);
    connect(&patience_, &QTimer::timeout, this, &QWidget::show);
    connect(&look_, &QTimer::timeout, this, &WorkBar::show_part);
    connect(stop, &QPushButton::clicked, this, &WorkBar::stop_wanted);
}

void WorkBar::begin(std::function<double()> part) {
    part_ = std::move(part);
    bar_->setRange(0, part_ ? steps : 0); // an endless one where nobody knows how long
    bar_->setValue(0);
    if (part_) {
        look_.start();
    }
    if (!isVisible()) {
        patience_.start();
    }
}

void WorkBar::show_part() {
    if (part_) {
        bar_->setValue(static_cast<int>(steps * part_()));
    }
}

void WorkBar::end() {
    patience_.stop();
    look_.stop();
    part_ = {};
    hide();
}

} // namespace rodway
