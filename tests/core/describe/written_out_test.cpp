#include "core/describe/written_out.h"

#include <gtest/gtest.h>

#include "core/clearance/survey.h"
#include "tests/core/describe/measured_engine.h"

namespace rodway {
namespace {

constexpr double thou = 0.0254;

std::map<ValvePosition, CertifiedMinimum> minima(const Engine& engine) {
    std::map<ValvePosition, CertifiedMinimum> found;
    for (const ValveClearance& line : *survey(engine)) {
        found.emplace(line.position, line.found);
    }
    return found;
}

class DescribedDemo : public ::testing::TestWithParam<const char*> {};

// The demo engines were made of places, without this room. Their places are typed to 0.001 in, and
// a foot stands up to 0.0005 in off the base circle: that much is left.
TEST_P(DescribedDemo, HasTheClearancesOfTheEngineThatWasMeasured) {
    const MeasuredEngine measured(demo_fields(GetParam()));
    const auto described = make_engine(measured.fields());
    ASSERT_TRUE(described.ok()) << described.error().field;
    const auto expected = minima(measured.engine());
    const auto found = minima(*described);
    ASSERT_EQ(found.size(), expected.size());
    for (const auto& [valve, minimum] : expected) {
        ASSERT_TRUE(found.at(valve).minimum.has_value()) << position_name(valve);
        EXPECT_NEAR(found.at(valve).minimum->clearance_mm, minimum.minimum->clearance_mm,
                    0.6 * thou)
            << position_name(valve);
        EXPECT_NEAR(found.at(valve).on_heel->clearance_mm, minimum.on_heel->clearance_mm,
                    0.6 * thou)
            << position_name(valve);
    }
}

TEST_P(DescribedDemo, PutsEveryPartWhereItStoodInTheEngineThatWasMeasured) {
    const MeasuredEngine measured(demo_fields(GetParam()));
    const auto described = make_engine(measured.fields());
    ASSERT_TRUE(described.ok()) << described.error().field;
    ASSERT_EQ(described->trains.size(), measured.engine().trains.size());
    for (const Train& was : measured.engine().trains) {
        const Train* is = described->train(was.position);
        ASSERT_NE(is, nullptr) << position_name(was.position);
        EXPECT_EQ(is->bank, was.bank);
        EXPECT_EQ(is->tube.casting, was.tube.casting);
        EXPECT_LT((is->lifter.foot_K - was.lifter.foot_K).norm(), 1.0 * thou);
        EXPECT_LT((is->rocker.pivot_K - was.rocker.pivot_K).norm(), 0.1 * thou);
        EXPECT_LT((is->rocker.ball_arm_K - was.rocker.ball_arm_K).norm(), 3.0 * thou);
        EXPECT_LT((is->rocker.tip_arm_K - was.rocker.tip_arm_K).norm(), 3.0 * thou);
        EXPECT_LT((is->tube.bore.centre_K - was.tube.bore.centre_K).norm(), 2.0 * thou);
        EXPECT_LT((is->tube.bore.axis_K - was.tube.bore.axis_K).norm(), 1e-3);
        EXPECT_LT((is->valve.axis_K - was.valve.axis_K).norm(), 1e-4);
        EXPECT_NEAR(is->rod.length_mm, was.rod.length_mm, 1e-9);
    }
}

INSTANTIATE_TEST_SUITE_P(Demos, DescribedDemo, ::testing::ValuesIn(demo_names));

/// A demo engine with other parts on every train, as a builder meets them.
struct OddParts {
    const char* name;
    void (*fit)(SetUpFields& fields, const std::string& train, double away_from_cylinder);
};

void put_mm(SetUpFields& fields, const std::string& path, double mm) {
    fields[path] = {plain_digits(mm), "mm"};
}

double mm_of(const SetUpFields& fields, const std::string& path) {
    const auto found = fields.find(path);
    return found == fields.end() ? 0.0 : *length_field_mm(path, found->second);
}

/// The rocker stands nearer to its cylinder, its ball reaches out to where it was.
void offset_rocker(SetUpFields& fields, const std::string& train, double away_from_cylinder) {
    const double offset_mm = away_from_cylinder * (train.back() == 'I' ? 7.5 : -4.0);
    const std::string pivot = train + "/rocker/pivot/x";
    const std::string ball = train + "/rocker/ball_arm/x";
    put_mm(fields, pivot, mm_of(fields, pivot) - offset_mm);
    put_mm(fields, ball, mm_of(fields, ball) + offset_mm);
}

void cup_ended_rod(SetUpFields& fields, const std::string& train, double) {
    fields[train + "/rod/top_end"] = {"cup", {}};
    put_mm(fields, train + "/rod/lower_ball", 7.9375);
    put_mm(fields, train + "/rod/upper_ball", 9.525);
    put_mm(fields, train + "/rod/cup_depth", 5.2);
    put_mm(fields, train + "/rod/cup_outside", 12.5);
}

void obround_tube(SetUpFields& fields, const std::string& train, const Vec3& long_way) {
    fields[train + "/tube/shape"] = {"obround", {}};
    put_mm(fields, train + "/tube/long_bore", mm_of(fields, train + "/tube/bore") + 5.0);
    fields[train + "/tube/long_way/x"] = {plain_digits(long_way.x()), {}};
    fields[train + "/tube/long_way/y"] = {plain_digits(long_way.y()), {}};
    fields[train + "/tube/long_way/z"] = {plain_digits(long_way.z()), {}};
}
void tube_long_along_crank(SetUpFields& fields, const std::string& train, double) {
    obround_tube(fields, train, Vec3::UnitX());
}
void tube_long_across_crank(SetUpFields& fields, const std::string& train, double) {
    obround_tube(fields, train, Vec3::UnitY());
}

void rocker_on_half_ball(SetUpFields& fields, const std::string& train, double) {
    fields[train + "/rocker/mount"] = {"ball_pivot", {}};
    fields[train + "/rocker/guided_by"] = {"guide_plate", {}};
    fields[train + "/adjuster/kind"] = {"nut", {}};
    for (const char* xyz : {"x", "y", "z"}) {
        fields.erase(train + "/rocker/axis/" + xyz);
        fields[train + "/adjuster/axis/" + xyz] = {*xyz == 'z' ? "-1" : "0", {}};
    }
}

class DescribedParts : public ::testing::TestWithParam<OddParts> {};

TEST_P(DescribedParts, HaveTheClearancesOfTheEngineThatWasMeasured) {
    SetUpFields fields = demo_fields("v8-port-tubes");
    const Engine plain = *make_engine(fields);
    for (const Train& train : plain.trains) {
        const double centre = plain.layout.cylinder(train.position.cylinder).centre_x_mm;
        GetParam().fit(fields, "trains/" + position_name(train.position),
                       train.lifter.foot_K.x() < centre ? -1.0 : 1.0);
    }
    const auto made = make_engine(fields);
    ASSERT_TRUE(made.ok()) << made.error().field;
    const MeasuredEngine measured(fields);
    const auto described = make_engine(measured.fields());
    ASSERT_TRUE(described.ok()) << described.error().field;
    const auto expected = minima(measured.engine());
    const auto found = minima(*described);
    for (const auto& [valve, minimum] : expected) {
        ASSERT_TRUE(minimum.minimum && found.at(valve).minimum) << position_name(valve);
        EXPECT_NEAR(found.at(valve).minimum->clearance_mm, minimum.minimum->clearance_mm,
                    0.6 * thou)
            << position_name(valve);
        const Train& was = *measured.engine().train(valve);
        const Train& is = *described->train(valve);
        EXPECT_LT(
            (is.rocker.pivot_K + is.rocker.ball_arm_K - was.rocker.pivot_K - was.rocker.ball_arm_K)
                .norm(),
            3.0 * thou);
        EXPECT_NEAR(is.rod.length_mm, was.rod.length_mm, 1e-9);
        EXPECT_EQ(is.rod.cup_at_top, was.rod.cup_at_top);
        EXPECT_EQ(is.rod.cup_outside_mm.has_value(), was.rod.cup_outside_mm.has_value());
        EXPECT_EQ(is.rocker.mount, was.rocker.mount);
        EXPECT_LT((is.rocker.axis_K - was.rocker.axis_K).norm(), 1e-3);
        EXPECT_LT((is.tube.bore.centre_K - was.tube.bore.centre_K).norm(), 2.0 * thou);
        EXPECT_LT((is.tube.bore.axis_K - was.tube.bore.axis_K).norm(), 1e-3);
        EXPECT_NEAR(is.tube.bore.half_straight_mm, was.tube.bore.half_straight_mm, 1e-9);
        if (was.tube.bore.half_straight_mm > 0.0) {
            EXPECT_GT(std::abs(is.tube.bore.long_way_K.dot(was.tube.bore.long_way_K)), 0.99);
        }
    }
}

INSTANTIATE_TEST_SUITE_P(Odd, DescribedParts,
                         ::testing::Values(OddParts{"OffsetRockers", offset_rocker},
                                           OddParts{"CupEndedRods", cup_ended_rod},
                                           OddParts{"TubesLongAlong", tube_long_along_crank},
                                           OddParts{"TubesLongAcross", tube_long_across_crank},
                                           OddParts{"RockersOnHalfBalls", rocker_on_half_ball}),
                         [](const auto& parts) { return std::string(parts.param.name); });

/// The six, whose bank is called "row".
class WrittenOutTest : public ::testing::Test {
  protected:
    void put(const std::string& owner, const char* name, const std::string& text,
             const std::string& unit = "in") {
        fields_[described_path(owner, *dimension_called(name))] = {text, unit};
    }
    void take_away(const std::string& owner, const char* name) {
        ASSERT_EQ(fields_.erase(described_path(owner, *dimension_called(name))), 1U);
    }
    Error refusal() const {
        const auto made = make_engine(fields_);
        EXPECT_FALSE(made.ok());
        return made.ok() ? Error{} : made.error();
    }
    SetUpFields fields_ = MeasuredEngine(demo_fields("inline-six")).fields();
};

TEST_F(WrittenOutTest, WhatWasTypedStaysAsTypedAndNothingMadeIsAmongIt) {
    EXPECT_TRUE(is_described(fields_));
    EXPECT_FALSE(is_described(demo_fields("inline-six")));
    const auto out = written_out(fields_);
    ASSERT_TRUE(out.ok());
    EXPECT_FALSE(is_described(out->fields));
    EXPECT_TRUE(out->fields.contains("trains/3I/tube/centre/x"));
    EXPECT_FALSE(fields_.contains("trains/3I/tube/centre/x"));
}

TEST_F(WrittenOutTest, AMissingSizeIsNamedByItsOwnPath) {
    put("exhaust", "seat_height", "1.9");
    take_away("intake", "seat_height");
    const Engine one = *make_engine(fields_); // the exhaust's stands for it
    EXPECT_NEAR(one.train({1, ValveKind::intake})->lifter.seat_height_mm, 1.9 * 25.4, 1e-9);
    take_away("exhaust", "seat_height");
    EXPECT_EQ(refusal().code, ErrorCode::missing_field);
    EXPECT_TRUE(refusal().field == "described/exhaust/seat_height/size" ||
                refusal().field == "described/intake/seat_height/size")
        << refusal().field;
}

TEST_F(WrittenOutTest, ASizeOutOfItsLimitsIsToldInTheUnitTyped) {
    put("intake", "rod_diameter", "2.5", "in");
    EXPECT_EQ(refusal().code, ErrorCode::out_of_range);
    EXPECT_EQ(refusal().field, "described/intake/rod_diameter/size");
    EXPECT_EQ(refusal().limits->unit, "in");
    EXPECT_NEAR(refusal().limits->high, 25.0 / 25.4, 1e-9);
}

TEST_F(WrittenOutTest, ARodThatCannotReachIsToldWithTheLengthsThatCan) {
    put("intake", "rod_overall", "7.5");
    const Error error = refusal();
    EXPECT_EQ(error.code, ErrorCode::out_of_range);
    EXPECT_EQ(error.field, "described/intake/rod_overall/size");
    ASSERT_TRUE(error.limits.has_value());
    // Seat at y 3.535, z 5.846, arm's plane .14 away; shaft at 1.25, 14.75; arm .885: by hand.
    const double apart = std::hypot(3.5355 - 1.25, 14.75 - (3.5355 + 0.56 + 1.75));
    EXPECT_NEAR(error.limits->low, std::hypot(apart - 0.885, 0.14) + 0.3125, 1e-3);
    EXPECT_NEAR(error.limits->high, std::hypot(apart + 0.885, 0.14) + 0.3125, 1e-3);
    put("intake", "rod_overall", "8.9");
    EXPECT_TRUE(make_engine(fields_).ok());
}

TEST_F(WrittenOutTest, GapsLargerThanTheRoomAreRefusedAtTheLargest) {
    put("3I", "gap_front_top", ".260"); // .5625 - .3125 = .250
    EXPECT_EQ(refusal().code, ErrorCode::out_of_range);
    EXPECT_EQ(refusal().field, "described/3I/gap_front_top/size");
    EXPECT_NEAR(refusal().limits->high, 0.25, 1e-6);
}

TEST_F(WrittenOutTest, ACamshaftInTheCylindersPlaneSaysNotOnWhichSideTheRodsAre) {
    fields_["camshaft/beside_crank"] = {"0", "in"};
    EXPECT_EQ(refusal().field, "camshaft/beside_crank");
}

TEST_F(WrittenOutTest, APlaceThatStandsInTheSetUpItselfGoesBeforeTheOneWorkedOut) {
    const double before = make_engine(fields_)->train({3, ValveKind::intake})->rod.length_mm;
    fields_["trains/3I/rod/length"] = {"9.000", "in"};
    const auto made = make_engine(fields_);
    ASSERT_TRUE(made.ok()) << made.error().field;
    EXPECT_NE(before, 9.0 * 25.4);
    EXPECT_NEAR(made->train({3, ValveKind::intake})->rod.length_mm, 9.0 * 25.4, 1e-9);
    EXPECT_NEAR(made->train({2, ValveKind::intake})->rod.length_mm, before, 1e-9);
}

TEST_F(WrittenOutTest, AValveMayHaveASizeOfItsOwn) {
    put("4E", "rod_overall", "9.300");
    const auto made = make_engine(fields_);
    ASSERT_TRUE(made.ok());
    EXPECT_NEAR(made->train({4, ValveKind::exhaust})->rod.length_mm, (9.3 - 0.3125) * 25.4, 1e-6);
    EXPECT_NEAR(made->train({5, ValveKind::exhaust})->rod.length_mm, 8.965 * 25.4, 1e-6);
}

TEST_F(WrittenOutTest, WithAThinnerGasketTheHeadComesDownAndTheRestStays) {
    const double before = make_engine(fields_)->train({1, ValveKind::intake})->rocker.pivot_K.z();
    fields_["banks/row/head/gasket"] = {".5", "mm"}; // measured on 1.1
    const auto made = make_engine(fields_);
    ASSERT_TRUE(made.ok()) << made.error().field;
    EXPECT_NEAR(made->train({1, ValveKind::intake})->rocker.pivot_K.z(), before - 0.6, 1e-9);
}

TEST_F(WrittenOutTest, ACupAndAnObroundTubeAskForTheirSizesAndRefuseWrongOnes) {
    fields_["described/exhaust/top_end"] = {"cup", {}};
    EXPECT_EQ(refusal().code, ErrorCode::missing_field);
    EXPECT_EQ(refusal().field, "described/exhaust/cup_depth/size");
    put("exhaust", "cup_depth", ".32"); // deeper than its ball
    EXPECT_EQ(refusal().code, ErrorCode::out_of_range);
    EXPECT_EQ(refusal().field, "described/exhaust/cup_depth/size");
    put("exhaust", "cup_depth", ".2");
    EXPECT_EQ(refusal().field, "described/exhaust/cup_outside/size");
    put("exhaust", "cup_outside", ".47");
    EXPECT_TRUE(make_engine(fields_).ok());
    fields_["described/exhaust/tube_shape"] = {"obround", {}};
    EXPECT_EQ(refusal().code, ErrorCode::missing_field);
    EXPECT_EQ(refusal().field, "described/exhaust/tube_long_bore/size");
    put("exhaust", "tube_long_bore", ".4"); // less than the narrow way
    EXPECT_EQ(refusal().code, ErrorCode::out_of_range);
    EXPECT_EQ(refusal().field, "described/exhaust/tube_long_bore/size");
}

TEST_F(WrittenOutTest, ADoubtStatedForTheSizesHoldsUntilOneChanges) {
    fields_["doubt/assumed"] = {".02", "in"};
    const auto engine = [&] { return *make_engine(fields_); };
    EXPECT_NEAR(*engine().assumed_doubt_mm, 0.508, 1e-12);
    put("intake", "tube_bore", ".570"); // nobody said for what it was stated
    EXPECT_NEAR(*engine().assumed_doubt_mm, 0.508, 1e-12);

    fields_["doubt/assumed_for"] = {described_mark(fields_), {}};
    EXPECT_NEAR(*engine().assumed_doubt_mm, 0.508, 1e-12);
    fields_["limits/rod_clearance"] = {".012", "in"}; // no size
    EXPECT_NEAR(*engine().assumed_doubt_mm, 0.508, 1e-12);
    EXPECT_FALSE(engine().assumed_doubt_outdated);
    const SetUpFields then = fields_;
    fields_["described/intake/tube_bore/doubt"] = {".03", "in"};
    EXPECT_FALSE(engine().assumed_doubt_mm.has_value());
    EXPECT_TRUE(engine().assumed_doubt_outdated);
    for (const ValveClearance& line : *survey(engine())) {
        EXPECT_FALSE(is_pass(*line.verdict)) << position_name(line.position);
    }
    fields_ = then;
    EXPECT_TRUE(engine().assumed_doubt_mm.has_value());
    take_away("intake", "ball_offset");
    EXPECT_TRUE(engine().assumed_doubt_outdated);
}

TEST_F(WrittenOutTest, StrangersAreRefused) {
    const auto refused = [&](const std::string& path, const std::string& text,
                             const std::string& unit) {
        SetUpFields fields = fields_;
        fields[path] = {text, unit};
        const auto made = make_engine(fields);
        return !made.ok() && made.error().field == path;
    };
    EXPECT_TRUE(refused("described/intake/rod_colour/size", "1", "in"));
    EXPECT_TRUE(refused("described/9I/gap_front_top/size", ".1", "in"));
    EXPECT_TRUE(refused("described/somewhere/deck_height/size", "9", "in"));
    EXPECT_TRUE(refused("described/row/valves", "EIIE", ""));
    EXPECT_TRUE(refused("described/row/valves", "EEIIEIIEEIIE", ""));
    EXPECT_TRUE(refused("described/intake/rod_overall/source", "hearsay", ""));
    EXPECT_TRUE(refused("described/intake/rod_overall/doubt", "-.01", "in"));
}

} // namespace
} // namespace rodway
