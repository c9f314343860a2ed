#pragma once

#include <QByteArray>
#include <QFont>
#include <QImage>
#include <QPainter>
#include <QRectF>
#include <QString>
#include <optional>
#include <vector>

#include "core/engine/engine.h"
#include "render/check_state.h"
#include "render/palette.h"

namespace rodway {

/// One valve of the plan, or a cylinder as a whole. Places: millimetres in the engine seen from
/// above, `x` from front to rear, `y` as in the block frame.
struct PlanValve {
    ValvePosition position;
    double x_mm = 0.0;
    double y_mm = 0.0;
    QString value; ///< a few signs, e.g. a clearance; may be empty
    CheckState state = CheckState::not_yet;
    bool whole_cylinder = false; ///< of `position` only the cylinder counts; no letter is painted
};

struct PlanCylinder {
    int number = 1;
    double x_mm = 0.0;
    double y_mm = 0.0;
    double radius_mm = 0.0;
};

/// What the cylinder plan shows. `places_of` gives the places; values, states and words are put in
/// by the caller.
struct PlanContent {
    std::vector<PlanCylinder> cylinders;
    std::vector<PlanValve> valves;
    Turning turning = Turning::clockwise;
    QString front_label;    ///< at the front end, e.g. "Front"
    QString intake_letter;  ///< at intake valves, e.g. "I"
    QString exhaust_letter; ///< at exhaust valves, e.g. "E"
    std::optional<ValvePosition> selected;
};

/// Cylinders and valves where the engine has them, seen from above with every bank laid flat:
/// cylinder circles about a bank's own line, valves at their tips, no states, values or words.
/// Cylinders without trains get no valves.
[[nodiscard]] PlanContent places_of(const Engine& engine);

/// The same with every cylinder in place of its valves.
[[nodiscard]] PlanContent cylinders_of(const Engine& engine);

struct PlanStyle {
    Palette palette;
    QFont font;
    bool focused = false; ///< the selected valve's ring is drawn stronger
};

/// Where each thing is painted, in the painter's units. Cylinders and valves come in the content's
/// order.
struct PlanLayout {
    std::vector<QRectF> cylinders; ///< square round each bore
    std::vector<QRectF> numbers;   ///< cylinder numbers, beside the bores
    std::vector<QRectF> valves;    ///< square round each valve's sign; none overlap
    std::vector<QRectF> letters;   ///< intake or exhaust, at one side of the sign
    std::vector<QRectF> values;    ///< value text, at the other side
    QRectF front;                  ///< front label, end of the crank, turning arrow
    double crank_y = 0.0;
    double text_px = 0.0; ///< letters and values; smaller than the font where it must be
};

/// Front is at the left, `y` of the block frame goes up. Valves which would overlap are spread
/// apart along their bank, order kept; where values would overlap, they stand above and below by
/// turns.
[[nodiscard]] PlanLayout lay_out_plan(const QRectF& place, const PlanContent& content,
                                      const QFont& font);

/// The same plan in the window, in print and in a document.
void paint_cylinder_plan(QPainter& painter, const QRectF& place, const PlanContent& content,
                         const PlanStyle& style);

/// The plan without a window. Needs a QGuiApplication. Sizes in pixels at 96 per inch.
[[nodiscard]] QImage plan_image(const PlanContent& content, const PlanStyle& style, QSize size);
[[nodiscard]] QByteArray plan_svg(const PlanContent& content, const PlanStyle& style, QSize size);

/// One state's sign alone, for a key beside the plan.
void paint_state_sign(QPainter& painter, const QRectF& place, CheckState state,
                      const Palette& palette);

/// The valve painted at a point, or nothing.
[[nodiscard]] std::optional<ValvePosition> valve_at(const QPointF& point, const QRectF& place,
                                                    const PlanContent& content, const QFont& font);

} // namespace rodway
