#include "render/plots/clearance_plot.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace rodway {
namespace {

constexpr double cycle_deg = 720.0;

QVector<double> to_qt(const std::vector<double>& values) {
    return {values.begin(), values.end()};
}

/// A dash of its own for each curve, so that a grey print tells them apart.
QPen series_pen(std::size_t index, const Palette& palette) {
    QPen pen(palette.series[index % palette.series.size()], 1.8);
    static const std::array<QVector<qreal>, 6> dashes{
        QVector<qreal>{},     {7.0, 3.0}, {1.5, 2.5},
        {8.0, 3.0, 1.5, 3.0}, {4.0, 2.0}, {8.0, 2.5, 1.5, 2.5, 1.5, 2.5}};
    const QVector<qreal>& dash = dashes[index % dashes.size()];
    if (!dash.isEmpty()) {
        pen.setDashPattern(dash);
    }
    pen.setCapStyle(Qt::FlatCap);
    return pen;
}

/// As many decimals on every label of an axis as the steps between them need.
int decimals_of_ticks(QCPAxis& axis) {
    constexpr int most = 6;
    QVector<double> ticks;
    axis.ticker()->generate(axis.range(), QLocale::c(), QLatin1Char('f'), most, ticks, nullptr,
                            nullptr);
    double step = ticks.size() > 1 ? ticks[1] - ticks[0] : 0.0;
    int decimals = 0;
    while (decimals < most && std::abs(step - std::round(step)) > 1e-3 * std::abs(step)) {
        step *= 10.0;
        ++decimals;
    }
    return decimals;
}

void widen(double& low, double& high, double value) {
    if (std::isfinite(value)) {
        low = std::min(low, value);
        high = std::max(high, value);
    }
}

} // namespace

ClearancePlot::ClearancePlot(QWidget* parent) : QCustomPlot(parent) {
    plotLayout()->clear();
    clearance_ = new QCPAxisRect(this);
    lift_ = new QCPAxisRect(this);
    key_ = new QCPLegend;
    plotLayout()->addElement(0, 0, key_);
    plotLayout()->addElement(1, 0, clearance_);
    plotLayout()->addElement(2, 0, lift_);
    plotLayout()->setRowStretchFactor(0, 0.001);
    plotLayout()->setRowStretchFactor(1, 2.2);
    plotLayout()->setRowStretchFactor(2, 1.0);
    plotLayout()->setRowSpacing(4);
    auto* group = new QCPMarginGroup(this);
    crank_ticks_.reset(new QCPAxisTickerFixed);
    crank_ticks_->setScaleStrategy(QCPAxisTickerFixed::ssNone);
    fit_ticks({0.0, cycle_deg});
    for (QCPAxisRect* rect : {clearance_, lift_}) {
        rect->setMarginGroup(QCP::msLeft | QCP::msRight, group);
        rect->setRangeZoomAxes(rect->axis(QCPAxis::atBottom), nullptr);
        rect->axis(QCPAxis::atBottom)->setTicker(crank_ticks_);
        rect->axis(QCPAxis::atBottom)->setRange(0.0, cycle_deg);
        // Zoomed or moved by either, both show the same piece of the cycle.
        QCPAxisRect* other = rect == clearance_ ? lift_ : clearance_;
        connect(rect->axis(QCPAxis::atBottom),
                QOverload<const QCPRange&>::of(&QCPAxis::rangeChanged), this,
                [this, rect, other](const QCPRange& range) {
                    const QCPRange kept = range.bounded(0.0, cycle_deg);
                    fit_ticks(kept);
                    rect->axis(QCPAxis::atBottom)->setRange(kept);
                    other->axis(QCPAxis::atBottom)->setRange(kept);
                });
    }
    clearance_->axis(QCPAxis::atBottom)->setTickLabels(false);
    key_->setFillOrder(QCPLayoutGrid::foColumnsFirst);
    key_->setMargins(QMargins(6, 2, 6, 2));
    key_->setLayer(QLatin1String("legend"));
    addLayer(QLatin1String("cursor"));
    layer(QLatin1String("cursor"))->setMode(QCPLayer::lmBuffered);
    setInteractions(QCP::iRangeZoom);
    setFocusPolicy(Qt::NoFocus);
}

