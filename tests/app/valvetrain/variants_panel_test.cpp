#include "app/valvetrain/variants_panel.h"

#include "app/words/clearance_words.h"
#include "app/words/lengths.h"
#include "core/clearance/survey.h"
#include "core/clearance/variant_fields.h"
#include "core/units/length.h"
#include "tests/app/valvetrain/valvetrain_test.h"

namespace rodway {
namespace {

class VariantsPanelTest : public ValvetrainTest {
  protected:
    void SetUp() override {
        ValvetrainTest::SetUp();
        open_panel("Variants");
    }
    VariantsPanel& panel() { return *page().findChild<VariantsPanel*>(); }
    QTableWidget& list() { return child<QTableWidget>("variants"); }
    QTableWidget& valves() { return child<QTableWidget>("variant_valves"); }
    void wait() {
        ASSERT_TRUE(QTest::qWaitFor(
            [&] { return !model().busy() && !panel().busy() && panel().compared(); }, patience_ms));
    }
    void press(const char* button) {
        QTest::mouseClick(&child<QPushButton>(button), Qt::LeftButton);
    }
    void keep(const QString& name, const QString& why) {
        press("what_if_keep");
        type(panel(), "variant_name", name);
        type(panel(), "variant_why", why);
        press("variant_keep");
        wait();
    }
    void choose(const QString& name) {
        for (int row = 0; row < list().rowCount(); ++row) {
            if (cell(list(), row, 0) == name) {
                list().setCurrentCell(row, 0);
                return;
            }
        }
        FAIL() << name.toStdString();
    }
    std::vector<std::string> names() {
        std::vector<std::string> found;
        for (int row = 0; row < list().rowCount(); ++row) {
            found.push_back(cell(list(), row, 0).toStdString());
        }
        return found;
    }
};

TEST_F(VariantsPanelTest, WhatIsTriedIsKeptComparedAndOutlivesTheWindow) {
    try_in("what_if_gasket_left", "+.015");
    try_in("what_if_lifter", "-.010");
    wait();
    EXPECT_EQ(names(), (std::vector<std::string>{"As it stands", "Tried now"}));
    keep("thick left", "the gasket is in stock");
    press("what_if_back");
    ASSERT_TRUE(QTest::qWaitFor([&] { return model().variant().changes_nothing(); }, patience_ms));
    wait();
    EXPECT_EQ(names(), (std::vector<std::string>{"As it stands", "thick left"}));

    // Every valve's line against the core's two surveys.
    choose("thick left");
    const Engine engine = engine_of_shop();
    const Variant variant{.lifter_taller_mm = -0.254, .gasket_thicker_mm = {0.381}};
    const auto stands = survey(engine);
    const auto then = survey(*with_variant(engine, variant));
    ASSERT_EQ(valves().rowCount(), static_cast<int>(stands->size()));
    int gains = 0;
    int loses = 0;
    for (int row = 0; row < valves().rowCount(); ++row) {
        const ValveClearance& before = (*stands)[static_cast<std::size_t>(row)];
        const ValveClearance& after = (*then)[static_cast<std::size_t>(row)];
        const double change =
            after.found.minimum->clearance_mm - before.found.minimum->clearance_mm;
        EXPECT_EQ(cell(valves(), row, 1) + " in",
                  words::inches(before.found.minimum->clearance_mm));
        EXPECT_EQ(cell(valves(), row, 2) + " in", words::inches(after.found.minimum->clearance_mm));
        gains += cell(valves(), row, 3).startsWith('+') ? 1 : 0;
        loses += cell(valves(), row, 3).startsWith('-') ? 1 : 0;
        EXPECT_EQ(cell(valves(), row, 3).startsWith('+'), change >= 0.0127) << row;
        const PlaceInPassage& at = *after.found.minimum->in_passage;
        EXPECT_TRUE(cell(valves(), row, 4)
                        .startsWith(words::wall(at.wall, engine) + ", " + words::end(at.end)));
        EXPECT_EQ(cell(valves(), row, 5), words::verdict(*after.verdict));
    }
    EXPECT_GT(gains, 0);
    EXPECT_GT(loses, 0);
    EXPECT_TRUE(text("variant_about").contains("the gasket is in stock"));

    keep_picture("variant compared");

    // Another window on the same file has it too.
    MainWindow second;
    second.show();
    ASSERT_TRUE(second.open_shop(folder_.filePath("shop.rodway")));
    second.open_build(1);
    const auto kept = kept_variants(second.session()->shop(), 1, engine);
    ASSERT_TRUE(kept.ok());
    ASSERT_EQ(kept->size(), 1U);
    EXPECT_EQ(kept->front().sizes, "lifter=-0.01 in, left-gasket=+0.015 in");
    ASSERT_TRUE(kept->front().variant.ok());
    EXPECT_NEAR(kept->front().variant->variant.gasket_thicker_mm[0], 0.381, 1e-9);
}

TEST_F(VariantsPanelTest, ANameTwiceOrNoneIsRefusedAndADroppedOneComesBack) {
    try_in("what_if_gasket_left", "+.015");
    keep("one", "");
    press("what_if_keep");
    type(panel(), "variant_name", "one");
    press("variant_keep");
    EXPECT_FALSE(child<QPushButton>("variant_keep").isHidden());
    const auto* trouble = panel().findChild<QLabel*>("trouble");
    EXPECT_FALSE(trouble->isHidden());
    EXPECT_EQ(child<QLineEdit>("variant_name").text(), "one") << "what was typed stays";
    type(panel(), "variant_name", " ");
    press("variant_keep");
    EXPECT_FALSE(trouble->isHidden());
    EXPECT_EQ(all<Decision>().size(), 1U);
    choose("one");
    press("variant_drop");
    EXPECT_TRUE(all<Decision>().empty());
    undo();
    wait();
    EXPECT_EQ(all<Decision>().size(), 1U);
    choose("one");
}

TEST_F(VariantsPanelTest, TakenOverItIsTheSetUpInHandWithTheTriedFigures) {
    const SetUpRecord before = set_up();
    try_in("what_if_gasket_left", ".075");
    try_in("what_if_rod", "-1/64");
    try_in("what_if_ratio", "+.02");
    wait();
    const std::vector<ValveClearance> tried = model().lines();
    choose("Tried now");
    press("variant_take_over");
    EXPECT_EQ(set_up().id, before.id) << "a reason is needed";
    EXPECT_FALSE(panel().findChild<QLabel*>("trouble")->isHidden());
    type(panel(), "variant_name", "thick left, thin rods");
    type(panel(), "variant_why", "3I clears");
    choose("Tried now");
    press("variant_take_over");
    ASSERT_GT(set_up().id, before.id);
    EXPECT_EQ(set_up().fields.at("banks/left/flange/gasket").text, "0.075");
    const auto lines = survey(engine_of_shop());
    for (std::size_t at = 0; at < tried.size(); ++at) {
        // Sizes are written to 0.0001 mm.
        EXPECT_NEAR((*lines)[at].found.minimum->clearance_mm, tried[at].found.minimum->clearance_mm,
                    1e-3);
    }
    EXPECT_EQ(all<Decision>().back().reason, "3I clears");
    ASSERT_TRUE(QTest::qWaitFor([&] { return !model().busy(); }, patience_ms));
    EXPECT_TRUE(model().variant().changes_nothing()) << "nothing is tried twice over";
    EXPECT_EQ(child<QLineEdit>("what_if_rod").text(), "");
    // What was felt in the set-up before is no ground for anything now.
    const auto& survey_table = child<QTableWidget>("survey");
    EXPECT_EQ(cell(survey_table, 4, 3), ".002-.006");
    EXPECT_EQ(cell(survey_table, 4, 4), "Stale");
    undo();
    EXPECT_EQ(cell(survey_table, 4, 4), "Fail");
    EXPECT_EQ(set_up().id, before.id) << "one act: reason and sizes go together";
    EXPECT_TRUE(all<Decision>().empty());
}

TEST_F(VariantsPanelTest, AKeptOneMayBeTriedAgain) {
    try_in("what_if_adjuster", "+.050");
    keep("deep adjusters", "");
    press("what_if_back");
    ASSERT_TRUE(QTest::qWaitFor([&] { return model().variant().changes_nothing(); }, patience_ms));
    wait();
    choose("deep adjusters");
    press("variant_try");
    wait();
    EXPECT_NEAR(model().variant().adjuster_in_more_mm, 1.27, 1e-9);
    EXPECT_EQ(child<QLineEdit>("what_if_adjuster").text(), "+0.05 in");
}

} // namespace
} // namespace rodway
