#include "app/describe/dimension_picture.h"

#include <QCoreApplication>
#include <QPainter>
#include <QPainterPath>
#include <algorithm>
#include <array>
#include <cmath>

#include "app/words/describe_words.h"

namespace rodway {
namespace {

/// A length's line, from end to end; it is drawn `aside` to the left of its way, with the lines
/// that lead there. In the drawing's own units, about inches; y up.
struct DrawnLength {
    std::string_view name;
    DescribeView view;
    QPointF from;
    QPointF to;
    double aside = 0.0;
};

/// An angle's arc about a point, between two directions in degrees from the right.
struct DrawnAngle {
    std::string_view name;
    DescribeView view;
    QPointF about;
    double from_deg;
    double to_deg;
    double radius;
};

constexpr auto crank_view = DescribeView::along_crank;
constexpr auto side_view = DescribeView::from_side;
constexpr auto rod_view = DescribeView::rod;
constexpr auto cup_view = DescribeView::cup;
constexpr auto tube_view = DescribeView::tube;

// The train of the picture: made up, a little larger where it would be too small to see.
const QPointF crank(0.0, 0.0);
const QPointF cam(-3.5, 3.5);
const QPointF lifter_foot(-3.5, 4.3);
const QPointF seat(-3.5, 6.2);
const QPointF shaft(-1.25, 14.4);
const QPointF ball(-2.5, 14.3);
const QPointF tip(0.35, 15.2);
const QPointF valve_head(1.5, 10.6);
constexpr double deck_z = 8.6;
constexpr double gasket = 0.35;

const std::array lengths{
    DrawnLength{"deck_height", crank_view, {2.6, 0.0}, {2.6, deck_z}, -0.8},
    DrawnLength{"base_circle", crank_view, {-4.3, 3.5}, {-2.7, 3.5}, -1.3},
    DrawnLength{"seat_height", crank_view, lifter_foot, seat, 1.3},
    DrawnLength{"preload", crank_view, {-3.5, 5.9}, seat, 1.3},
    DrawnLength{"plunger_travel", crank_view, {-3.5, 5.5}, seat, 1.3},
    DrawnLength{"head_gasket", crank_view, {2.6, deck_z}, {2.6, deck_z + gasket}, -0.8},
    DrawnLength{"shaft_above_head", crank_view, {-1.25, deck_z + gasket}, shaft, -4.6},
    DrawnLength{"shaft_beside", crank_view, shaft, {0.0, 14.4}, 1.9},
    DrawnLength{"ball_arm", crank_view, ball, shaft, 0.7},
    DrawnLength{"tip_arm", crank_view, shaft, tip, 0.9},
    DrawnLength{"tip_above_shaft", crank_view, {0.35, 14.4}, tip, -1.2},
    DrawnLength{"intake_gasket", crank_view, {-2.75, 10.4}, {-2.45, 10.4}, 1.0},
    DrawnLength{"first_cylinder", side_view, {0.0, 5.2}, {3.0, 5.2}, 0.9},
    DrawnLength{"spacing", side_view, {3.0, 5.2}, {8.0, 5.2}, 0.9},
    DrawnLength{"lifter_along", side_view, {3.0, 0.6}, {4.3, 0.6}, -0.9},
    DrawnLength{"rocker_along", side_view, {3.0, 8.2}, {4.0, 8.2}, 0.9},
    DrawnLength{"ball_offset", side_view, {9.0, 7.9}, {9.25, 7.9}, 0.9},
    DrawnLength{"rod_overall", rod_view, {0.0, 0.0}, {0.0, 9.0}, 1.4},
    DrawnLength{"rod_ball", rod_view, {-0.45, 8.55}, {0.45, 8.55}, 1.0},
    DrawnLength{"rod_diameter", rod_view, {-0.32, 4.5}, {0.32, 4.5}, 0.9},
    DrawnLength{"adjuster_ball", cup_view, {-0.6, 8.6}, {0.6, 8.6}, 1.2},
    DrawnLength{"cup_outside", cup_view, {-0.95, 7.6}, {0.95, 7.6}, -1.4},
    DrawnLength{"cup_depth", cup_view, {0.0, 8.0}, {0.0, 8.75}, -1.6},
    DrawnLength{"tube_length", tube_view, {1.5, 1.5}, {1.5, 6.5}, -1.0},
    DrawnLength{"tube_bore", tube_view, {-1.1, 4.0}, {1.1, 4.0}, 0.0},
    DrawnLength{"tube_long_bore", tube_view, {-1.1, 3.2}, {1.1, 3.2}, 0.0},
    DrawnLength{"tube_below_ball", tube_view, {0.0, 9.0}, {0.0, 6.5}, 1.9},
    DrawnLength{"gap_front_top", tube_view, {-1.1, 6.5}, {-0.45, 6.5}, 0.9},
    DrawnLength{"gap_front_bottom", tube_view, {-1.1, 1.5}, {-0.45, 1.5}, -0.9},
    DrawnLength{"gap_outboard_top", tube_view, {-1.1, 6.5}, {-0.45, 6.5}, 0.9},
    DrawnLength{"gap_outboard_bottom", tube_view, {-1.1, 1.5}, {-0.45, 1.5}, -0.9},
};

const std::array angles{
    DrawnAngle{"lifter_lean", crank_view, lifter_foot, 90.0, 103.0, 3.4},
    DrawnAngle{"valve_lean", crank_view, valve_head, 90.0, 104.0, 4.2},
    DrawnAngle{"intake_face_lean", crank_view, {-2.45, 9.4}, 90.0, 101.0, 2.6},
};

/// Draws one view's things into the painter, whose units are those above.
class ViewDrawing {
  public:
    ViewDrawing(QPainter& painter, const Palette& palette, double unit_px)
        : painter_(painter), palette_(palette), unit_px_(unit_px) {}