void ClearancePlot::set_content(const ClearanceCurveContent& content, const Palette& palette) {
    const bool first = plottableCount() == 0;
    cursor_lines_.clear();
    labels_.clear();
    clearItems();
    clearPlottables();
    style_axes(palette);
    clearance_->axis(QCPAxis::atLeft)->setLabel(content.clearance_title);
    lift_->axis(QCPAxis::atLeft)->setLabel(content.lift_title);
    lift_->axis(QCPAxis::atBottom)->setLabel(content.crank_title);
    lift_->setVisible(!content.lift.empty());
    add_curves(content, palette);
    add_limits(content, palette);
    add_marks(content, palette);
    add_doubts(content, palette);
    fit_values(content);
    set_key_columns();
    place_labels();
    cursor_deg_ = content.cursor_crank_deg;
    add_cursor(palette);
    if (first) {
        show_whole_cycle();
    }
    replot(QCustomPlot::rpQueuedReplot);
}

void ClearancePlot::style_axes(const Palette& palette) {
    setBackground(QBrush(palette.paper));
    key_->setBrush(Qt::NoBrush);
    key_->setBorderPen(Qt::NoPen);
    key_->setTextColor(palette.ink);
    key_->setFont(font());
    key_->setIconSize(34, 12);
    for (QCPAxisRect* rect : {clearance_, lift_}) {
        rect->setupFullAxesBox();
        for (QCPAxis* axis : rect->axes()) {
            axis->setBasePen(QPen(palette.ink, 1.0));
            axis->setTickPen(QPen(palette.ink, 1.0));
            axis->setSubTickPen(QPen(palette.faint_ink, 1.0));
            axis->setTickLabelColor(palette.ink);
            axis->setLabelColor(palette.ink);
            axis->setTickLabelFont(font());
            axis->setLabelFont(font());
            axis->grid()->setPen(QPen(palette.faint_ink, 0.6, Qt::DotLine));
            axis->grid()->setZeroLinePen(QPen(palette.faint_ink, 1.0));
        }
        rect->axis(QCPAxis::atLeft)->ticker()->setTickCount(rect == clearance_ ? 5 : 3);
    }
    for (QCPAxisRect* rect : {clearance_, lift_}) {
        rect->axis(QCPAxis::atTop)->setTicks(false);
        rect->axis(QCPAxis::atRight)->setTicks(false);
    }
    clearance_->axis(QCPAxis::atBottom)->setTickLabels(false);
}

void ClearancePlot::add_curves(const ClearanceCurveContent& content, const Palette& palette) {
    const auto add = [&](QCPAxisRect* rect, const std::vector<CurveSeries>& list) {
        for (std::size_t at = 0; at < list.size(); ++at) {
            RODWAY_ASSERT(list[at].crank_deg.size() == list[at].value.size());
            auto* graph = new QCPGraph(rect->axis(QCPAxis::atBottom), rect->axis(QCPAxis::atLeft));
            graph->setName(list[at].name);
            graph->setPen(series_pen(at, palette));
            graph->setData(to_qt(list[at].crank_deg), to_qt(list[at].value), true);
            graph->removeFromLegend();
            if (rect == clearance_) {
                graph->addToLegend(key_);
            }
        }
    };
    key_->clearItems();
    add(clearance_, content.clearance);
    add(lift_, content.lift);
    key_->setVisible(content.clearance.size() > 1);
}

void ClearancePlot::add_limits(const ClearanceCurveContent& content, const Palette& palette) {
    for (const CurveLimit& limit : content.limits) {
        auto* line = new QCPItemStraightLine(this);
        line->setClipAxisRect(clearance_);
        line->setPen(limit.wish ? QPen(palette.limit, 1.0, Qt::DotLine) : QPen(palette.limit, 1.6));
        auto* text = new QCPItemText(this);
        text->setClipAxisRect(clearance_);
        text->setText(limit.label);
        text->setColor(palette.limit);
        QColor ground = palette.paper;
        ground.setAlpha(205); // where a curve can't be kept clear of, the words still read
        text->setBrush(ground);
        text->setFont(font());
        text->setPositionAlignment(Qt::AlignLeft | Qt::AlignBottom);
        text->setPadding(QMargins(3, 0, 3, 0));
        labels_.push_back(text);
        for (QCPItemPosition* position : {line->point1, line->point2, text->position}) {
            position->setAxisRect(clearance_);
            position->setAxes(clearance_->axis(QCPAxis::atBottom),
                              clearance_->axis(QCPAxis::atLeft));
            position->setTypeX(QCPItemPosition::ptAxisRectRatio);
            position->setTypeY(QCPItemPosition::ptPlotCoords);
        }
        line->point1->setCoords(0.0, limit.value);
        line->point2->setCoords(1.0, limit.value);
        text->position->setCoords(0.005, limit.value);
    }
}

