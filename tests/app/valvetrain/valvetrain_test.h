#pragma once

#include <QComboBox>
#include <QDir>
#include <QLabel>
#include <QPushButton>
#include <QTableWidget>
#include <QToolButton>
#include <stdexcept>

#include "app/valvetrain/valvetrain_page.h"
#include "core/engine/set_up.h"
#include "db/set_up_store.h"
#include "render/cylinder_plan_view.h"
#include "tests/app/window/place_test.h"

namespace rodway {

/// The real window on the demo's V8, at its valvetrain.
class ValvetrainTest : public PlaceTest {
  protected:
    static constexpr int patience_ms = 20000;

    void SetUp() override {
        PlaceTest::SetUp();
        go_to("Valvetrain");
        ASSERT_TRUE(QTest::qWaitFor([&] { return model().engine() != nullptr; }, patience_ms));
    }
    ValvetrainPage& page() { return window_->valvetrain(); }
    ValvetrainModel& model() { return page().model(); }
    template <typename Widget>
    Widget& child(const char* name) {
        auto* found = page().findChild<Widget*>(name);
        if (found == nullptr) throw std::runtime_error(name);
        return *found;
    }
    /// Puts a panel in front as a person does.
    void open_panel(const QString& name) {
        for (QToolButton* button : page().findChildren<QToolButton*>("panel_button")) {
            if (button->text().remove('&') == name) {
                QTest::mouseClick(button, Qt::LeftButton);
                return;
            }
        }
        throw std::runtime_error(name.toStdString());
    }
    /// Clicks a valve on the plan.
    void click_valve(const ValvePosition& valve) {
        auto& plan = child<CylinderPlanView>("plan");
        const auto centre = plan.centre_of(valve);
        ASSERT_TRUE(centre.has_value());
        QTest::mouseClick(&plan, Qt::LeftButton, Qt::NoModifier, centre->toPoint());
        ASSERT_EQ(model().selected(), valve);
    }
    QString text(const char* label) { return child<QLabel>(label).text(); }
    static QString cell(const QTableWidget& table, int row, int column) {
        return table.item(row, column)->text();
    }
    /// The set-up in hand as the shop file has it, and its engine by the core alone.
    SetUpRecord set_up() { return **newest_set_up(window_->session()->shop(), 1); }
    Engine engine_of_shop() { return *make_engine(set_up().fields); }
    /// With RODWAY_SHOTS=folder, the window as it is, to be looked at.
    void keep_picture(const QString& name) {
        const QString folder = qEnvironmentVariable("RODWAY_SHOTS");
        if (!folder.isEmpty()) {
            QTest::qWait(100);
            window_->grab().save(QDir(folder).filePath(QString(name).replace(' ', '_') + ".png"));
        }
    }
    /// Types into a what-if box and waits for the answer.
    void try_in(const char* box, const QString& text) {
        auto& edit = child<QLineEdit>(box);
        edit.setFocus();
        edit.selectAll();
        QTest::keyClicks(&edit, text);
        QTest::keyClick(&edit, Qt::Key_Return);
        ASSERT_TRUE(QTest::qWaitFor([&] { return !model().busy(); }, patience_ms));
    }
};

} // namespace rodway
