#include "render/cylinder_plan_view.h"

#include <QAccessible>
#include <QHelpEvent>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QToolTip>
#include <algorithm>
#include <cmath>

namespace rodway {

CylinderPlanView::CylinderPlanView(QWidget* parent)
    : QWidget(parent), palette_(palette_for(theme_of(palette()))) {
    setFocusPolicy(Qt::StrongFocus);
    setAttribute(Qt::WA_OpaquePaintEvent);
}

void CylinderPlanView::set_content(PlanContent content) {
    const std::optional<ValvePosition> kept = content_.selected;
    content_ = std::move(content);
    if (!content_.selected && kept && find(*kept) != nullptr) {
        content_.selected = kept;
    }
    say_selected();
    update();
}

void CylinderPlanView::set_walk(std::vector<ValvePosition> order) {
    walk_ = std::move(order);
}

void CylinderPlanView::set_selected(std::optional<ValvePosition> valve) {
    content_.selected = valve && find(*valve) != nullptr ? valve : std::nullopt;
    say_selected();
    update();
}

void CylinderPlanView::set_theme(Theme theme) {
    palette_ = palette_for(theme);
    update();
}

void CylinderPlanView::set_description(std::function<QString(const PlanValve&)> describe) {
    describe_ = std::move(describe);
    say_selected();
}

std::optional<ValvePosition> CylinderPlanView::valve_at(const QPointF& point) const {
    return rodway::valve_at(point, place(), content_, font());
}

std::optional<QPointF> CylinderPlanView::centre_of(const ValvePosition& valve) const {
    const PlanValve* found = find(valve);
    if (found == nullptr) {
        return std::nullopt;
    }
    const PlanLayout layout = lay_out_plan(place(), content_, font());
    return layout.valves[static_cast<std::size_t>(found - content_.valves.data())].center();
}

QRectF CylinderPlanView::place() const {
    return QRectF(rect()).adjusted(3.0, 3.0, -3.0, -3.0);
}

const PlanValve* CylinderPlanView::find(const ValvePosition& valve) const {
    const auto found =
        std::find_if(content_.valves.begin(), content_.valves.end(),
                     [&](const PlanValve& candidate) { return candidate.position == valve; });
    return found == content_.valves.end() ? nullptr : &*found;
}

void CylinderPlanView::select(const ValvePosition& valve) {
    if (content_.selected != valve) {
        content_.selected = valve;
        say_selected();
        update();
        emit valve_selected(valve);
    }
}

void CylinderPlanView::say_selected() {
    const PlanValve* valve = content_.selected ? find(*content_.selected) : nullptr;
    const QString said = valve != nullptr && describe_ ? describe_(*valve) : QString();
    if (said != accessibleDescription()) {
        setAccessibleDescription(said);
        QAccessibleEvent changed(this, QAccessible::DescriptionChanged);
        QAccessible::updateAccessibility(&changed);
    }
}

bool CylinderPlanView::walk(int by) {
    std::vector<ValvePosition> order;
    for (const ValvePosition& valve : walk_) {
        if (find(valve) != nullptr) {
            order.push_back(valve);
        }
    }
    if (walk_.empty()) {
        for (const PlanValve& valve : content_.valves) {
            order.push_back(valve.position);
        }
    }
    if (order.empty()) {
        return false;
    }
    const auto here =
        content_.selected ? std::find(order.begin(), order.end(), *content_.selected) : order.end();
    if (here == order.end()) {
        select(by > 0 ? order.front() : order.back());
        return true;
    }
    const auto next = here - order.begin() + by;
    if (next < 0 || next >= static_cast<std::ptrdiff_t>(order.size())) {
        return false;
    }
    select(order[static_cast<std::size_t>(next)]);
    return true;
}

// The nearest valve that way; what lies aside counts double, so that a row is followed to its end.
void CylinderPlanView::go(const QPointF& direction) {
    const std::optional<QPointF> from =
        content_.selected ? centre_of(*content_.selected) : std::nullopt;
    if (!from) {
        walk(1);
        return;
    }
    const PlanLayout layout = lay_out_plan(place(), content_, font());
    double least = 1e300;
    std::optional<ValvePosition> best;
    for (std::size_t at = 0; at < content_.valves.size(); ++at) {
        const QPointF way = layout.valves[at].center() - *from;
        const double ahead = QPointF::dotProduct(way, direction);
        const double aside = std::abs(way.x() * direction.y() - way.y() * direction.x());
        if (ahead > 1.0 && aside <= 2.0 * ahead && ahead + 2.0 * aside < least) {
            least = ahead + 2.0 * aside;
            best = content_.valves[at].position;
        }
    }
    if (best) {
        select(*best);
    }
}

bool CylinderPlanView::event(QEvent* event) {
    if (event->type() == QEvent::ToolTip && describe_) {
        const auto* help = static_cast<QHelpEvent*>(event);
        const std::optional<ValvePosition> valve = valve_at(help->pos());
        if (valve) {
            QToolTip::showText(help->globalPos(), describe_(*find(*valve)), this);
        } else {
            QToolTip::hideText();
        }
        return true;
    }
    return QWidget::event(event);
}

void CylinderPlanView::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.fillRect(rect(), palette_.paper);
    paint_cylinder_plan(painter, place(), content_, {palette_, font(), hasFocus()});
    if (hasFocus()) {
        painter.setPen(QPen(palette_.accent, 2.0));
        painter.setBrush(Qt::NoBrush);
        painter.drawRect(rect().adjusted(1, 1, -1, -1));
    }
}

void CylinderPlanView::mousePressEvent(QMouseEvent* event) {
    const std::optional<ValvePosition> valve = valve_at(event->position());
    if (event->button() == Qt::LeftButton && valve) {
        select(*valve);
        emit valve_chosen(*valve);
    }
}

void CylinderPlanView::keyPressEvent(QKeyEvent* event) {
    switch (event->key()) {
        case Qt::Key_Left:
            go({-1.0, 0.0});
            break;
        case Qt::Key_Right:
            go({1.0, 0.0});
            break;
        case Qt::Key_Up:
            go({0.0, -1.0});
            break;
        case Qt::Key_Down:
            go({0.0, 1.0});
            break;
        case Qt::Key_Return:
        case Qt::Key_Enter:
        case Qt::Key_Space:
            if (content_.selected) {
                emit valve_chosen(*content_.selected);
            }
            break;
        default:
            QWidget::keyPressEvent(event);
    }
}

void CylinderPlanView::focusInEvent(QFocusEvent* event) {
    if (!content_.selected &&
        (event->reason() == Qt::TabFocusReason || event->reason() == Qt::BacktabFocusReason)) {
        walk(event->reason() == Qt::TabFocusReason ? 1 : -1);
    }
    QWidget::focusInEvent(event);
}

bool CylinderPlanView::focusNextPrevChild(bool next) {
    return walk(next ? 1 : -1) || QWidget::focusNextPrevChild(next);
}

} // namespace rodway
