#include "core/clearance/stale_readings.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <iostream>

#include "core/clearance/certified_minimum.h"
#include "core/clearance/gap_at.h"
#include "core/engine/set_up_fields.h"
#include "core/units/typed_text.h"
#include "tests/core/demo_set_ups.h"

namespace rodway {
namespace {

using Fields = std::vector<std::string>;

GapReading reading_of(const std::string& valve, TurnPlace place) {
    GapReading reading;
    reading.name = valve;
    reading.valve = *parse_position(valve);
    reading.place = place;
    reading.crank = CrankAngle::deg(400.0);
    reading.clock_hours = 3.0;
    reading.low_mm = 0.2;
    return reading;
}

Fields stale(const std::string& path, const TypedValue& changed, const GapReading& reading,
             const std::string& demo = "v8-port-tubes") {
    const SetUpFields before = demo_fields(demo);
    SetUpFields after = before;
    after[path] = changed;
    return stale_by(before, after, reading);
}

const GapReading on_heel = reading_of("1I", TurnPlace::on_heel);
const GapReading at_full_lift = reading_of("1I", TurnPlace::at_full_lift);
const GapReading at_crank = reading_of("1I", TurnPlace::at_crank_angle);

TEST(StaleReadings, AChangedGasketMakesThemStaleAndIsNamed) {
    const TypedValue thicker{"0.075", "in"};
    // One casting over both banks: it moves whichever gasket is changed.
    for (const char* bank : {"left", "right"}) {
        const std::string path = "banks/" + std::string(bank) + "/flange/gasket";
        EXPECT_EQ(stale(path, thicker, on_heel), Fields{path});
        EXPECT_EQ(stale(path, thicker, reading_of("2I", TurnPlace::at_full_lift)), Fields{path});
    }
    // The flat four's tubes are in the heads: what is under an intake is nothing to them.
    EXPECT_EQ(stale("banks/left/flange/gasket", thicker, on_heel, "flat-four"), Fields{});
    // An intake for each bank is moved by its own gaskets only.
    SetUpFields before = demo_fields("v8-port-tubes");
    before["engine/intake_casting"] = {"one_for_each_bank", ""};
    const std::string own = before["cylinders/1/bank"].text;
    const std::string other = own == "left" ? "right" : "left";
    SetUpFields after = before;
    after["banks/" + other + "/flange/gasket"] = thicker;
    EXPECT_EQ(stale_by(before, after, on_heel), Fields{});
    after["banks/" + own + "/flange/gasket"] = thicker;
    EXPECT_EQ(stale_by(before, after, on_heel), Fields{"banks/" + own + "/flange/gasket"});
}

TEST(StaleReadings, WhatMovesNoRodAndNoPassageLeavesThem) {
    for (const auto& [path, value] : std::vector<std::pair<std::string, TypedValue>>{
             {"springs/intake/installed_height", {"1.9", "in"}},
             {"springs/1I/loads", {"1.9 120; 1.4 300", "in/lbf"}},
             {"limits/rod_clearance", {"0.02", "in"}},
             {"doubt/assumed", {"0.01", "in"}},
             {"doubt/inputs/rod_length", {"0.01", "in"}},
             {"piston_to_valve/1I/radial_gap", {"0.1", "in"}},
             {"obstacles/stud/diameter", {"0.5", "in"}},
             {"engine/name", {"another", ""}},
             {"engine/bore", {"4.2", "in"}},
             {"trains/1E/rod/length", {"9", "in"}},
             {"trains/1I/adjuster/pitch", {"1/20", "in"}},
             {"trains/1I/rocker/end_float", {"0.01", "in"}},
             {"trains/1I/rocker/body/diameter", {"0.8", "in"}},
             {"trains/1I/tube/wall", {"0.06", "in"}},
             {"trains/1I/passages/guide plate/bore", {"0.5", "in"}},
             {"lobes/exhaust/lash", {"0.03", "in"}},
             {"cylinders/2/bank", {"left", ""}},
             {"camshaft/above_crank", {"5.1", "in"}}}) {
        for (const GapReading& reading : {on_heel, at_full_lift, at_crank}) {
            EXPECT_EQ(stale(path, value, reading), Fields{}) << path;
        }
    }
}

TEST(StaleReadings, ALobeCountsAsFarAsItLiftsThere) {
    const auto lobe = [](const std::string& leaf, const TypedValue& value,
                         const GapReading& reading) {
        return !stale("lobes/intake/" + leaf, value, reading).empty();
    };
    const TypedValue table{"-60 0; 0 0.4; 60 0", "cam_deg/in"};
    EXPECT_FALSE(lobe("lift_table", table, on_heel));
    EXPECT_TRUE(lobe("lift_table", table, at_full_lift));
    EXPECT_TRUE(lobe("lift_table", table, at_crank));
    EXPECT_FALSE(lobe("centreline", {"104", "crank_deg"}, on_heel));
    EXPECT_FALSE(lobe("centreline", {"104", "crank_deg"}, at_full_lift));
    EXPECT_TRUE(lobe("centreline", {"104", "crank_deg"}, at_crank));
    for (const GapReading& reading : {on_heel, at_full_lift, at_crank}) {
        EXPECT_TRUE(lobe("base_circle_radius", {"0.5", "in"}, reading));
        EXPECT_TRUE(lobe("lash", {"0.03", "in"}, reading));
    }
    EXPECT_TRUE(stale("engine/firing_order", {"1-5-4-2-6-3-7-8", ""}, on_heel).empty());
    EXPECT_FALSE(stale("engine/firing_order", {"1-5-4-2-6-3-7-8", ""}, at_crank).empty());
}

TEST(StaleReadings, AValvesOwnLobeHidesTheOthers) {
    SetUpFields before = demo_fields("v8-port-tubes");
    before["lobes/1I/centreline"] = {"106", "crank_deg"};
    SetUpFields after = before;
    after["lobes/intake/centreline"] = {"104", "crank_deg"};
    EXPECT_EQ(stale_by(before, after, at_crank), Fields{});
    EXPECT_EQ(stale_by(before, after, reading_of("3I", TurnPlace::at_crank_angle)),
              Fields{"lobes/intake/centreline"});
    // Its own taken away: both act.
    after.erase("lobes/1I/centreline");
    EXPECT_EQ(stale_by(before, after, at_crank),
              (Fields{"lobes/1I/centreline", "lobes/intake/centreline"}));
}

TEST(StaleReadings, AnotherPassageIsAnotherReading) {
    GapReading plate = on_heel;
    plate.passage = "guide plate";
    EXPECT_EQ(stale("trains/1I/passages/guide plate/bore", {"0.5", "in"}, plate),
              Fields{"trains/1I/passages/guide plate/bore"});
    EXPECT_EQ(stale("trains/1I/tube/bore", {"0.6", "in"}, plate), Fields{});
    EXPECT_EQ(stale("trains/1I/tube/bore", {"0.6", "in"}, on_heel), Fields{"trains/1I/tube/bore"});
    EXPECT_EQ(stale("trains/1I/rod/length", {"9", "in"}, plate), Fields{"trains/1I/rod/length"});
}

TEST(StaleReadings, TypedAnotherWayIsNoChange) {
    EXPECT_EQ(stale("trains/1I/rod/diameter", {"5/16", "in"}, on_heel), Fields{});
    EXPECT_EQ(stale("trains/1I/rod/diameter", {"7.9375", "mm"}, on_heel), Fields{});
    EXPECT_EQ(stale("trains/1I/rod/diameter", {"7.938", "mm"}, on_heel),
              Fields{"trains/1I/rod/diameter"});
    EXPECT_EQ(stale("trains/1I/lifter/axis/z", {"1.000", ""}, on_heel), Fields{});
    EXPECT_EQ(stale("trains/1I/rod/diameter", {"thick", "in"}, on_heel),
              Fields{"trains/1I/rod/diameter"});
}

TEST(StaleReadings, ListsEachReadingWithAllItsReasons) {
    const SetUpFields before = demo_fields("v8-port-tubes");
    SetUpFields after = before;
    after["trains/1I/rod/length"] = {"9", "in"};
    after["trains/1I/lifter/seat_height"] = {"1.8", "in"};
    after["springs/intake/installed_height"] = {"1.9", "in"};
    std::vector<GapReading> readings{on_heel, reading_of("3E", TurnPlace::on_heel), at_full_lift};
    readings[0].name = "first";
    readings[2].name = "third";
    const auto found = stale_readings(before, after, readings);
    ASSERT_EQ(found.size(), 2u);
    EXPECT_EQ(found[0].name, "first");
    EXPECT_EQ(found[0].fields, (Fields{"trains/1I/lifter/seat_height", "trains/1I/rod/length"}));
    EXPECT_EQ(found[1].name, "third");
    EXPECT_TRUE(stale_readings(before, before, readings).empty());
}

/// Another value of the same field, a little away; nothing for fields that have no number.
std::optional<TypedValue> nudged(const std::string& path, const TypedValue& value) {
    const FieldSpec* spec = field_spec(path);
    if (!spec || !(spec->kind == FieldKind::length || spec->kind == FieldKind::direction ||
                   spec->kind == FieldKind::angle || spec->kind == FieldKind::crank_angle)) {
        return std::nullopt;
    }
    if (spec->kind == FieldKind::length) {
        const auto length = parse_length(value.text + " " + value.unit, BareNumber::refused);
        return TypedValue{exact_text(length->low.in_mm() + 0.05), "mm"};
    }
    return TypedValue{exact_text(*parse_number(value.text) + 0.004), value.unit};
}

/// The gaps of a rod where a reading was taken, both ends, two clock directions; empty if the train
/// has no answer.
std::vector<double> gaps(const Engine& engine, const GapReading& reading) {
    const auto placed = rod_in_tube(engine, *engine.train(reading.valve));
    const auto pose = placed && placed->rod ? placed->rod->linkage.at(lobe_lift_mm(engine, reading))
                                            : std::nullopt;
    if (!pose) {
        return {};
    }
    const RodPlace rod{pose->lower_ball_K, pose->upper_ball_K, placed->rod->rod_radius_mm};
    std::vector<double> found;
    for (const BoreEnd end : {BoreEnd::top, BoreEnd::bottom}) {
        for (const double hours : {12.0, 4.0}) {
            found.push_back(gap_anywhere_mm(placed->rod->tube, rod, end, hours));
        }
    }
    return found;
}

bool differ(const std::vector<double>& was, const std::vector<double>& is) {
    return !is.empty() && !std::equal(was.begin(), was.end(), is.begin(),
                                      [](double a, double b) { return std::abs(a - b) < 1e-9; });
}

/// Whether a field is worth trying: of the trains, only those whose readings are looked at, and one
/// neighbour.
bool tried(const std::string& path) {
    return path.rfind("trains/", 0) != 0 || path.rfind("trains/1I/", 0) == 0 ||
           path.rfind("trains/2E/", 0) == 0 || path.rfind("trains/2I/tube", 0) == 0;
}

// The numbers of every demo set-up, each changed a little: if that moves a gap that was read, the
// reading must be stale, by that field and no other. The list of fields in stale_readings.cpp is
// held against the engine itself.
TEST(StaleReadings, WhateverMovesAGapMakesItsReadingStale) {
    int moved = 0;
    int unmoved_but_stale = 0;
    for (const char* demo : demo_names) {
        const SetUpFields before = demo_fields(demo);
        const Engine engine = *make_engine(before);
        std::vector<GapReading> readings;
        for (const char* valve : {"1I", "2E"}) {
            for (const TurnPlace place :
                 {TurnPlace::on_heel, TurnPlace::at_full_lift, TurnPlace::at_crank_angle}) {
                readings.push_back(reading_of(valve, place));
                readings.back().crank =
                    engine.full_lift_angle(readings.back().valve) + CrankAngle::deg(50.0);
            }
        }
        for (const auto& [path, value] : before) {
            const auto changed = tried(path) ? nudged(path, value) : std::nullopt;
            if (!changed) {
                continue;
            }
            SetUpFields after = before;
            after[path] = *changed;
            const auto now = make_engine(after);
            for (const GapReading& reading : readings) {
                const auto was = gaps(engine, reading);
                ASSERT_FALSE(was.empty());
                const Fields by = stale_by(before, after, reading);
                if (now && differ(was, gaps(*now, reading))) {
                    ++moved;
                    ASSERT_EQ(by, Fields{path}) << demo << ' ' << reading.name;
                } else {
                    unmoved_but_stale += !by.empty();
                }
            }
        }
    }
    std::cout << moved << " changes moved a gap; " << unmoved_but_stale
              << " more are called stale to be safe\n";
    EXPECT_GT(moved, 300);
    EXPECT_LT(unmoved_but_stale, moved);
}

} // namespace
} // namespace rodway
