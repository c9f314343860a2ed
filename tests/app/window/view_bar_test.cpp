#include "app/valvetrain/view_bar.h"

#include <QComboBox>
#include <QHelpEvent>
#include <QMenu>
#include <QSlider>
#include <QSvgRenderer>
#include <QToolTip>

#include "app/valvetrain/panel_chooser.h"
#include "app/valvetrain/survey_pictures.h"
#include "app/valvetrain/tube_view.h"
#include "app/valvetrain/valvetrain_page.h"
#include "render/scene_view.h"
#include "tests/app/window/place_test.h"

namespace rodway {
namespace {

class ViewBarTest : public PlaceTest {
  protected:
    void SetUp() override {
        PlaceTest::SetUp();
        window_->resize(1280, 800);
        go_to("Valvetrain");
        page_ = &window_->valvetrain();
        ASSERT_TRUE(QTest::qWaitFor([this] { return page_->model().engine() != nullptr; }, 20000));
        view_ = page_->findChild<SceneView*>();
        bar_ = page_->findChild<ViewBar*>();
        ASSERT_TRUE(view_ != nullptr && bar_ != nullptr);
    }
    template <typename Widget>
    Widget* named(const QString& accessible_name) {
        for (Widget* widget : page_->findChildren<Widget*>()) {
            if (widget->accessibleName() == accessible_name) {
                return widget;
            }
        }
        ADD_FAILURE() << accessible_name.toStdString();
        return nullptr;
    }
    /// Chooses from one of the bar's menus, by the words a person reads there.
    void choose(const QString& text) {
        for (const QMenu* menu : bar_->findChildren<QMenu*>()) {
            for (QAction* action : menu->actions()) {
                if (action->text().remove('&') == text) {
                    action->trigger();
                    return;
                }
            }
        }
        ADD_FAILURE() << text.toStdString();
    }
    const SceneShow& shown() { return view_->show_options(); }
    QByteArray saved(ViewFile file, const QString& name) {
        const QString path = folder_.filePath(name);
        bar_->save(file, path);
        QFile opened(path);
        EXPECT_TRUE(opened.open(QIODevice::ReadOnly)) << name.toStdString();
        return opened.readAll();
    }