    void things(DescribeView view) {
        pen(palette_.ink, 1.3);
        switch (view) {
            case DescribeView::along_crank:
                train();
                break;
            case DescribeView::from_side:
                side();
                break;
            case DescribeView::rod:
                rod();
                break;
            case DescribeView::cup:
                cup();
                break;
            case DescribeView::tube:
                tube();
                break;
        }
    }

    void length(const DrawnLength& drawn, bool lit) {
        const QPointF way = drawn.to - drawn.from;
        const double long_by = std::hypot(way.x(), way.y());
        const QPointF aside(-way.y() / long_by * drawn.aside, way.x() / long_by * drawn.aside);
        const QPointF a = drawn.from + aside;
        const QPointF b = drawn.to + aside;
        pen(lit ? palette_.accent : palette_.faint_ink, lit ? 2.6 : 1.0);
        painter_.drawLine(a, b);
        if (!lit) {
            return;
        }
        pen(palette_.accent, 1.0);
        painter_.drawLine(drawn.from, a);
        painter_.drawLine(drawn.to, b);
        const bool tight = long_by * unit_px_ < 40.0;
        arrow(a, tight ? way : -way);
        arrow(b, tight ? -way : way);
        pen(palette_.accent, 2.6);
        if (tight) {
            const QPointF out = way / long_by * (16.0 / unit_px_);
            painter_.drawLine(a - out, a);
            painter_.drawLine(b, b + out);
        }
        label_at_ = (a + b) / 2.0;
    }

    void angle(const DrawnAngle& drawn, bool lit) {
        pen(lit ? palette_.accent : palette_.faint_ink, lit ? 2.6 : 1.0);
        const auto direction = [&](double deg) {
            const double rad = deg * M_PI / 180.0;
            return drawn.about + drawn.radius * QPointF(std::cos(rad), std::sin(rad));
        };
        const QRectF box(drawn.about.x() - drawn.radius, drawn.about.y() - drawn.radius,
                         2 * drawn.radius, 2 * drawn.radius);
        // The painter's y points down and is turned round here: so are its angles.
        painter_.drawArc(box, static_cast<int>(-16 * drawn.from_deg),
                         static_cast<int>(-16 * (drawn.to_deg - drawn.from_deg)));
        if (lit) {
            pen(palette_.accent, 1.2);
            painter_.drawLine(drawn.about, direction(drawn.from_deg));
            painter_.drawLine(drawn.about, direction(drawn.to_deg));
            label_at_ = direction((drawn.from_deg + drawn.to_deg) / 2.0);
        }
    }

