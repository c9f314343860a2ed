#include "core/clearance/passage_place.h"

#include <gtest/gtest.h>

#include <iostream>
#include <random>

#include "core/clearance/reading_fit.h"
#include "tests/core/demo_set_ups.h"

namespace rodway {
namespace {

constexpr double micron = 1e-3;

/// The demo's V8 with gaskets that are not those its tubes were located with, and a hole in the
/// head of 3I, larger than the rod, around the middle of its tube; one of its lengths is metric.
SetUpFields moved_v8() {
    SetUpFields fields = demo_fields("v8-port-tubes");
    for (const std::string bank : {"left", "right"}) {
        fields["banks/" + bank + "/flange/gasket"] = {"0.075", "in"};
        fields["banks/" + bank + "/flange/gasket_when_located"] = {"0.060", "in"};
        fields["banks/" + bank + "/head/gasket"] = {"0.055", "in"};
        fields["banks/" + bank + "/head/gasket_when_located"] = {"0.040", "in"};
    }
    const std::string hole = "trains/3I/passages/hole/";
    for (const char* axis : {"/x", "/y", "/z"}) {
        for (const char* part : {"centre", "axis"}) {
            fields[hole + part + axis] = fields["trains/3I/tube/" + std::string(part) + axis];
        }
    }
    fields[hole + "centre/z"] = {"286", "mm"};
    fields[hole + "kind"] = {"hole", ""};
    fields[hole + "casting"] = {"head", ""};
    fields[hole + "length"] = {"0.75", "in"};
    fields[hole + "bore"] = {"0.75", "in"};
    return fields;
}

const ValvePosition valve{3, ValveKind::intake, 1};

Bore standing(const Engine& engine, const std::string& passage) {
    const Train& train = *engine.train(valve);
    return *engine.bore_in_place(train, *find_passage(train, passage));
}

TEST(PassagePlace, FindsTheTubeAndFurtherPassagesByName) {
    const Engine engine = *make_engine(moved_v8());
    const Train& train = *engine.train(valve);
    EXPECT_EQ(find_passage(train, "tube"), &train.tube);
    ASSERT_EQ(train.further_passages.size(), 1U);
    EXPECT_EQ(find_passage(train, "hole"), train.further_passages.data());
    EXPECT_EQ(find_passage(train, "Tube"), nullptr);
    EXPECT_EQ(find_passage(train, ""), nullptr);
}

// The set-up keeps where a passage was located; what its casting has moved since must not be put
// in twice. Half of the last digits written is 0.05 or 0.13 micron; 0.5 micron allows for all three
// and the axis over half a tube.
TEST(PassagePlace, ThePassageOfTheNewSetUpStandsAtThePose) {
    const std::uint64_t seed = 20261125;
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    std::normal_distribution<double> normal;
    const SetUpFields fields = moved_v8();
    const Engine engine = *make_engine(fields);
    for (const std::string passage : {"tube", "hole"}) {
        const Train& train = *engine.train(valve);
        const Bore located = find_passage(train, passage)->bore;
        ASSERT_GT((standing(engine, passage).centre_K - located.centre_K).norm(), 0.1)
            << "its casting should have moved";
        for (int made = 0; made < 20; ++made) {
            const PassagePose pose{0.5 * normal(random), 0.5 * normal(random),
                                   0.01 * normal(random), 0.01 * normal(random)};
            const auto changed = fields_at_pose(fields, engine, valve, passage, pose);
            ASSERT_TRUE(changed.ok());
            const Bore found = standing(*make_engine(*changed), passage);
            const Bore wanted = at_pose(standing(engine, passage), pose);
            const double half = wanted.length_mm / 2.0;
            for (const double end : {-half, half}) {
                EXPECT_LT(
                    (found.centre_K + end * found.axis_K - wanted.centre_K - end * wanted.axis_K)
                        .norm(),
                    0.5 * micron);
            }
        }
    }
}

TEST(PassagePlace, OnlyCentreAndAxisChangeAndUnitsStay) {
    const SetUpFields fields = moved_v8();
    const Engine engine = *make_engine(fields);
    const auto changed = fields_at_pose(fields, engine, valve, "hole", {0.3, -0.2, 0.004, -0.003});
    ASSERT_TRUE(changed.ok());
    std::vector<std::string> paths;
    ASSERT_EQ(changed->size(), fields.size());
    for (const auto& [path, value] : *changed) {
        ASSERT_TRUE(fields.contains(path)) << path;
        EXPECT_EQ(value.unit, fields.at(path).unit) << path;
        if (value != fields.at(path)) {
            paths.push_back(path);
        }
    }
    const std::string hole = "trains/3I/passages/hole/";
    EXPECT_EQ(paths,
              (std::vector<std::string>{hole + "axis/x", hole + "axis/y", hole + "axis/z",
                                        hole + "centre/x", hole + "centre/y", hole + "centre/z"}));
}

// A set-up is read by people: no exponents, and no more digits than mean something.
TEST(PassagePlace, SmallNumbersAreWrittenOut) {
    SetUpFields fields = demo_fields("v8-port-tubes");
    const std::string tube = "trains/3I/tube/";
    fields[tube + "axis/x"] = {"0", ""};
    fields[tube + "centre/x"] = {"0", "in"};
    const Engine engine = *make_engine(fields);
    // 12 o'clock is towards -x, which is square to this axis: 0.0000002 and 0.00002 in.
    const auto changed =
        fields_at_pose(fields, engine, valve, "tube", {0.00002 * 25.4, 0.0, 2e-7, 0.0});
    ASSERT_TRUE(changed.ok());
    EXPECT_EQ(changed->at(tube + "axis/x").text, "-0.0000002");
    EXPECT_EQ(changed->at(tube + "centre/x").text, "-0.00002");
}

TEST(PassagePlace, RefusesWhatIsNotThereOrMakesNoEngine) {
    const SetUpFields fields = moved_v8();
    const Engine engine = *make_engine(fields);
    const auto code = [&](const ValvePosition& of, const std::string& passage,
                          const PassagePose& pose) {
        const auto changed = fields_at_pose(fields, engine, of, passage, pose);
        EXPECT_FALSE(changed.ok());
        return changed.ok() ? ErrorCode::empty_text : changed.error().code;
    };
    EXPECT_EQ(code({9, ValveKind::intake, 1}, "tube", {}), ErrorCode::valve_unknown);
    EXPECT_EQ(code(valve, "plate", {}), ErrorCode::not_a_choice);
    EXPECT_EQ(code(valve, "tube", {5000.0, 0.0, 0.0, 0.0}), ErrorCode::out_of_range);
}

// A passage in the head goes up with it when the gasket under it is changed, and the fit must look
// for it there. The slow way round: put it there by hand.
TEST(PassagePlace, TheFitLooksForAHeadsPassageWhereItNowStands) {
    const Engine engine = *make_engine(moved_v8());
    const Train& train = *engine.train(valve);
    FitRequest request;
    request.valve = valve;
    request.passage = "hole";
    request.set_up_id = 1;
    const auto fit = fit_readings(engine, request, {});
    ASSERT_TRUE(fit.ok());
    ASSERT_EQ(fit->poses.size(), 1U);
    const auto least = [&](const Bore& bore) {
        RodInTube rod = *rod_in_tube(engine, train)->rod;
        rod.tube = bore;
        return certified_minimum(rod).minimum->clearance_mm;
    };
    const Bore& located = train.further_passages.front().bore;
    ASSERT_TRUE(fit->poses.front().minimum.found.minimum.has_value());
    const double found = fit->poses.front().minimum.found.minimum->clearance_mm;
    EXPECT_NEAR(found, least(standing(engine, "hole")), 1e-9);
    EXPECT_GT(std::abs(found - least(located)), 5.0 * micron);
}

} // namespace
} // namespace rodway
