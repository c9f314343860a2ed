#include "app/book/pull_plot.h"

#include <QCoreApplication>
#include <algorithm>
#include <cmath>

#include "app/book/book_text.h"

namespace rodway {
namespace {

struct Plot {
    Q_DECLARE_TR_FUNCTIONS(PullPlot)
};

constexpr double text_points = 8.0;
constexpr double left_margin = 44.0;
constexpr double foot_margin = 50.0;
constexpr double mark = 2.4;

/// A step of 1, 2 or 5 times a power of ten that makes about `wanted` of a range.
double round_step(double range, int wanted) {
    const double raw = range / wanted;
    const double ten = std::pow(10.0, std::floor(std::log10(raw)));
    for (const double factor : {1.0, 2.0, 5.0}) {
        if (raw <= factor * ten) return factor * ten;
    }
    return 10.0 * ten;
}

struct Axes {
    QRectF place;
    double low_rpm = 0.0;
    double high_rpm = 1.0;
    double most = 1.0; ///< lb-ft or hp

    [[nodiscard]] QPointF at(double rpm, double value) const {
        return {place.left() + (rpm - low_rpm) / (high_rpm - low_rpm) * place.width(),
                place.bottom() - value / most * place.height()};
    }
};

Axes axes_of(const QRectF& place, const std::vector<PullCurve>& curves) {
    Axes axes{place, 1e9, 0.0, 0.0};
    for (const PullCurve& curve : curves) {
        for (const PullPoint& point : curve.figures.points) {
            axes.low_rpm = std::min(axes.low_rpm, point.speed_rpm);
            axes.high_rpm = std::max(axes.high_rpm, point.speed_rpm);
            axes.most = std::max({axes.most, point.torque.in_lbf_ft() * curve.factor,
                                  point.power.in_hp() * curve.factor});
        }
    }
    if (axes.high_rpm <= axes.low_rpm) { // one row
        axes.low_rpm -= 500.0;
        axes.high_rpm += 500.0;
    }
    const double step = round_step(std::max(axes.most, 1.0), 5);
    axes.most = std::ceil(axes.most / step + 0.05) * step;
    return axes;
}

void paint_axes(QPainter& painter, const Axes& axes) {
    painter.setFont(book_font(text_points));
    const auto line = [&](const QPointF& from, const QPointF& to) {
        painter.setPen(QPen(QColor(205, 205, 205), 0.5));
        painter.drawLine(from, to);
        painter.setPen(Qt::black);
    };
    const double up = round_step(axes.most, 5);
    for (double value = 0.0; value <= axes.most * 1.001; value += up) {
        const QPointF from = axes.at(axes.low_rpm, value);
        line(from, axes.at(axes.high_rpm, value));
        painter.drawText(QRectF(from.x() - left_margin, from.y() - 7.0, left_margin - 5.0, 14.0),
                         Qt::AlignRight | Qt::AlignVCenter, QString::number(value));
    }
    const double along = round_step(axes.high_rpm - axes.low_rpm, 7);
    for (double rpm = std::ceil(axes.low_rpm / along) * along; rpm <= axes.high_rpm; rpm += along) {
        const QPointF foot = axes.at(rpm, 0.0);
        line(foot, axes.at(rpm, axes.most));
        painter.drawText(QRectF(foot.x() - 30.0, foot.y() + 2.0, 60.0, 14.0),
                         Qt::AlignHCenter | Qt::AlignTop, QString::number(rpm));
    }
    painter.drawText(
        QRectF(axes.place.left(), axes.place.bottom() + 15.0, axes.place.width(), 14.0),
        Qt::AlignHCenter | Qt::AlignTop, Plot::tr("Engine speed, rpm"));
    painter.setPen(QPen(Qt::black, 0.8));
    painter.setBrush(Qt::NoBrush);
    painter.drawRect(axes.place);
}

void paint_curve(QPainter& painter, const Axes& axes, const PullCurve& curve, bool power) {
    const QColor colour = power ? QColor(150, 60, 0) : QColor(0, 70, 150);
    painter.setPen(QPen(colour, 1.1, curve.dashed ? Qt::DashLine : Qt::SolidLine));
    QPolygonF points;
    for (const PullPoint& point : curve.figures.points) {
        const double value = power ? point.power.in_hp() : point.torque.in_lbf_ft();
        points << axes.at(point.speed_rpm, value * curve.factor);
    }
    painter.setBrush(Qt::NoBrush);
    painter.drawPolyline(points);
    painter.setPen(QPen(colour, 1.0));
    painter.setBrush(curve.dashed ? QBrush(Qt::white) : QBrush(colour));
    for (const QPointF& point : points) {
        const QRectF box(point - QPointF(mark, mark), QSizeF(2.0 * mark, 2.0 * mark));
        power ? painter.drawRect(box) : painter.drawEllipse(box);
    }
}

/// What each mark stands for, in a line under the plot.
void paint_key(QPainter& painter, const QRectF& place, const std::vector<PullCurve>& curves) {
    QStringList said;
    for (const PullCurve& curve : curves) {
        said << (curve.dashed ? Plot::tr("dashed, open marks: %1").arg(curve.name)
                              : Plot::tr("full lines, filled marks: %1").arg(curve.name));
    }
    painter.setPen(Qt::black);
    painter.setFont(book_font(text_points));
    painter.drawText(place, Qt::AlignLeft | Qt::AlignTop | Qt::TextWordWrap,
                     Plot::tr("● torque, lb-ft  ■ power, hp; %1").arg(said.join("; ")));
}

} // namespace

void paint_pull_plot(QPainter& painter, const QRectF& place, const std::vector<PullCurve>& curves) {
    const Axes axes = axes_of(place.adjusted(left_margin, 6.0, -12.0, -foot_margin), curves);
    paint_axes(painter, axes);
    for (const PullCurve& curve : curves) {
        paint_curve(painter, axes, curve, false);
        paint_curve(painter, axes, curve, true);
    }
    paint_key(painter, QRectF(place.left(), place.bottom() - 18.0, place.width(), 18.0), curves);
}

} // namespace rodway
