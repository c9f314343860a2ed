#pragma once

#include <QPainter>
#include <QRectF>
#include <QString>

#include "core/dyno/pull.h"

namespace rodway {

/// A line of the plot; of two with one colour the second is dashed.
struct PullCurve {
    QString name;
    PullFigures figures;
    double factor = 1.0; ///< by which torque and power are multiplied
    bool dashed = false;
};

/// Torque (lb-ft) and power (hp) against engine speed, one scale for both, as vectors. Torque has
/// round marks, power square ones, so that they are told apart without colour.
void paint_pull_plot(QPainter& painter, const QRectF& place, const std::vector<PullCurve>& curves);

} // namespace rodway