void ClearancePlot::add_marks(const ClearanceCurveContent& content, const Palette& palette) {
    for (const CurveMark& mark : content.marks) {
        RODWAY_ASSERT(mark.series < content.clearance.size());
        auto* graph =
            new QCPGraph(clearance_->axis(QCPAxis::atBottom), clearance_->axis(QCPAxis::atLeft));
        graph->removeFromLegend(key_);
        graph->setLineStyle(QCPGraph::lsNone);
        const QColor colour = palette.series[mark.series % palette.series.size()];
        graph->setScatterStyle(QCPScatterStyle(QCPScatterStyle::ssTriangleInverted,
                                               QPen(colour, 1.6), QBrush(palette.paper), 11.0));
        graph->addData(mark.crank_deg, mark.value);
    }
}

void ClearancePlot::add_doubts(const ClearanceCurveContent& content, const Palette& palette) {
    for (const CurveMark& mark : content.marks) {
        if (!mark.doubt) {
            continue;
        }
        auto* bar =
            new QCPGraph(clearance_->axis(QCPAxis::atBottom), clearance_->axis(QCPAxis::atLeft));
        bar->removeFromLegend(key_);
        const QColor colour = palette.series[mark.series % palette.series.size()];
        bar->setPen(QPen(colour, 1.4));
        bar->setScatterStyle(QCPScatterStyle(QCPScatterStyle::ssPlus, colour, 9.0));
        bar->setData({mark.crank_deg, mark.crank_deg},
                     {mark.value - *mark.doubt, mark.value + *mark.doubt}, true);
    }
}

void ClearancePlot::place_labels() {
    // Half of this on either side of a label's line is the label itself.
    constexpr double tall_px = 20.0;
    constexpr double wide = 0.3; // of the plot
    constexpr int places = 15;
    const double low = clearance_->axis(QCPAxis::atLeft)->range().lower;
    const double high = clearance_->axis(QCPAxis::atLeft)->range().upper;
    const double px_per_unit = std::max(1, clearance_->height()) / std::max(1e-9, high - low);
    const QCPRange crank = clearance_->axis(QCPAxis::atBottom)->range();
    for (QCPItemText* label : labels_) {
        const double middle = label->position->coords().y() + 0.5 * tall_px / px_per_unit;
        double best_room = -1.0;
        double best = 0.005;
        for (int at = 0; at <= places; ++at) {
            const double from = 0.005 + (0.995 - wide - 0.005) * at / places;
            double room = std::numeric_limits<double>::infinity();
            for (int graph = 0; graph < graphCount(); ++graph) {
                if (this->graph(graph)->keyAxis() != clearance_->axis(QCPAxis::atBottom)) {
                    continue;
                }
                const auto points = this->graph(graph)->data();
                const auto begin = points->findBegin(crank.lower + from * crank.size());
                const auto end = points->findEnd(crank.lower + (from + wide) * crank.size());
                for (auto point = begin; point != end; ++point) {
                    if (std::isfinite(point->value)) {
                        room = std::min(room, std::abs(point->value - middle) * px_per_unit);
                    }
                }
            }
            // The first place with room enough will do: labels then stand in one column.
            if (room > best_room && best_room < tall_px) {
                best_room = room;
                best = from;
            }
        }
        label->position->setCoords(best, label->position->coords().y());
    }
}

void ClearancePlot::set_key_columns() {
    constexpr int column_px = 92; // a dash and a valve's name
    key_->setFillOrder(QCPLayoutGrid::foColumnsFirst);
    key_->setWrap(std::max(1, width() / column_px));
}

void ClearancePlot::resizeEvent(QResizeEvent* event) {
    QCustomPlot::resizeEvent(event);
    set_key_columns();
    place_labels();
    replot(QCustomPlot::rpQueuedReplot);
}

