#include "core/engine/passage_fields.h"

#include "tests/core/engine/castings_set_up.h"

namespace rodway {
namespace {

constexpr double in = 25.4;
const ValvePosition exhaust_1{1, ValveKind::exhaust, 1};
const std::string train = "trains/1E/";
const std::string tube = "trains/1E/tube/";
const std::string slot = "trains/1E/passages/guide plate/";

template <typename Change>
Result<Engine> made_with(Change change) {
    SetUpFields fields = castings_set_up();
    change(fields);
    return make_engine(fields);
}
Result<Engine> with_text(const std::string& path, const char* text) {
    return made_with([&](SetUpFields& fields) { fields.at(path).text = text; });
}

TEST(PassageFields, AnObroundTubeIsAsItsFileSays) {
    const auto engine = make_engine(castings_set_up());
    ASSERT_TRUE(engine.ok());
    const Passage& passage = engine->train(exhaust_1)->tube;
    EXPECT_EQ(passage.kind, PassageKind::obround_tube);
    EXPECT_EQ(passage.casting, Casting::head);
    EXPECT_DOUBLE_EQ(passage.bore.bore_radius_mm, 0.25 * in);
    EXPECT_DOUBLE_EQ(passage.bore.half_straight_mm, (0.7 - 0.5) / 2.0 * in);
    EXPECT_DOUBLE_EQ(passage.bore.top_edge_radius_mm, 0.06 * in);
    EXPECT_DOUBLE_EQ(passage.bore.bottom_edge_radius_mm, 0.03 * in);
    EXPECT_DOUBLE_EQ(*passage.wall_mm, 0.049 * in);
    EXPECT_NEAR(passage.bore.long_way_K.norm(), 1.0, 1e-15);
    EXPECT_NEAR(passage.bore.long_way_K.dot(passage.bore.axis_K), 0.0, 1e-15);
    EXPECT_GT(passage.bore.long_way_K.y(), 0.98);
    // A train whose file says nothing of all this has a round, sharp tube and nothing else.
    const Train& plain = *engine->train({2, ValveKind::exhaust, 1});
    EXPECT_EQ(plain.tube.kind, PassageKind::round_tube);
    EXPECT_EQ(plain.tube.bore.half_straight_mm, 0.0);
    EXPECT_EQ(plain.tube.bore.top_edge_radius_mm, 0.0);
    EXPECT_FALSE(plain.tube.wall_mm.has_value());
    EXPECT_TRUE(plain.further_passages.empty());
}

TEST(PassageFields, FurtherPassagesComeByNameWithTheirKinds) {
    const auto engine = make_engine(castings_set_up());
    ASSERT_TRUE(engine.ok());
    const auto& passages = engine->train(exhaust_1)->further_passages;
    ASSERT_EQ(passages.size(), 4u);
    const auto expect = [&](std::size_t at, const char* name, PassageKind kind, Casting casting,
                            double straight_in) {
        EXPECT_EQ(passages[at].name, name);
        EXPECT_EQ(passages[at].kind, kind);
        EXPECT_EQ(passages[at].casting, casting);
        EXPECT_NEAR(passages[at].bore.half_straight_mm, straight_in / 2.0 * in, 1e-14);
        EXPECT_DOUBLE_EQ(passages[at].bore.bore_radius_mm, 0.25 * in);
        EXPECT_DOUBLE_EQ(passages[at].bore.length_mm, 0.75 * in);
        EXPECT_LT((passages[at].bore.centre_K - in * Vec3(1.6, 3.1, 8.5)).norm(), 1e-12);
    };
    expect(0, "guide plate", PassageKind::guide_slot, Casting::head, 0.3);
    expect(1, "lower tube", PassageKind::round_tube, Casting::head, 0.0);
    expect(2, "upper tube", PassageKind::obround_tube, Casting::intake, 0.3);
    expect(3, "valley hole", PassageKind::drilled_hole, Casting::block, 0.0);
    EXPECT_DOUBLE_EQ(*passages[2].wall_mm, 1.2);
    EXPECT_DOUBLE_EQ(passages[2].bore.bottom_edge_radius_mm, in / 32.0);
    EXPECT_FALSE(passages[0].wall_mm.has_value());
}

TEST(PassageFields, WhatAKindDoesNotHaveIsRefused) {
    using C = ErrorCode;
    expect_refused_at(with_text(tube + "shape", "round"), C::not_of_this_kind, tube + "long_bore");
    expect_refused_at(made_with([](SetUpFields& fields) {
                          put_word(fields, tube + "shape", "round");
                          fields.erase(tube + "long_bore");
                      }),
                      C::not_of_this_kind, tube + "long_way/x");
    expect_refused_at(with_text(slot + "kind", "hole"), C::not_of_this_kind, slot + "long_bore");
    expect_refused_at(with_text(slot + "kind", "tube"), C::not_of_this_kind, slot + "long_bore");
    for (const char* name : {"guide plate", "valley hole"}) {
        const std::string wall = train + "passages/" + name + "/wall";
        expect_refused_at(made_with([&](SetUpFields& fields) { put(fields, wall, ".05"); }),
                          C::not_of_this_kind, wall);
    }
    expect_refused_at(made_with([](SetUpFields& fields) {
                          put_passage(fields, train + "passages/tube", "hole", "head");
                      }),
                      C::duplicate_field, train + "passages/tube");
    // Its kind comes first: a passage without one isn't taken for a tube.
    expect_refused_at(made_with([](SetUpFields& fields) { fields.erase(slot + "kind"); }),
                      C::missing_field, slot + "kind");
}

TEST(PassageFields, AnObroundNarrowerThanItsBoreIsRefused) {
    for (const std::string& path : {tube, slot}) {
        const auto engine = with_text(path + "long_bore", ".499");
        expect_refused_at(engine, ErrorCode::out_of_range, path + "long_bore");
        EXPECT_EQ(engine.error().value, ".499");
        EXPECT_EQ(engine.error().limits->unit, "in"); // as it was typed
        EXPECT_DOUBLE_EQ(engine.error().limits->low, 0.5);
        const auto just_round = with_text(path + "long_bore", ".5");
        ASSERT_TRUE(just_round.ok());
    }
}

TEST(PassageFields, EdgesRoundedUntilTheyMeetAreRefused) {
    for (const std::string end : {"top_edge", "bottom_edge"}) {
        const auto with_edge = [&](const char* radius) {
            return made_with([&](SetUpFields& fields) { put(fields, slot + end, radius); });
        };
        const auto engine = with_edge(".375"); // half of .75
        expect_refused_at(engine, ErrorCode::out_of_range, slot + end);
        EXPECT_DOUBLE_EQ(engine.error().limits->high, 0.375);
        EXPECT_TRUE(with_edge(".374").ok());
        EXPECT_TRUE(with_edge("0").ok());
    }
}

TEST(PassageFields, ALongWayTooNearTheAxisIsRefused) {
    const auto with_long_way = [](const std::array<const char*, 3>& way) {
        return made_with([&](SetUpFields& fields) {
            put_triple(fields, tube + "axis", {"0", "0", "1"}, "");
            put_triple(fields, tube + "long_way", way, "");
        });
    };
    for (const auto& along :
         {std::array{"0", ".6", ".8"}, std::array{"0", ".6", "-.8"}, std::array{"0", "0", "1"}}) {
        const auto engine = with_long_way(along);
        expect_refused_at(engine, ErrorCode::out_of_range, tube + "long_way");
        EXPECT_EQ(engine.error().limits->unit, "deg");
    }
    const auto leaning = with_long_way({".8", "0", ".6"}); // 53° from the axis
    ASSERT_TRUE(leaning.ok());
    EXPECT_LT((leaning->train(exhaust_1)->tube.bore.long_way_K - Vec3::UnitX()).norm(), 1e-15);
    expect_refused_at(with_long_way({"0", "0", "0"}), ErrorCode::not_a_direction,
                      tube + "long_way");
}

TEST(PassageFields, APassageTheWrongWayRoundIsRefused) {
    for (const char* name : {"guide plate", "lower tube", "upper tube", "valley hole"}) {
        const std::string path = train + "passages/" + name;
        expect_refused_at(made_with([&](SetUpFields& fields) {
                              put_triple(fields, path + "/axis", {".0279", ".1573", "-.9872"}, "");
                          }),
                          ErrorCode::passage_swapped, path + "/axis");
    }
}

TEST(PassageFields, APassageInAnIntakeThatIsNotThereIsRefused) {
    // The flat four has no flange; its cylinder 1 is on the right bank.
    SetUpFields fields = demo_fields("flat-four");
    put_passage(fields, "trains/1I/passages/hole", "hole", "intake");
    put_triple(fields, "trains/1I/passages/hole/axis", {"0", "0", "1"}, "");
    expect_refused_at(make_engine(fields), ErrorCode::missing_field, "banks/right/flange");
    fields = demo_fields("flat-four");
    put_obstacle(fields, "boss", "box", "intake");
    expect_refused_at(make_engine(fields), ErrorCode::missing_field, "banks/left/flange");
}

} // namespace
} // namespace rodway
