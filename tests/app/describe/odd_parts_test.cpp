#include <gtest/gtest.h>

#include <QComboBox>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>

#include "app/describe/describe_page.h"
#include "app/first_run/new_build.h"
#include "app/valvetrain/panel_chooser.h"
#include "app/valvetrain/valvetrain_page.h"
#include "db/set_up_store.h"
#include "tests/app/window/place_test.h"
#include "tests/core/describe/measured_engine.h"

namespace rodway {
namespace {

/// The demo shop's first build with a described six, whose parts are chosen in its boxes.
class OddPartsTest : public PlaceTest {
  protected:
    void SetUp() override {
        PlaceTest::SetUp();
        ASSERT_TRUE(add_set_up(session(), 1, "As described", six_).ok());
        go_to("Engine");
    }
    DescribeModel& model() { return window_->describe().model(); }
    template <typename Widget>
    Widget* named(const QString& name) {
        for (Widget* one : window_->findChildren<Widget*>()) {
            if (one->isVisible() && one->accessibleName() == name) {
                return one;
            }
        }
        return nullptr;
    }
    /// As a person does: the list's own signal comes only of a choice by hand.
    void choose(const QString& what, const QString& word) {
        auto* combo = named<QComboBox>(what);
        ASSERT_NE(combo, nullptr) << what.toStdString();
        const int at = combo->findText(word);
        ASSERT_GE(at, 0) << word.toStdString();
        combo->setCurrentIndex(at);
        emit combo->activated(at);
        QCoreApplication::processEvents();
    }
    std::string kept(const std::string& path) {
        const auto stored = newest_set_up(window_->session()->shop(), 1);
        const auto found = (*stored)->fields.find(path);
        return found == (*stored)->fields.end() ? std::string() : found->second.text;
    }
    const SetUpFields six_ = MeasuredEngine(demo_fields("inline-six")).fields();
};

TEST_F(OddPartsTest, ACupEndedRodAsksForItsCupAndOnlyThere) {
    window_->describe().go_to_field("described/intake/rod_overall/size");
    EXPECT_EQ(named<QLineEdit>("Cup's depth (exhaust)"), nullptr);
    choose("The rod's upper end (exhaust)", "a cup");
    EXPECT_EQ(kept("described/exhaust/top_end"), "cup");
    auto* depth = named<QLineEdit>("Cup's depth (exhaust)");
    ASSERT_NE(depth, nullptr);
    EXPECT_TRUE(depth->isEnabled());
    ASSERT_NE(named<QLineEdit>("Cup's depth (intake)"), nullptr);
    EXPECT_FALSE(named<QLineEdit>("Cup's depth (intake)")->isEnabled());
    EXPECT_EQ(model().missing().size(), 2U);
    depth->setFocus();
    QTest::keyClicks(depth, ".2");
    QTest::keyClick(depth, Qt::Key_Return);
    EXPECT_EQ(kept("described/exhaust/cup_depth/size"), ".2");
    EXPECT_EQ(model().missing().size(), 1U); // how wide it is outside
}

TEST_F(OddPartsTest, WhatAHalfBallAndAnObroundTubeNeedIsAskedOnceTheyAreChosen) {
    window_->describe().go_to_field("described/intake/ball_arm/size");
    EXPECT_EQ(named<QComboBox>("On a half ball, kept straight by (intake)"), nullptr);
    choose("Rockers turn on (intake)", "half balls on studs");
    choose("On a half ball, kept straight by (intake)", "rails at the valve's tip");
    EXPECT_EQ(kept("described/intake/guided_by"), "tip_rails");
    window_->describe().go_to_field("described/intake/tube_length/size");
    EXPECT_EQ(named<QLineEdit>("Tube's bore, the long way (intake)"), nullptr);
    choose("Seen down the tube (intake)", "obround");
    choose("Its long way goes (intake)", "across the crank");
    EXPECT_EQ(kept("described/intake/tube_long"), "across_crank");
    EXPECT_NE(named<QLineEdit>("Tube's bore, the long way (intake)"), nullptr);
}

TEST_F(OddPartsTest, TheWayToTheFitIsAButton) {
    for (QPushButton* button : window_->findChildren<QPushButton*>()) {
        if (button->isVisible() && button->text().startsWith("Fit the tubes")) {
            QTest::mouseClick(button, Qt::LeftButton);
        }
    }
    EXPECT_TRUE(window_->valvetrain().isVisible());
    EXPECT_EQ(window_->valvetrain().panels().shown(), "readings");
}

} // namespace
} // namespace rodway
