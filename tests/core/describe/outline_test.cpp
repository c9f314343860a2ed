#include "core/describe/outline.h"

#include <gtest/gtest.h>

#include "core/describe/missing_sizes.h"
#include "tests/core/describe/measured_engine.h"

namespace rodway {
namespace {

EngineOutline vee() {
    EngineOutline outline;
    outline.name = "Halden 402 V8";
    outline.arrangement = Arrangement::vee;
    outline.firing_order = "18436572";
    outline.bore = "4.155";
    outline.stroke = "94 mm";
    outline.bank_angle = "90";
    outline.rows = {{"1 3 5 7", "E I E I E I E I"}, {"2,4,6,8", "EIEIEIEI"}};
    outline.cam_above = "5.000";
    outline.cam_beside = "0.0";
    return outline;
}

std::string refused(const EngineOutline& outline) {
    const auto fields = outline_fields(outline);
    return fields.ok() ? std::string() : fields.error().field;
}

TEST(Outline, OfAVeeLeansItsBanksByHalfTheAngleEach) {
    const auto fields = outline_fields(vee());
    ASSERT_TRUE(fields.ok()) << fields.error().field;
    EXPECT_EQ(fields->at("banks/left/lean").text, "-45");
    EXPECT_EQ(fields->at("banks/right/lean").text, "45");
    EXPECT_EQ(fields->at("cylinders/6/bank").text, "right");
    EXPECT_EQ(fields->at("cylinders/7/bank").text, "left");
    EXPECT_EQ(fields->at("engine/stroke").text, "94");
    EXPECT_EQ(fields->at("engine/stroke").unit, "mm");
    EXPECT_EQ(fields->at("engine/intake_casting").text, "one_for_all");
    const auto description = Description::read(*fields);
    ASSERT_TRUE(description.ok()) << description.error().field;
    ASSERT_EQ(description->valves().size(), 16U);
    // Left bank, second cylinder from the front: number 3, its exhaust in front.
    EXPECT_EQ(position_name(description->valves()[2].position), "3E");
    EXPECT_EQ(description->valves()[2].side_x, -1.0);
    EXPECT_EQ(description->valves()[2].in_row, 1);
}

TEST(Outline, CylindersNumberedFromTheRearStandAsTheyAreListed) {
    EngineOutline outline = vee();
    outline.rows = {{"7 5 3 1", "EIEIEIEI"}, {"8 6 4 2", "EIEIEIEI"}};
    const auto fields = outline_fields(outline);
    ASSERT_TRUE(fields.ok());
    const auto description = Description::read(*fields);
    ASSERT_TRUE(description.ok());
    EXPECT_EQ(position_name(description->valves().front().position), "7E");
}

TEST(Outline, ComesBackAsItWasTyped) {
    const EngineOutline typed = vee();
    const EngineOutline back = outline_of(*outline_fields(typed));
    EXPECT_EQ(back.name, typed.name);
    EXPECT_EQ(back.arrangement, typed.arrangement);
    EXPECT_EQ(back.firing_order, typed.firing_order);
    EXPECT_EQ(back.stroke, typed.stroke);
    EXPECT_EQ(back.bank_angle, typed.bank_angle);
    EXPECT_EQ(back.rows[1].cylinders, typed.rows[1].cylinders);
    EXPECT_EQ(back.rows[0].valves, typed.rows[0].valves);
}

TEST(Outline, SaysWhichBoxIsWrong) {
    const auto with = [](auto change) {
        EngineOutline outline = vee();
        change(outline);
        return refused(outline);
    };
    EXPECT_EQ(with([](EngineOutline& o) { o.name = "  "; }), "name");
    EXPECT_EQ(with([](EngineOutline& o) { o.bore = "4"; }), "bore");
    EXPECT_EQ(with([](EngineOutline& o) { o.bore = "41.55"; }), "bore");
    EXPECT_EQ(with([](EngineOutline& o) { o.bank_angle = ""; }), "bank_angle");
    EXPECT_EQ(with([](EngineOutline& o) { o.bank_angle = "200"; }), "bank_angle");
    EXPECT_EQ(with([](EngineOutline& o) { o.firing_order = "1843657"; }), "firing_order");
    EXPECT_EQ(with([](EngineOutline& o) { o.rows[0].cylinders = "1 3 5 5"; }), "left_cylinders");
    EXPECT_EQ(with([](EngineOutline& o) { o.rows[0].cylinders = "1 3 5 9"; }), "left_cylinders");
    EXPECT_EQ(with([](EngineOutline& o) { o.rows[1].valves = "EIEIEIE"; }), "right_valves");
    EXPECT_EQ(with([](EngineOutline& o) { o.rows[1].valves = "EEIIEIEI"; }), "right_valves");
    EXPECT_EQ(with([](EngineOutline& o) { o.cam_above = ""; }), "cam_above");
}

TEST(Outline, AnotherOneLeavesTheSizesAndTakesWhatBelongsToNoCylinderAnyMore) {
    SetUpFields six = MeasuredEngine(demo_fields("inline-six")).fields();
    EngineOutline outline = outline_of(six);
    outline.rows = {{"1 2 3 4", "EIIEEIIE"}};
    outline.firing_order = "1342";
    const auto fields = outline_fields(outline);
    ASSERT_TRUE(fields.ok()) << fields.error().field;
    const SetUpFields four = with_outline(six, *fields);
    EXPECT_TRUE(four.contains("described/4E/gap_front_top/size"));
    EXPECT_FALSE(four.contains("described/5E/gap_front_top/size"));
    EXPECT_FALSE(four.contains("cylinders/5/bank"));
    EXPECT_TRUE(four.contains("described/intake/rod_overall/size"));
    EXPECT_TRUE(four.contains("lobes/intake/lift_table"));
    const auto engine = make_engine(four);
    ASSERT_TRUE(engine.ok()) << engine.error().field;
    EXPECT_EQ(engine->trains.size(), 8U);
}

TEST(MissingSizes, AreToldInTheOrderOfMeasuringUntilThereIsAnEngine) {
    SetUpFields fields = *outline_fields(vee());
    const auto missing_of = [&] { return missing_sizes(*Description::read(fields), fields); };
    const std::size_t at_first = missing_of().size();
    EXPECT_EQ(missing_of().front().path, "described/left/spacing/size");
    fields["described/left/spacing/size"] = {"4.84", "in"}; // the right bank's is taken to be alike
    EXPECT_EQ(missing_of().size(), at_first - 2);
    // One by one, what is told to be missing is typed: then it must be an engine.
    const SetUpFields measured = MeasuredEngine(demo_fields("v8-port-tubes")).fields();
    for (int typed = 0; typed < 100 && !missing_of().empty(); ++typed) {
        EXPECT_FALSE(make_engine(fields).ok());
        const std::string path = missing_of().front().path;
        ASSERT_TRUE(measured.contains(path)) << path;
        fields[path] = measured.at(path);
    }
    const auto engine = make_engine(fields);
    EXPECT_TRUE(engine.ok()) << engine.error().field;
}

} // namespace
} // namespace rodway
