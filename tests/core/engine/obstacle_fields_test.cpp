#include "core/engine/obstacle_fields.h"

#include <set>

#include "tests/core/engine/castings_set_up.h"

namespace rodway {
namespace {

constexpr double in = 25.4;
const Vec3 point = in * Vec3(1.0, 2.0, 10.0);
const Vec3 axis(0.0, 0.6, 0.8);

template <typename Change>
Result<Engine> made_with(Change change) {
    SetUpFields fields = castings_set_up();
    change(fields);
    return make_engine(fields);
}

const Obstacle& named(const Engine& engine, const std::string& name) {
    for (const Obstacle& obstacle : engine.obstacles) {
        if (obstacle.name == name) {
            return obstacle;
        }
    }
    ADD_FAILURE() << name;
    return engine.obstacles.front();
}

TEST(ObstacleFields, EachKindIsTheSolidThatItsFieldsSay) {
    const auto engine = make_engine(castings_set_up());
    ASSERT_TRUE(engine.ok());
    ASSERT_EQ(engine->obstacles.size(), 4u);
    const Obstacle& rail = named(*engine, "valley rail");
    EXPECT_EQ(rail.kind, ObstacleKind::plane);
    EXPECT_EQ(rail.casting, Casting::block);
    EXPECT_EQ(rail.bank, 0u);
    const auto& plane = std::get<HalfSpace>(rail.solid);
    EXPECT_LT((plane.point_K - point).norm(), 1e-12);
    EXPECT_LT((plane.normal_K - axis).norm(), 1e-15);
    // The end that can be seen is `point`; the bar goes back from it, against the axis.
    for (const auto& [name, kind, casting] :
         {std::tuple{"dowel", ObstacleKind::cylinder, Casting::head},
          std::tuple{"bolt 4", ObstacleKind::bolt_end, Casting::intake}}) {
        const Obstacle& obstacle = named(*engine, name);
        EXPECT_EQ(obstacle.kind, kind);
        EXPECT_EQ(obstacle.casting, casting);
        const auto& bar = std::get<RoundBar>(obstacle.solid);
        EXPECT_LT((bar.to_K - point).norm(), 1e-12);
        EXPECT_LT((bar.from_K - (point - 0.6 * in * axis)).norm(), 1e-12);
        EXPECT_DOUBLE_EQ(bar.radius_mm, 0.375 / 2.0 * in);
    }
    const Obstacle& boss = named(*engine, "boss");
    EXPECT_EQ(boss.kind, ObstacleKind::box);
    const auto& box = std::get<Cuboid>(boss.solid);
    EXPECT_LT((box.centre_K - point).norm(), 1e-12);
    EXPECT_LT((box.axes_K[0] - axis).norm(), 1e-15);
    EXPECT_LT((box.axes_K[1] - Vec3(0.0, -0.8, 0.6)).norm(), 1e-15);
    EXPECT_LT((box.axes_K[2] - Vec3(1.0, 0.0, 0.0)).norm(), 1e-15); // right-handed
    EXPECT_LT((box.half_sizes_mm - in * Vec3(0.5, 0.25, 0.125)).norm(), 1e-12);
}

TEST(ObstacleFields, ABoxsSecondAxisIsPutSquareToItsFirst) {
    const auto with_second = [](const std::array<const char*, 3>& second) {
        return made_with([&](SetUpFields& fields) {
            put_triple(fields, "obstacles/boss/second_axis", second, "");
        });
    };
    const auto leaning = with_second({"0", "-.6", ".8"}); // 74° from the first
    ASSERT_TRUE(leaning.ok());
    const auto& box = std::get<Cuboid>(named(*leaning, "boss").solid);
    EXPECT_LT((box.axes_K[1] - Vec3(0.0, -0.8, 0.6)).norm(), 1e-14);
    expect_refused_at(with_second({"0", ".5", ".866"}), ErrorCode::out_of_range,
                      "obstacles/boss/second_axis");
}

// Each kind is given each field of the others, one at a time.
TEST(ObstacleFields, WhatAKindDoesNotHaveIsRefused) {
    const std::map<std::string, std::set<std::string>> own{
        {"valley rail", {"normal"}},
        {"dowel", {"axis", "diameter", "length"}},
        {"bolt 4", {"axis", "diameter", "length"}},
        {"boss", {"axis", "second_axis", "sizes"}}};
    for (const auto& [name, fields_of_it] : own) {
        const std::string path = "obstacles/" + name + "/";
        for (const std::string leaf :
             {"normal", "axis", "second_axis", "diameter", "length", "sizes"}) {
            if (fields_of_it.count(leaf) > 0) {
                continue;
            }
            const bool alone = leaf == "diameter" || leaf == "length";
            const auto engine = made_with([&](SetUpFields& fields) {
                if (alone) {
                    put(fields, path + leaf, ".5");
                } else {
                    const bool sizes = leaf == "sizes"; // none of which may be 0
                    put_triple(fields, path + leaf, {sizes ? "1" : "0", sizes ? "1" : "0", "1"},
                               sizes ? "in" : "");
                }
            });
            expect_refused_at(engine, ErrorCode::not_of_this_kind,
                              path + leaf + (alone ? "" : "/x"));
        }
    }
}

TEST(ObstacleFields, ABankThatIsNotThereIsRefused) {
    expect_refused_at(
        made_with([](SetUpFields& fields) { put_word(fields, "obstacles/dowel/bank", "middle"); }),
        ErrorCode::not_a_choice, "obstacles/dowel/bank");
    const auto right =
        made_with([](SetUpFields& fields) { put_word(fields, "obstacles/dowel/bank", "right"); });
    ASSERT_TRUE(right.ok());
    EXPECT_EQ(named(*right, "dowel").bank, 1u);
}

TEST(ObstacleFields, RockerAndLifterHaveTheirBodies) {
    const auto engine = make_engine(castings_set_up());
    ASSERT_TRUE(engine.ok());
    const Train& train = *engine->train({1, ValveKind::exhaust, 1});
    ASSERT_TRUE(train.rocker.body_K.has_value());
    EXPECT_LT((train.rocker.body_K->from_K - in * Vec3(0.0, 0.1, 0.0)).norm(), 1e-14);
    EXPECT_LT((train.rocker.body_K->to_K - in * Vec3(0.0, 0.75, -0.05)).norm(), 1e-14);
    EXPECT_DOUBLE_EQ(train.rocker.body_K->radius_mm, 5.0 / 16.0 * in);
    EXPECT_DOUBLE_EQ(*train.lifter.body_diameter_mm, 0.903 * in);
    EXPECT_DOUBLE_EQ(*train.lifter.body_length_mm, 2.2 * in);
    const Train& plain = *engine->train({1, ValveKind::intake, 1});
    EXPECT_FALSE(plain.rocker.body_K.has_value());
    EXPECT_FALSE(plain.lifter.body_diameter_mm.has_value());
}

} // namespace
} // namespace rodway
