#pragma once

#include <QCoreApplication>
#include <QList>
#include <QPainter>
#include <QString>

#include "db/bench_rows.h"

namespace rodway {

/// How one stage stands on a build's rail.
struct RailStage {
    QString title;
    int steps = 0;
    int done = 0;            ///< ticked, or left out
    bool passed = false;     ///< the work has gone on past it
    bool open_again = false; ///< signed off, and something has changed since
    bool held = false;       ///< something stands in its way that isn't merely work to do
    bool in_hand = false;    ///< the first that isn't passed
};
using Rail = QList<RailStage>;

/// As far as the records say without looking at a check: nothing is held.
[[nodiscard]] Rail rail_of(const BenchRow& row);

/// In their order from the left: a full box with a tick is passed, two bars are held up, a half
/// box is open again, a box filled from below is begun, a ring isn't; a pointer stands below the
/// one in hand.
void paint_rail(QPainter& painter, const QRectF& place, const Rail& rail, const QColor& ink,
                const QColor& paper);
/// Which stage is painted at a point of `place`; -1 for none.
[[nodiscard]] int stage_at(const QPointF& point, const QRectF& place, const Rail& rail);

/// How high it is painted.
inline constexpr double rail_height_px = 22.0;

/// "Heads: 3 of 9 steps done, in hand, held up".
[[nodiscard]] QString stage_words(const RailStage& stage);
/// "4 of 9 stages passed; Heads is in hand; held up: Heads, Parts".
[[nodiscard]] QString rail_words(const Rail& rail);
/// What the shapes mean.
[[nodiscard]] QString rail_legend();

} // namespace rodway
