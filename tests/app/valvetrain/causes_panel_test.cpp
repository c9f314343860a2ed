#include "app/valvetrain/causes_panel.h"

#include "app/first_run/new_build.h"
#include "app/words/cause_words.h"
#include "app/words/clearance_words.h"
#include "core/clearance/survey.h"
#include "core/units/length.h"
#include "tests/app/valvetrain/valvetrain_test.h"

namespace rodway {
namespace {

class CausesPanelTest : public ValvetrainTest {
  protected:
    void SetUp() override {
        ValvetrainTest::SetUp();
        open_panel("Causes");
    }
    QTableWidget& table() { return child<QTableWidget>("causes"); }
    void wait_for_sizes() {
        const auto* panel = page().findChild<CausesPanel*>();
        ASSERT_TRUE(QTest::qWaitFor([&] { return !panel->busy(); }, patience_ms));
    }
    QStringList row_of(const QString& dimension) {
        for (int row = 0; row < table().rowCount(); ++row) {
            if (cell(table(), row, 0) == dimension) {
                return {cell(table(), row, 0), cell(table(), row, 1), cell(table(), row, 2),
                        cell(table(), row, 3)};
            }
        }
        return {};
    }
};

// The rates of every valve are the core's, in its order, each with the wall that it is of.
TEST_F(CausesPanelTest, EveryValvesRatesAndWallsAreTheCores) {
    const Engine engine = engine_of_shop();
    const auto lines = survey(engine);
    for (const ValveClearance& line : *lines) {
        click_valve(line.position);
        const auto found = causes_of(engine, *engine.train(line.position));
        ASSERT_TRUE(found && *found);
        int row = 0;
        for (const Cause& cause : (*found)->causes) {
            if (!cause.adjuster_reset || cause.adjuster_reset->size() < 0.005) {
                continue;
            }
            ASSERT_LT(row, table().rowCount());
            const ParameterKind kind = cause.parameter.kind;
            EXPECT_TRUE(
                cell(table(), row, 0).startsWith(words::growing(cause.parameter, engine.layout)))
                << position_name(line.position) << row;
            EXPECT_EQ(cell(table(), row, 1), words::rate(*cause.adjuster_reset, kind));
            const ClearancePlace& place = (*found)->places[cause.adjuster_reset->when_more.place];
            EXPECT_TRUE(cell(table(), row, 3).contains(words::wall(place.wall, engine)));
            ++row;
        }
        EXPECT_EQ(table().rowCount(), row);
        EXPECT_GT(row, 8);
    }
}

// A builder makes the change that the panel names on the engine: then, and not with a little less
// or with the other sign, the rod passes.
TEST_F(CausesPanelTest, TheChangeToPassIsOfTheRightSignAndEnough) {
    const ValvePosition valve{3, ValveKind::intake, 1};
    click_valve(valve);
    wait_for_sizes();
    const Engine engine = engine_of_shop();
    const auto clearance = [&](const Variant& variant) {
        const auto lines = survey(*with_variant(engine, variant));
        for (const ValveClearance& line : *lines) {
            if (line.position == valve) {
                return line.found.minimum->clearance_mm;
            }
        }
        throw std::runtime_error("no 3I");
    };
    const ValveClearance& line = *model().selected_line();
    const double wanted = engine.rod_clearance_limit_mm + *line.doubt_mm;
    ASSERT_LT(line.found.minimum->clearance_mm, wanted);
    const auto typed_mm = [&](const QString& dimension) {
        const QString text = row_of(dimension).value(2);
        EXPECT_TRUE(text.endsWith(" in")) << dimension.toStdString() << text.toStdString();
        return QString(text).remove(" in").toDouble() * 25.4;
    };
    const auto check = [&](double change, auto make) {
        // What is shown is rounded to a thousandth, and so may miss by the effect of half of one.
        const double step = 0.0127;
        EXPECT_GE(clearance(make(change + std::copysign(step, change))), wanted - 1e-6);
        EXPECT_LT(clearance(make(change - std::copysign(3.0 * step, change))), wanted);
        EXPECT_LT(clearance(make(-change)), line.found.minimum->clearance_mm);
    };
    check(typed_mm("thicker rod"), [](double mm) { return Variant{.rod_thicker_mm = mm}; });
    check(typed_mm("thicker intake gasket, left"),
          [](double mm) { return Variant{.gasket_thicker_mm = {mm}}; });
}

TEST_F(CausesPanelTest, WhatIsHeldMatters) {
    click_valve({3, ValveKind::intake, 1});
    EXPECT_EQ(row_of("longer rod").size(), 4);
    const QString lifter = row_of("lifter taller").value(1);
    child<QComboBox>("causes_held").setCurrentIndex(1);
    EXPECT_TRUE(row_of("longer rod").isEmpty()) << "it is what is chosen again";
    EXPECT_NE(row_of("lifter taller").value(1), lifter);
}

// A doubt that is assumed as a whole; then somebody says what it is made of.
TEST_F(CausesPanelTest, TheDoubtsSharesAreThoseOfTheSurvey) {
    auto& doubt = child<QTableWidget>("doubt");
    SetUpFields fields = set_up().fields;
    std::erase_if(fields,
                  [](const auto& field) { return field.first.rfind("doubt/inputs/", 0) == 0; });
    ASSERT_TRUE(add_set_up(session(), 1, "doubt assumed", fields).ok());
    ASSERT_TRUE(QTest::qWaitFor(
        [&] { return !model().busy() && !model().lines().front().doubt.has_value(); },
        patience_ms));
    EXPECT_FALSE(doubt.isVisible());
    EXPECT_TRUE(text("causes_doubt").contains("assumed as a whole"));
    fields["doubt/rod_runout/size"] = {"0.003", "in"};
    fields["doubt/rod_runout/source"] = {"measured", ""};
    fields["doubt/inputs/passage_outboard/size"] = {"0.004", "in"};
    fields["doubt/inputs/passage_outboard/source"] = {"assumed", ""};
    fields["doubt/inputs/lifter_lean_outboard/angle"] = {"0.1", "deg"};
    fields["doubt/inputs/lifter_lean_outboard/source"] = {"assumed", ""};
    ASSERT_TRUE(add_set_up(session(), 1, "with doubts", fields).ok());
    ASSERT_TRUE(QTest::qWaitFor(
        [&] { return !model().busy() && model().lines().front().doubt.has_value(); }, patience_ms));
    const Engine engine = engine_of_shop();
    const auto lines = survey(engine);
    for (const ValveClearance& line : *lines) {
        click_valve(line.position);
        ASSERT_TRUE(line.doubt.has_value());
        ASSERT_EQ(doubt.rowCount(), static_cast<int>(line.doubt->contributions.size()));
        EXPECT_EQ(doubt.rowCount(), 3);
        keep_picture("causes with doubt");
        for (int row = 0; row < doubt.rowCount(); ++row) {
            const DoubtContribution& share =
                line.doubt->contributions[static_cast<std::size_t>(row)];
            EXPECT_EQ(cell(doubt, row, 0), words::doubt_kind(share, engine.layout));
            EXPECT_EQ(cell(doubt, row, 2),
                      "-" + QString::number(Length::mm(share.takes_mm).in_thou(), 'f', 1));
        }
    }
}

TEST_F(CausesPanelTest, ARodThatPassesNeedsNothing) {
    click_valve({2, ValveKind::intake, 1});
    wait_for_sizes();
    for (int row = 0; row < table().rowCount(); ++row) {
        EXPECT_EQ(cell(table(), row, 2), "");
    }
    EXPECT_TRUE(text("causes_aim").contains("passes"));
}

} // namespace
} // namespace rodway