    [[nodiscard]] const std::optional<QPointF>& label_at() const { return label_at_; }

  private:
    void pen(const QColor& colour, double width_px) {
        QPen pen(colour, width_px);
        pen.setCosmetic(true);
        painter_.setPen(pen);
    }
    void arrow(const QPointF& at, const QPointF& pointing) {
        const double size = 9.0 / unit_px_;
        const double long_by = std::hypot(pointing.x(), pointing.y());
        const QPointF back = -pointing / long_by * size;
        const QPointF across(-back.y() * 0.4, back.x() * 0.4);
        painter_.setBrush(palette_.accent);
        painter_.drawPolygon(QPolygonF{at, at + back + across, at + back - across});
        painter_.setBrush(Qt::NoBrush);
    }
    void circle(const QPointF& centre, double radius) {
        painter_.drawEllipse(centre, radius, radius);
    }
    /// A bar of some thickness between two points.
    void bar(const QPointF& from, const QPointF& to, double thick) {
        const QPointF way = to - from;
        const double long_by = std::hypot(way.x(), way.y());
        const QPointF across(-way.y() / long_by * thick / 2, way.x() / long_by * thick / 2);
        painter_.drawPolygon(QPolygonF{from + across, to + across, to - across, from - across});
    }

    void train() {
        circle(crank, 0.9);
        cross(crank, 1.3);
        circle(cam, 0.8);
        painter_.drawArc(QRectF(cam.x() - 0.55, cam.y() - 1.5, 1.1, 2.0), 0, 360 * 16);
        painter_.drawRect(QRectF(-4.1, 4.3, 1.2, 2.4));
        bar(seat, ball, 0.34);
        circle(seat, 0.24);
        circle(ball, 0.24);
        circle(shaft, 0.42);
        painter_.drawPolyline(QPolygonF{
            {ball.x(), ball.y() + 0.3}, {shaft.x(), shaft.y() + 0.6}, {tip.x(), tip.y() + 0.35}});
        painter_.drawPolyline(QPolygonF{{ball.x() + 0.3, ball.y() - 0.2},
                                        {shaft.x(), shaft.y() - 0.6},
                                        {tip.x() + 0.1, tip.y() - 0.3}});
        circle(tip, 0.3);
        const QPointF stem_top(0.43, 14.9);
        painter_.drawLine(stem_top, valve_head);
        bar(valve_head + QPointF(-0.95, -0.24), valve_head + QPointF(0.95, 0.24), 0.16);
        // Block with its bore, gasket, head.
        painter_.drawPolyline(QPolygonF{{-2.0, 1.5}, {-2.0, deck_z}, {-2.6, deck_z}});
        painter_.drawPolyline(QPolygonF{{2.0, 1.5}, {2.0, deck_z}, {2.6, deck_z}});
        painter_.drawLine(QPointF(-2.0, deck_z), QPointF(2.0, deck_z));
        painter_.drawRect(QRectF(-2.45, deck_z + gasket, 5.0, 3.2));
        pen(palette_.faint_ink, 1.0);
        painter_.drawLine(QPointF(0.0, -1.0), QPointF(0.0, 16.2));
        pen(palette_.ink, 1.3);
        // The tube round the rod.
        const QPointF way = ball - seat;
        const double long_by = std::hypot(way.x(), way.y());
        const QPointF across(-way.y() / long_by * 0.42, way.x() / long_by * 0.42);
        for (const double side : {1.0, -1.0}) {
            painter_.drawLine(seat + 0.42 * way + side * across, seat + 0.7 * way + side * across);
        }
    }
    void cross(const QPointF& at, double size) {
        painter_.drawLine(at - QPointF(size, 0.0), at + QPointF(size, 0.0));
        painter_.drawLine(at - QPointF(0.0, size), at + QPointF(0.0, size));
    }