void ClearancePlot::add_cursor(const Palette& palette) {
    for (QCPAxisRect* rect : {clearance_, lift_}) {
        auto* line = new QCPItemStraightLine(this);
        line->setLayer(QLatin1String("cursor"));
        line->setClipAxisRect(rect);
        line->setPen(QPen(palette.cursor, 1.4));
        for (QCPItemPosition* position : {line->point1, line->point2}) {
            position->setAxisRect(rect);
            position->setAxes(rect->axis(QCPAxis::atBottom), rect->axis(QCPAxis::atLeft));
            position->setTypeX(QCPItemPosition::ptPlotCoords);
            position->setTypeY(QCPItemPosition::ptAxisRectRatio);
        }
        cursor_lines_.push_back(line);
    }
    if (cursor_deg_) {
        set_cursor(*cursor_deg_);
    } else {
        for (QCPItemStraightLine* line : cursor_lines_) {
            line->setVisible(false);
        }
    }
}

void ClearancePlot::set_cursor(double crank_deg) {
    cursor_deg_ = crank_deg;
    for (QCPItemStraightLine* line : cursor_lines_) {
        line->setVisible(true);
        line->point1->setCoords(crank_deg, 0.0);
        line->point2->setCoords(crank_deg, 1.0);
    }
    layer(QLatin1String("cursor"))->replot();
}

void ClearancePlot::fit_values(const ClearanceCurveContent& content) {
    const auto fit = [](QCPAxis* axis, double low, double high) {
        if (low > high) {
            low = 0.0;
            high = 1.0;
        }
        const double margin =
            high > low ? 0.08 * (high - low) : std::max(1e-3, 0.1 * std::abs(high));
        axis->setRange(low - margin, high + margin);
        axis->setNumberFormat(QLatin1String("f"));
        axis->setNumberPrecision(decimals_of_ticks(*axis));
    };
    double low = std::numeric_limits<double>::infinity();
    double high = -low;
    for (const CurveSeries& series : content.clearance) {
        for (const double value : series.value) {
            widen(low, high, value);
        }
    }
    for (const CurveLimit& limit : content.limits) {
        widen(low, high, limit.value);
    }
    for (const CurveMark& mark : content.marks) {
        widen(low, high, mark.value - mark.doubt.value_or(0.0));
    }
    // Nothing between rod and wall is where contact begins: it is always in the picture.
    widen(low, high, 0.0);
    fit(clearance_->axis(QCPAxis::atLeft), low, high);
    low = std::numeric_limits<double>::infinity();
    high = -low;
    for (const CurveSeries& series : content.lift) {
        for (const double value : series.value) {
            widen(low, high, value);
        }
    }
    fit(lift_->axis(QCPAxis::atLeft), low, high);
}

void ClearancePlot::fit_ticks(const QCPRange& crank) {
    constexpr std::array<double, 8> steps{1.0, 2.0, 5.0, 10.0, 15.0, 30.0, 45.0, 90.0};
    constexpr double most_labels = 9.0;
    const auto* fits = std::find_if(steps.begin(), steps.end() - 1, [&](double step) {
        return crank.size() / step <= most_labels;
    });
    crank_ticks_->setTickStep(*fits);
}

void ClearancePlot::show_whole_cycle() {
    clearance_->axis(QCPAxis::atBottom)->setRange(0.0, cycle_deg);
    replot(QCustomPlot::rpQueuedReplot);
}

void ClearancePlot::choose_at(double x) {
    const double deg = clearance_->axis(QCPAxis::atBottom)->pixelToCoord(x);
    emit crank_chosen(std::clamp(deg, 0.0, std::nextafter(cycle_deg, 0.0)));
}

void ClearancePlot::mousePressEvent(QMouseEvent* event) {
    QCustomPlot::mousePressEvent(event);
    if (event->button() == Qt::LeftButton) {
        choose_at(event->position().x());
    }
}

void ClearancePlot::mouseMoveEvent(QMouseEvent* event) {
    QCustomPlot::mouseMoveEvent(event);
    if (event->buttons().testFlag(Qt::LeftButton)) {
        choose_at(event->position().x());
    }
}

void ClearancePlot::mouseDoubleClickEvent(QMouseEvent* event) {
    QCustomPlot::mouseDoubleClickEvent(event);
    show_whole_cycle();
}

} // namespace rodway
