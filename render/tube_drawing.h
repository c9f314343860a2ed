#pragma once

#include <QByteArray>
#include <QFont>
#include <QImage>
#include <QPainter>
#include <QString>
#include <QStringList>
#include <optional>
#include <vector>

#include "core/geometry/frames.h"
#include "render/palette.h"

namespace rodway {

// A passage seen from the rocker down, square to its axis: x towards 3 o'clock, y towards 12, mm,
// from the passage's own axis.

/// The bore's outline at one depth.
struct BoreCut {
    double radius_mm = 0.0;
    double half_straight_mm = 0.0;    ///< obround; round: 0
    Vec2 long_way_mm = Vec2::UnitX(); ///< unit
};

/// A leaning round rod cut by the plane: an ellipse, longer the way it leans.
struct RodCut {
    Vec2 at_mm = Vec2::Zero();
    double radius_mm = 0.0;
    double long_radius_mm = 0.0;
    Vec2 leans = Vec2::UnitX(); ///< unit
};

/// Where the rod comes closest to the wall, in the plane of one cut.
struct ClosestInCut {
    Vec2 rod_mm = Vec2::Zero();
    Vec2 wall_mm = Vec2::Zero();
    QString label;
};

/// One depth of the passage.
struct TubeSlice {
    QString title;
    BoreCut bore;
    std::optional<RodCut> rod; ///< at this crank angle
    std::vector<RodCut> turn;  ///< everywhere it stands through a turn
    std::optional<ClosestInCut> closest;
};

/// The view down one passage. All words come from the caller.
struct TubeContent {
    QString heading;
    std::vector<TubeSlice> slices; ///< beside each other, all to one scale
    QStringList notes;             ///< under them
    QString front_label;           ///< at 12 o'clock
    QString right_label;           ///< at 3 o'clock
    QString empty_text;            ///< why there is nothing to see, where there are no slices
};

struct TubeStyle {
    Palette palette;
    QFont font;
};

/// Where the middle of one slice is painted, and how many painter units a millimetre has.
struct TubeLayout {
    std::vector<QPointF> middles;
    QSizeF cell; ///< of one slice with its title and numbers
    double units_per_mm = 1.0;
    QRectF notes;
};
[[nodiscard]] TubeLayout lay_out_tube(const QRectF& place, const TubeContent& content,
                                      const QFont& font);

/// The same in the window, in a picture and on paper.
void paint_tube(QPainter& painter, const QRectF& place, const TubeContent& content,
                const TubeStyle& style);

/// Without a window. Needs a QGuiApplication. Sizes in pixels at 96 per inch.
[[nodiscard]] QImage tube_image(const TubeContent& content, const TubeStyle& style, QSize size);
[[nodiscard]] QByteArray tube_svg(const TubeContent& content, const TubeStyle& style, QSize size);

} // namespace rodway
