#include "app/valvetrain/work_bar.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QProgressBar>
#include <QPushButton>

namespace rodway {

WorkBar::WorkBar(const QString& what, QWidget* parent) : QWidget(parent) {
    setObjectName("work_bar");
    auto* bar = new QProgressBar;
    bar->setRange(0, 0); // nobody knows how long
    bar->setTextVisible(false);
    bar->setAccessibleName(what);
    bar->setMaximumHeight(14);
    auto* stop = new QPushButton(tr("Stop"));
    stop->setObjectName("stop_work");
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->addWidget(new QLabel(what));
    row->addWidget(bar, 1);
    row->addWidget(stop);
    hide();
    constexpr int patience_ms = 300;
    patience_.setSingleShot(true);
    patience_.setInterval(patience_ms);
    connect(&patience_, &QTimer::timeout, this, &QWidget::show);
    connect(stop, &QPushButton::clicked, this, &WorkBar::stop_wanted);
}

void WorkBar::begin() {
    if (!isVisible()) {
        patience_.start();
    }
}

void WorkBar::end() {
    patience_.stop();
    hide();
}

} // namespace rodway
