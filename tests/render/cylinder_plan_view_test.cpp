#include "render/cylinder_plan_view.h"

#include <gtest/gtest.h>

#include <QVBoxLayout>

#include "tests/render/events.h"
#include "tests/render/sample_engine.h"

namespace rodway {
namespace {

class PlanView : public testing::Test {
  protected:
    PlanView() {
        view.resize(640, 360);
        view.set_content(places_of(sample_engine()));
        QObject::connect(&view, &CylinderPlanView::valve_chosen,
                         [this](const ValvePosition& valve) { chosen.push_back(valve); });
    }
    CylinderPlanView view;
    std::vector<ValvePosition> chosen;
};

TEST_F(PlanView, a_click_chooses_the_valve_under_it) {
    for (const PlanValve& valve : view.content().valves) {
        const QPointF centre = *view.centre_of(valve.position);
        EXPECT_EQ(view.valve_at(centre), valve.position);
        click(view, centre.toPoint());
        ASSERT_FALSE(chosen.empty());
        EXPECT_EQ(chosen.back(), valve.position);
        EXPECT_EQ(view.selected(), valve.position);
    }
    const auto before = chosen.size();
    click(view, QPoint(5, 5));
    EXPECT_EQ(chosen.size(), before);
}

TEST_F(PlanView, tab_walks_in_the_order_given_and_enter_chooses) {
    const std::vector<ValvePosition> order{
        {1, ValveKind::exhaust, 1}, {8, ValveKind::intake, 1}, {4, ValveKind::exhaust, 1}};
    view.set_walk(order);
    view.set_selected(order.front());
    for (std::size_t at = 1; at < order.size(); ++at) {
        type_key(view, Qt::Key_Tab);
        EXPECT_EQ(view.selected(), order[at]);
        type_key(view, Qt::Key_Return);
        ASSERT_EQ(chosen.size(), at);
        EXPECT_EQ(chosen.back(), order[at]);
    }
    type_key(view, Qt::Key_Backtab);
    EXPECT_EQ(view.selected(), order[1]);
}

TEST_F(PlanView, tab_leaves_after_the_last_valve) {
    QWidget window;
    auto* layout = new QVBoxLayout(&window);
    auto* plan = new CylinderPlanView;
    auto* after = new QWidget;
    after->setFocusPolicy(Qt::StrongFocus);
    layout->addWidget(plan);
    layout->addWidget(after);
    plan->set_content(places_of(sample_engine()));
    window.show();
    window.activateWindow();
    wait_ms(50);
    plan->setFocus();
    plan->set_selected(plan->content().valves.back().position);
    type_key(*plan, Qt::Key_Tab);
    EXPECT_TRUE(after->hasFocus());
}

TEST_F(PlanView, arrows_go_to_the_nearest_valve_that_way) {
    const ValvePosition from{3, ValveKind::intake, 1};
    view.set_selected(from);
    const QPointF start = *view.centre_of(from);
    for (const auto& [key, way] :
         {std::pair{Qt::Key_Right, QPointF(1.0, 0.0)}, std::pair{Qt::Key_Left, QPointF(-1.0, 0.0)},
          std::pair{Qt::Key_Down, QPointF(0.0, 1.0)}}) {
        view.set_selected(from);
        type_key(view, key);
        ASSERT_NE(view.selected(), from);
        const QPointF moved = *view.centre_of(*view.selected()) - start;
        EXPECT_GT(QPointF::dotProduct(moved, way), 0.0);
        EXPECT_LT(moved.manhattanLength(), 260.0) << "a neighbour, not the far end";
    }
    view.set_selected(from);
    type_key(view, Qt::Key_Up);
    EXPECT_EQ(view.selected(), from) << "nothing above the upper bank";
}

TEST_F(PlanView, says_the_selected_valve_in_the_callers_words) {
    view.set_description([](const PlanValve& valve) {
        return QStringLiteral("valve ") + QString::fromStdString(position_name(valve.position));
    });
    view.set_selected(ValvePosition{2, ValveKind::exhaust, 1});
    EXPECT_EQ(view.accessibleDescription(), QStringLiteral("valve 2E"));
    view.set_selected(ValvePosition{99, ValveKind::exhaust, 1});
    EXPECT_FALSE(view.selected());
}

TEST_F(PlanView, new_content_keeps_the_selection_it_still_has) {
    view.set_selected(ValvePosition{7, ValveKind::exhaust, 1});
    view.set_content(places_of(sample_engine()));
    EXPECT_EQ(view.selected(), (ValvePosition{7, ValveKind::exhaust, 1}));
    view.set_content(places_of(sample_engine({Arrangement::vee, 2, Turning::clockwise})));
    EXPECT_FALSE(view.selected());
}

} // namespace
} // namespace rodway