    void side() {
        painter_.drawRect(QRectF(0.0, 0.0, 11.0, 5.0));
        pen(palette_.faint_ink, 1.0);
        for (const double x : {3.0, 8.0}) {
            painter_.drawLine(QPointF(x, -0.6), QPointF(x, 9.3));
        }
        pen(palette_.ink, 1.3);
        for (const double x : {3.0, 8.0}) {
            painter_.drawRect(QRectF(x - 1.7, 1.6, 3.4, 3.4));
            for (const double side : {-1.0, 1.0}) {
                painter_.drawRect(QRectF(x + side * 1.3 - 0.28, 0.2, 0.56, 0.9));
                bar({x + side * 1.3, 0.9}, {x + side * 1.25, 7.9}, 0.16);
                painter_.drawRect(QRectF(x + side * 1.0 - 0.3, 7.7, 0.6, 0.9));
            }
        }
    }

    void rod() {
        circle({0.0, 0.45}, 0.45);
        circle({0.0, 8.55}, 0.45);
        painter_.setBrush(palette_.paper);
        painter_.drawRect(QRectF(-0.32, 0.75, 0.64, 7.5));
        painter_.setBrush(Qt::NoBrush);
    }

    /// The rod's upper end, cut, and the screw's ball above it.
    void cup() {
        painter_.setBrush(QBrush(palette_.faint_ink, Qt::BDiagPattern));
        QPainterPath end;
        end.moveTo(-0.5, 5.5);
        end.lineTo(-0.5, 7.2);
        end.lineTo(-0.95, 7.6);
        end.lineTo(-0.95, 8.75);
        end.lineTo(-0.6, 8.75);
        end.cubicTo(-0.6, 8.2, -0.35, 8.0, 0.0, 8.0);
        end.cubicTo(0.35, 8.0, 0.6, 8.2, 0.6, 8.75);
        end.lineTo(0.95, 8.75);
        end.lineTo(0.95, 7.6);
        end.lineTo(0.5, 7.2);
        end.lineTo(0.5, 5.5);
        painter_.drawPath(end);
        painter_.setBrush(Qt::NoBrush);
        circle({0.0, 8.6}, 0.6);
        painter_.drawRect(QRectF(-0.35, 9.15, 0.7, 1.0));
    }

    void tube() {
        for (const double x : {-1.5, 1.1}) {
            painter_.setBrush(QBrush(palette_.faint_ink, Qt::BDiagPattern));
            painter_.drawRect(QRectF(x, 1.5, 0.4, 5.0));
        }
        painter_.setBrush(palette_.paper);
        bar({0.1, -0.6}, {-0.1, 9.0}, 0.8);
        painter_.setBrush(Qt::NoBrush);
        circle({-0.1, 9.0}, 0.55);
    }

