#include "app/bench/stage_rail.h"

#include <QStringList>
#include <algorithm>

namespace rodway {
namespace {

struct RailWords {
    Q_DECLARE_TR_FUNCTIONS(RailWords)
};

constexpr double box_height_px = 14.0;
constexpr double widest_px = 26.0;
constexpr double narrowest_px = 5.0;
constexpr double gap_px = 2.0;
constexpr double tick_needs_px = 9.0;

double pitch_of(const QRectF& place, const Rail& rail) {
    return std::clamp(place.width() / static_cast<double>(rail.size()), narrowest_px, widest_px);
}

QRectF box_of(const QRectF& place, const Rail& rail, int which) {
    const double pitch = pitch_of(place, rail);
    return {place.left() + pitch * which, place.top() + 1.0, pitch - gap_px, box_height_px};
}

void paint_passed(QPainter& painter, const QRectF& box, const QColor& ink, const QColor& paper) {
    painter.setPen(Qt::NoPen);
    painter.setBrush(ink);
    painter.drawRoundedRect(box, 2.0, 2.0);
    if (box.width() < tick_needs_px) {
        return;
    }
    painter.setPen(QPen(paper, 1.8, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    const QPointF middle = box.center();
    painter.drawPolyline(QPolygonF(
        {middle + QPointF(-3.0, 0.2), middle + QPointF(-0.8, 2.6), middle + QPointF(3.2, -2.8)}));
}

void paint_held(QPainter& painter, const QRectF& box, const QColor& ink) {
    const double bar = std::min(4.0, box.width() * 0.36);
    const double inset = std::max(0.0, (box.width() - 3.2 * bar) / 2.0);
    painter.setPen(Qt::NoPen);
    painter.setBrush(ink);
    painter.drawRect(QRectF(box.left() + inset, box.top(), bar, box.height()));
    painter.drawRect(QRectF(box.right() - inset - bar, box.top(), bar, box.height()));
}

void paint_open_again(QPainter& painter, const QRectF& box, const QColor& ink) {
    painter.setPen(QPen(ink, 1.0));
    painter.setBrush(Qt::NoBrush);
    painter.drawRect(box);
    painter.setBrush(ink);
    painter.drawPolygon(QPolygonF({box.topLeft(), box.bottomLeft(), box.bottomRight()}));
}

void paint_open(QPainter& painter, const QRectF& box, const RailStage& stage, const QColor& ink) {
    painter.setPen(QPen(ink, 1.0));
    painter.setBrush(Qt::NoBrush);
    if (stage.done == 0) {
        const double radius = std::min(box.width() / 2.0 - 0.5, 3.5);
        painter.drawEllipse(box.center(), radius, radius);
        return;
    }
    painter.drawRect(box);
    // Even with every step done it isn't full: that is a stage that is passed.
    const double full = (box.height() - 5.0) * stage.done / std::max(stage.steps, 1);
    painter.fillRect(QRectF(box.left(), box.bottom() - full, box.width(), full), ink);
}

void paint_pointer(QPainter& painter, const QRectF& box, const QColor& ink) {
    painter.setPen(Qt::NoPen);
    painter.setBrush(ink);
    const QPointF tip(box.center().x(), box.bottom() + 1.5);
    painter.drawPolygon(QPolygonF({tip, tip + QPointF(4.0, 5.5), tip + QPointF(-4.0, 5.5)}));
}

} // namespace

Rail rail_of(const BenchRow& row) {
    Rail rail;
    bool before = true;
    for (const BenchStage& stage : row.rail) {
        RailStage mark;
        mark.title = QString::fromStdString(stage.title);
        mark.steps = stage.steps;
        mark.done = stage.steps_done;
        mark.passed = stage.signed_off || (!stage.gated && mark.done == mark.steps);
        mark.in_hand = before && !mark.passed && mark.done < mark.steps;
        before = before && !mark.in_hand;
        rail << mark;
    }
    return rail;
}

void paint_rail(QPainter& painter, const QRectF& place, const Rail& rail, const QColor& ink,
                const QColor& paper) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    for (int which = 0; which < rail.size(); ++which) {
        const RailStage& stage = rail[which];
        const QRectF box = box_of(place, rail, which);
        if (stage.held) {
            paint_held(painter, box, ink);
        } else if (stage.open_again) {
            paint_open_again(painter, box, ink);
        } else if (stage.passed) {
            paint_passed(painter, box, ink, paper);
        } else {
            paint_open(painter, box, stage, ink);
        }
        if (stage.in_hand) {
            paint_pointer(painter, box, ink);
        }
    }
    painter.restore();
}

int stage_at(const QPointF& point, const QRectF& place, const Rail& rail) {
    for (int which = 0; which < rail.size(); ++which) {
        const QRectF box = box_of(place, rail, which).adjusted(-1.0, -4.0, gap_px - 1.0, 10.0);
        if (box.contains(point)) {
            return which;
        }
    }
    return -1;
}

QString stage_words(const RailStage& stage) {
    QStringList words{
        RailWords::tr("%1: %2 of %3 steps done").arg(stage.title).arg(stage.done).arg(stage.steps)};
    if (stage.passed) {
        words << RailWords::tr("passed");
    }
    if (stage.open_again) {
        words << RailWords::tr("signed off and open again");
    }
    if (stage.in_hand) {
        words << RailWords::tr("in hand");
    }
    if (stage.held) {
        words << RailWords::tr("held up");
    }
    return words.join(QStringLiteral(", "));
}

QString rail_words(const Rail& rail) {
    if (rail.isEmpty()) {
        return RailWords::tr("no stages");
    }
    const auto passed = std::count_if(rail.begin(), rail.end(),
                                      [](const RailStage& stage) { return stage.passed; });
    QStringList words{RailWords::tr("%1 of %2 stages passed").arg(passed).arg(rail.size())};
    QStringList held;
    for (const RailStage& stage : rail) {
        if (stage.in_hand) {
            words << RailWords::tr("%1 is in hand").arg(stage.title);
        }
        if (stage.held) {
            held << stage.title;
        }
    }
    if (!held.isEmpty()) {
        words << RailWords::tr("held up: %1").arg(held.join(QStringLiteral(", ")));
    }
    return words.join(QStringLiteral("; "));
}

QString rail_legend() {
    return RailWords::tr(
        "Stages from the left: a full box is passed, two bars are held up, a half box was signed "
        "off and is open again, a box filled from below is begun, a ring isn't. A pointer stands "
        "below the one in hand.");
}

} // namespace rodway