    ValvetrainPage* page_ = nullptr;
    SceneView* view_ = nullptr;
    ViewBar* bar_ = nullptr;
};

TEST_F(ViewBarTest, what_is_chosen_is_what_is_drawn) {
    EXPECT_EQ(shown().selected, page_->model().selected());
    auto* others = named<QComboBox>("Which trains are drawn");
    others->setFocus();
    QTest::keyClick(others, Qt::Key_Down);
    EXPECT_EQ(shown().others, Others::hidden);
    QTest::keyClick(others, Qt::Key_Home);
    EXPECT_EQ(shown().others, Others::shown);

    choose("Space the rod takes through a turn");
    EXPECT_TRUE(shown().rod_sweep);
    choose("Pistons");
    EXPECT_FALSE(shown().pistons);
    choose("Passages and what stands beside");
    EXPECT_FALSE(shown().castings);
    choose("Verdicts on the rods");
    ASSERT_EQ(shown().states.size(), 16u);
    for (const ValveClearance& line : page_->model().lines()) {
        EXPECT_EQ(shown().states.at(line.position), check_state(line.verdict));
    }
    // Another valve: all of it stays, for that one.
    page_->model().select({6, ValveKind::exhaust, 1});
    EXPECT_EQ(shown().selected, (ValvePosition{6, ValveKind::exhaust, 1}));
    EXPECT_TRUE(shown().rod_sweep);
    EXPECT_EQ(shown().states.size(), 16u);
}

TEST_F(ViewBarTest, the_section_moves_by_slider_and_by_key_along_its_own_normal) {
    EXPECT_FALSE(shown().section);
    auto* cut = named<QComboBox>("Section");
    auto* slider = named<QSlider>("Where the section is cut");
    EXPECT_FALSE(slider->isVisible());
    for (int at = 1; at <= 3; ++at) {
        slider->setValue(0);
        cut->setCurrentIndex(at);
        ASSERT_TRUE(shown().section);
        EXPECT_TRUE(slider->isVisible());
        const Section through = *shown().section;
        // Through the rod as it stands on the heel.
        const Engine& engine = *page_->model().engine();
        const ValvePosition valve = *page_->model().selected();
        const Segment rod = *page_->model().scene()->rod_E(
            valve, engine.full_lift_angle(valve) + CrankAngle::deg(360.0));
        const double a = (rod.a - through.point_E).dot(through.normal_E);
        const double b = (rod.b - through.point_E).dot(through.normal_E);
        EXPECT_LE(a * b, 1e-6) << at;
        slider->setValue(20); // hundredths of an inch
        EXPECT_NEAR((shown().section->point_E - through.point_E).dot(through.normal_E), 5.08, 1e-9);
        view_->setFocus();
        QTest::keyClick(view_, Qt::Key_PageDown);
        const double back = (shown().section->point_E - through.point_E).dot(through.normal_E);
        EXPECT_LT(back, 5.08 - 0.5);
        EXPECT_GT(back, 5.08 - 1.5);
    }
    cut->setCurrentIndex(0);
    EXPECT_FALSE(shown().section);
}

TEST_F(ViewBarTest, down_the_rod_the_rocker_is_glass_and_elsewhere_not) {
    choose("Along the rod, from the rocker down");
    EXPECT_EQ(shown().rockers, Rockers::glass);
    const Segment rod =
        *page_->model().scene()->rod_E(*page_->model().selected(), page_->model().crank());
    EXPECT_GT(forward_E(view_->camera()).dot((rod.a - rod.b).normalized()), 0.9999);
    choose("From the front");
    EXPECT_EQ(shown().rockers, Rockers::shown);
    EXPECT_NEAR(forward_E(view_->camera()).x(), 1.0, 1e-9);
}

// What is said at the closest point is said of the crank angle that is shown.
TEST_F(ViewBarTest, the_dimension_line_goes_with_the_crank) {
    const ValveClearance& line = *page_->model().selected_line();
    const Engine& engine = *page_->model().engine();
    page_->model().set_crank(angle_of_minimum(engine, line));
    EXPECT_EQ(view_->accessibleDescription(), closest_spot(engine, line).label);
    for (const double deg : {40.0, 200.0, 333.0}) {
        page_->model().set_crank(CrankAngle::deg(deg));
        const auto around = train_surroundings(engine, *engine.train(line.position));
        const auto found = least_clearance_at(
            *around->surroundings, engine.lobe_lift_mm(line.position, CrankAngle::deg(deg)));
        const QString said = view_->accessibleDescription();
        EXPECT_TRUE(said.contains(QString::number(found->clearance_mm / 25.4, 'f', 3)))
            << said.toStdString();
        EXPECT_TRUE(said.contains("wall")) << said.toStdString();
    }
}

TEST_F(ViewBarTest, the_part_under_the_pointer_is_named_with_its_clearance) {
    named<QComboBox>("Which trains are drawn")->setCurrentIndex(2);
    const ValvePosition valve = *page_->model().selected();
    const Segment rod = *page_->model().scene()->rod_E(valve, page_->model().crank());
    view_->frame_valve(valve);
    const auto at = projected(view_->camera(), {view_->width(), view_->height()}, rod.at(0.2));
    ASSERT_TRUE(at);
    const QPoint place(static_cast<int>(at->x), static_cast<int>(at->y));
    QHelpEvent help(QEvent::ToolTip, place, view_->mapToGlobal(place));
    QApplication::sendEvent(view_, &help);
    const QString said = QToolTip::text();
    EXPECT_TRUE(said.startsWith("3I: pushrod")) << said.toStdString();
    EXPECT_TRUE(said.contains("0.004 in")) << said.toStdString();
    // Over nothing, nothing.
    QHelpEvent corner(QEvent::ToolTip, QPoint(3, 3), view_->mapToGlobal(QPoint(3, 3)));
    QApplication::sendEvent(view_, &corner);
    EXPECT_TRUE(QTest::qWaitFor([] { return !QToolTip::isVisible(); }));
}

TEST_F(ViewBarTest, everything_seen_can_be_saved) {
    if (view_->has_graphics()) {
        const QImage picture = QImage::fromData(saved(ViewFile::view, "view.png"));
        EXPECT_EQ(picture.width(), 1920);
        EXPECT_NEAR(static_cast<double>(picture.height()) / picture.width(),
                    static_cast<double>(view_->height()) / view_->width(), 0.01);
        view_->set_camera(orbited(view_->camera(), 90.0, 0.0));
        EXPECT_NE(picture, QImage::fromData(saved(ViewFile::view, "view.png")))
            << "as it is seen now";
    }
    for (const ViewFile file : {ViewFile::tube, ViewFile::curve, ViewFile::plan}) {
        EXPECT_FALSE(QImage::fromData(saved(file, "drawing.png")).isNull());
        QSvgRenderer svg(saved(file, "drawing.svg"));
        EXPECT_TRUE(svg.isValid());
    }
    EXPECT_EQ(saved(ViewFile::clearances, "clearances.csv").count("\r\n"), 17);
    EXPECT_TRUE(saved(ViewFile::curves, "curves.csv").contains("8E_lift_in"));
    // Nowhere to write is said, and nothing is said to have been written.
    int failures = 0;
    QObject::connect(bar_, &ViewBar::failed, bar_, [&failures] { ++failures; });
    bar_->save(ViewFile::plan, folder_.filePath("no/such/folder/plan.svg"));
    EXPECT_EQ(failures, 1);
}

TEST_F(ViewBarTest, down_the_tube_goes_with_valve_crank_and_keys) {
    page_->panels().show_panel("tube");
    auto* tube = page_->findChild<TubeView*>();
    ASSERT_NE(tube, nullptr);
    ASSERT_TRUE(QTest::qWaitFor([tube] { return tube->isVisible(); }));
    ASSERT_EQ(tube->content().slices.size(), 3u);
    EXPECT_TRUE(tube->content().heading.startsWith("3I"));
    EXPECT_TRUE(tube->accessibleDescription().contains("0.004 in"));
    const Vec2 before = tube->content().slices[2].rod->at_mm;
    const double crank = page_->model().crank().in_deg();
    tube->setFocus();
    QTest::keyClick(tube, Qt::Key_Right, Qt::ShiftModifier);
    EXPECT_NEAR(page_->model().crank().in_deg(), crank + 10.0, 1e-6);
    for (int more = 0; more < 11; ++more) {
        QTest::keyClick(tube, Qt::Key_Right, Qt::ShiftModifier);
    }
    // From full lift down to the heel, or nearly.
    EXPECT_GT((tube->content().slices[2].rod->at_mm - before).norm(), 0.05);
    const QString cut = tube->content().slices[1].title;
    QTest::keyClick(tube, Qt::Key_Down, Qt::ShiftModifier);
    EXPECT_NE(tube->content().slices[1].title, cut);
    QTest::keyClick(tube, Qt::Key_Home);
    EXPECT_EQ(tube->content().slices[1].title, cut);
    page_->model().select({5, ValveKind::exhaust, 1});
    EXPECT_TRUE(tube->content().heading.startsWith("5E"));
}

} // namespace
} // namespace rodway