    QPainter& painter_;
    const Palette& palette_;
    double unit_px_;
    std::optional<QPointF> label_at_;
};

QRectF bounds_of(DescribeView view) {
    switch (view) {
        case DescribeView::along_crank:
            return {-6.6, -1.4, 11.4, 18.4};
        case DescribeView::from_side:
            return {-0.6, -1.2, 12.2, 11.2};
        case DescribeView::rod:
            return {-4.0, -0.8, 8.0, 11.0};
        case DescribeView::cup:
            return {-2.6, 5.3, 5.2, 5.3};
        case DescribeView::tube:
            return {-4.4, -0.8, 8.8, 11.4};
    }
    return {};
}

struct Words {
    Q_DECLARE_TR_FUNCTIONS(DimensionPicture)
};

/// What the sides of a view are called.
QString caption(DescribeView view, bool outboard) {
    switch (view) {
        case DescribeView::along_crank:
            return Words::tr("seen along the crank; the rods' side is left");
        case DescribeView::from_side:
            return Words::tr("seen from the rods' side; the engine's front is left");
        case DescribeView::rod:
            return Words::tr("the rod by itself");
        case DescribeView::cup:
            return Words::tr("the rod's upper end, cut open, with the screw's ball in it");
        case DescribeView::tube:
            return outboard ? Words::tr("cut along the rod; outboard is left, the rocker above")
                            : Words::tr("cut along the rod; the front is left, the rocker above");
    }
    return {};
}

void draw_label(QPainter& painter, const QRectF& within, const Palette& palette, const QPointF& at,
                const QString& label) {
    const int room = static_cast<int>(within.width() * 0.62);
    QRectF box(painter.fontMetrics().boundingRect(QRect(0, 0, room, 1000),
                                                  Qt::AlignLeft | Qt::TextWordWrap, label));
    box.adjust(-5, -3, 5, 3);
    box.moveCenter(at - QPointF(0.0, box.height() / 2.0 + 12.0));
    box.moveLeft(std::clamp(box.left(), within.left() + 2.0, within.right() - box.width() - 2.0));
    box.moveTop(std::clamp(box.top(), within.top() + 2.0, within.bottom() - box.height() - 2.0));
    painter.setPen(palette.accent);
    painter.setBrush(palette.paper);
    painter.drawRoundedRect(box, 3, 3);
    painter.setPen(palette.ink);
    painter.drawText(box.adjusted(5, 3, -5, -3), Qt::AlignLeft | Qt::TextWordWrap, label);
}

} // namespace

DescribeView view_of_dimension(std::string_view dimension) {
    for (const DrawnLength& drawn : lengths) {
        if (drawn.name == dimension) {
            return drawn.view;
        }
    }
    return DescribeView::along_crank; // angles are all drawn there
}

void paint_dimension(QPainter& painter, const QRectF& within, const Palette& palette,
                     std::string_view dimension, const QString& label) {
    const DescribeView view = view_of_dimension(dimension);
    const bool outboard = dimension.substr(0, 12) == "gap_outboard";
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.fillRect(within, palette.paper);
    const double caption_height = painter.fontMetrics().height() + 6.0;
    const QRectF bounds = bounds_of(view);
    const QRectF room = within.adjusted(8, 8, -8, -8 - caption_height);
    const double unit_px = std::min(room.width() / bounds.width(), room.height() / bounds.height());
    painter.setPen(palette.ink);
    painter.drawText(within.adjusted(8, 0, -8, -4), Qt::AlignBottom | Qt::AlignHCenter,
                     caption(view, outboard));
    painter.save();
    painter.translate(room.center());
    painter.scale(unit_px, -unit_px); // y up
    painter.translate(-bounds.center());
    ViewDrawing drawing(painter, palette, unit_px);
    drawing.things(view);
    for (const bool lit : {false, true}) {
        for (const DrawnLength& drawn : lengths) {
            const bool is_lit = drawn.name == dimension;
            const bool same_place = drawn.view == tube_view &&
                                    (drawn.name.substr(0, 12) == "gap_outboard") != outboard &&
                                    drawn.name.substr(0, 4) == "gap_";
            if (drawn.view == view && is_lit == lit && !same_place) {
                drawing.length(drawn, is_lit);
            }
        }
        for (const DrawnAngle& drawn : angles) {
            if (drawn.view == view && (drawn.name == dimension) == lit) {
                drawing.angle(drawn, lit);
            }
        }
    }
    const auto label_at = drawing.label_at();
    const QPointF at_px = label_at ? painter.transform().map(*label_at) : QPointF();
    painter.restore();
    if (label_at && !label.isEmpty()) {
        // The label is placed in the painter's own units as they were before.
        const QPointF at = painter.transform().inverted().map(at_px);
        draw_label(painter, within, palette, at, label);
    }
    painter.restore();
}

DimensionPicture::DimensionPicture(QWidget* parent) : QWidget(parent) {
    setMinimumSize(260, 260);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Expanding);
    setAccessibleName(tr("Drawing of the dimension"));
}

void DimensionPicture::show_dimension(const std::string& name) {
    name_ = name;
    const EngineDimension* dimension = dimension_called(name);
    setAccessibleDescription(dimension ? words::how_to_measure(*dimension) : QString());
    update();
}

void DimensionPicture::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    const EngineDimension* dimension = dimension_called(name_);
    paint_dimension(painter, rect(), palette_for(theme_of(palette())), name_,
                    dimension ? words::dimension(*dimension) : QString());
}

} // namespace rodway
