#pragma once

#include <QFont>
#include <QPainter>
#include <QRectF>
#include <QString>
#include <array>
#include <optional>
#include <vector>

#include "render/palette.h"

namespace rodway {

/// How one bolt stands in one pass. Each has a shape of its own in the drawing.
enum class BoltMark {
    waiting, ///< its turn hasn't come
    done,
    missed,  ///< left out
    off,     ///< done, but not to what the pass asks for
    doubled, ///< written down twice
};
constexpr std::size_t bolt_mark_count = 5;

struct JointBolt {
    QString name;  ///< its number, with its cap where each cap counts its own: "7", "2-1"
    QString order; ///< when its turn is; empty where nobody wrote an order
    std::vector<BoltMark> passes;
};

/// What the drawing of a joint shows. Where its bolts sit only the maker's drawing says: they stand
/// in rows by their number.
struct JointDrawing {
    QString title;
    std::vector<JointBolt> bolts;
    std::vector<std::size_t> path; ///< the bolts in the order in which they are tightened, or none
    std::array<QString, bolt_mark_count> mark_words; ///< for the key, by `BoltMark`
    std::optional<std::size_t> selected;
};

struct JointLayout {
    QRectF title;
    std::vector<QRectF> bolts;              ///< square round each bolt's head
    std::vector<QRectF> orders;             ///< tag beside the head
    std::vector<std::vector<QRectF>> marks; ///< square round each pass's sign, below the head
    QRectF key;
    double text_px = 0.0;
};

/// Nothing overlaps as long as a row's bolts have 40 units each.
[[nodiscard]] JointLayout lay_out_joint(const QRectF& place, const JointDrawing& drawing,
                                        const QFont& font);

/// The same drawing in the window and on paper. With `focused` the selected bolt's ring is drawn
/// stronger.
void paint_joint(QPainter& painter, const QRectF& place, const JointDrawing& drawing,
                 const Palette& palette, const QFont& font, bool focused = false);

/// One mark alone.
void paint_bolt_mark(QPainter& painter, const QRectF& place, BoltMark mark, const Palette& palette);

/// The bolt painted at a point, or nothing.
[[nodiscard]] std::optional<std::size_t> bolt_at(const QPointF& point, const QRectF& place,
                                                 const JointDrawing& drawing, const QFont& font);

} // namespace rodway
