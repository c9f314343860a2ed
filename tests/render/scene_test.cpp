#include "render/scene.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "tests/render/sample_engine.h"
#include "tests/render/varied_engine.h"

namespace rodway {
namespace {

const ValvePosition intake_3{3, ValveKind::intake, 1};

std::size_t part_of(const Scene& scene, PartKind kind, const ValvePosition& valve) {
    for (std::size_t at = 0; at < scene.parts().size(); ++at) {
        if (scene.parts()[at].kind == kind && scene.parts()[at].valve == valve) {
            return at;
        }
    }
    return scene.parts().size();
}

Vec3 moved(const Eigen::Matrix4f& matrix, const Vec3& point) {
    return (matrix * point.cast<float>().homogeneous()).head<3>().cast<double>();
}

/// Numbers from here on are single precision within half a metre: under 1e-3 mm.
constexpr double single_mm = 1e-3;

TEST(Scene, gives_every_train_all_its_parts) {
    const auto scene = Scene::build(sample_engine());
    for (const Train& train : scene->engine().trains) {
        for (const PartKind kind :
             {PartKind::lobe, PartKind::lifter, PartKind::rod, PartKind::rocker, PartKind::roller,
              PartKind::adjuster, PartKind::shaft, PartKind::valve, PartKind::spring,
              PartKind::retainer, PartKind::tube, PartKind::tube_rims}) {
            EXPECT_LT(part_of(*scene, kind, train.position), scene->parts().size())
                << position_name(train.position) << " part " << static_cast<int>(kind);
        }
    }
    const auto shafts =
        std::count_if(scene->parts().begin(), scene->parts().end(),
                      [](const Part& part) { return part.kind == PartKind::shaft && !part.valve; });
    EXPECT_EQ(shafts, 2) << "one for each bank";
}

TEST(Scene, rod_stands_between_the_balls_of_the_closed_linkage) {
    const Engine engine = sample_engine();
    const auto scene = Scene::build(engine);
    const Train& train = *engine.train(intake_3);
    const auto linkage = *Linkage::close(train).linkage;
    const BankFrame& frame = engine.layout.banks[train.bank].frame;
    const std::size_t rod = part_of(*scene, PartKind::rod, intake_3);
    for (const double from_full : {-360.0, -80.0, -20.0, 0.0, 45.0}) {
        const CrankAngle crank = engine.full_lift_angle(intake_3) + CrankAngle::deg(from_full);
        const Pose pose = *linkage.at(engine.lobe_lift_mm(intake_3, crank));
        const Eigen::Matrix4f place = scene->placed(crank)[rod];
        EXPECT_NEAR((moved(place, Vec3::Zero()) - frame.to_block(pose.lower_ball_K)).norm(), 0.0,
                    single_mm);
        EXPECT_NEAR(
            (moved(place, {0.0, 0.0, train.rod.length_mm}) - frame.to_block(pose.upper_ball_K))
                .norm(),
            0.0, single_mm);
        const Segment rod_E = *scene->rod_E(intake_3, crank);
        EXPECT_NEAR((rod_E.b - frame.to_block(pose.upper_ball_K)).norm(), 0.0, 1e-9);
    }
}

// Follows the lobe's nose through full lift: it points along the lifter there, and a quarter turn
// of the crank earlier it stands 45 cam degrees back, against the way the cam turns.
TEST(Scene, lobe_points_at_its_lifter_at_full_lift_and_turns_with_the_crank) {
    for (const Turning turning : {Turning::clockwise, Turning::counter_clockwise}) {
        const Engine engine = sample_engine({Arrangement::vee, 8, turning});
        const auto scene = Scene::build(engine);
        const Train& train = *engine.train(intake_3);
        const Vec3 rise = engine.layout.banks[train.bank].frame.to_block(train.lifter.axis_K);
        const std::size_t lobe = part_of(*scene, PartKind::lobe, intake_3);
        const auto nose = [&](CrankAngle crank) {
            const Eigen::Matrix4f place = scene->placed(crank)[lobe];
            return Vec3(moved(place, Vec3::UnitX()) - moved(place, Vec3::Zero()));
        };
        const CrankAngle full = engine.full_lift_angle(intake_3);
        EXPECT_NEAR((nose(full) - rise).norm(), 0.0, 1e-4);
        const Vec3 before = nose(full - CrankAngle::deg(90.0));
        EXPECT_NEAR(before.dot(rise), std::cos(radians(45.0)), 1e-4);
        // Clockwise from the front is a right-handed turn about x, which runs to the rear.
        const double way = turning == Turning::clockwise ? 1.0 : -1.0;
        EXPECT_GT(way * before.cross(rise).x(), 0.5);
    }
}

TEST(Scene, spring_is_shorter_by_the_valves_lift) {
    const Engine engine = sample_engine();
    const auto scene = Scene::build(engine);
    const auto linkage = *Linkage::close(*engine.train(intake_3)).linkage;
    const CrankAngle full = engine.full_lift_angle(intake_3);
    const double lift = linkage.valve_lift_mm(*linkage.at(engine.lobe_lift_mm(intake_3, full)));
    const auto length = [&](CrankAngle crank) {
        const Eigen::Matrix4f place =
            scene->placed(crank)[part_of(*scene, PartKind::spring, intake_3)];
        return (moved(place, Vec3::UnitZ()) - moved(place, Vec3::Zero())).norm();
    };
    ASSERT_GT(lift, 10.0);
    EXPECT_NEAR(length(full + CrankAngle::deg(360.0)) - length(full), lift, single_mm);
}

// A nut on a stud sets the lash by moving the pivot: rocker, rod and stud stand where it leaves it.
TEST(Scene, a_rocker_on_a_stud_stands_where_its_nut_has_set_it) {
    Engine engine = varied_engine();
    for (Train& train : engine.trains) {
        if (train.position == ValvePosition{1, ValveKind::exhaust, 1}) {
            train.rod.length_mm += 0.8; // so that the nut has something to do
        }
    }
    const ValvePosition valve{1, ValveKind::exhaust, 1};
    const auto scene = Scene::build(engine);
    const Train& train = *engine.train(valve);
    const Linkage linkage = *Linkage::close(train).linkage;
    ASSERT_GT((linkage.pivot_K() - train.rocker.pivot_K).norm(), 0.1);
    const BankFrame& frame = engine.layout.banks[train.bank].frame;
    const std::size_t rocker = part_of(*scene, PartKind::rocker, valve);
    const std::size_t stud = part_of(*scene, PartKind::stud, valve);
    ASSERT_LT(stud, scene->parts().size());
    for (const double from_full : {-360.0, -70.0, 0.0}) {
        const CrankAngle crank = engine.full_lift_angle(valve) + CrankAngle::deg(from_full);
        const Pose pose = *linkage.at(engine.lobe_lift_mm(valve, crank));
        const auto placed = scene->placed(crank);
        EXPECT_NEAR(
            (moved(placed[rocker], linkage.ball_arm_K()) - frame.to_block(pose.upper_ball_K))
                .norm(),
            0.0, single_mm);
        EXPECT_NEAR(
            (moved(placed[rocker], linkage.tip_arm_K()) - frame.to_block(pose.roller_K)).norm(),
            0.0, single_mm);
        EXPECT_NEAR((moved(placed[stud], Vec3::Zero()) - frame.to_block(linkage.pivot_K())).norm(),
                    0.0, single_mm);
    }
}

TEST(Scene, every_passage_and_obstacle_is_there_by_its_name_and_where_its_casting_has_it) {
    Engine engine = varied_engine();
    const HeadSetting thicker{4.0, 1.0, 0.0, 0.0};
    engine.set_head(engine.train({3, ValveKind::intake, 1})->bank, thicker);
    const auto scene = Scene::build(engine);
    const auto named = [&](PartKind kind, const std::string& name) {
        std::vector<std::size_t> found;
        for (std::size_t at = 0; at < scene->parts().size(); ++at) {
            if (scene->parts()[at].kind == kind && scene->parts()[at].name == name) {
                found.push_back(at);
            }
        }
        return found;
    };
    EXPECT_EQ(named(PartKind::tube, "tube").size(), engine.trains.size());
    EXPECT_EQ(named(PartKind::tube, "deck hole").size(), 1u);
    ASSERT_EQ(named(PartKind::tube, "guide plate").size(), 1u);
    for (const char* name : {"valley wall", "bolt 7", "oil pipe", "boss"}) {
        EXPECT_EQ(named(PartKind::obstacle, name).size(), 1u) << name;
    }
    // The guide plate is on the head, which has risen.
    const Train& train = *engine.train({3, ValveKind::intake, 1});
    const Passage& slot = train.further_passages.front();
    const Vec3 stands = engine.bore_in_place(train, slot)->centre_K;
    ASSERT_GT((stands - slot.bore.centre_K).norm(), 2.9);
    const auto placed = scene->placed(CrankAngle{});
    const Vec3 drawn = moved(placed[named(PartKind::tube, "guide plate")[0]], Vec3::Zero());
    EXPECT_NEAR((drawn - engine.layout.banks[train.bank].frame.to_block(stands)).norm(), 0.0,
                single_mm);
    SceneShow show;
    show.castings = false;
    for (const char* name : {"valley wall", "bolt 7"}) {
        EXPECT_FALSE(Scene::drawn(scene->parts()[named(PartKind::obstacle, name)[0]], show));
    }
}

TEST(Scene, a_train_that_does_not_close_stands_still_in_its_own_colour) {
    Engine engine = sample_engine();
    for (Train& train : engine.trains) {
        if (train.position == intake_3) {
            train.rod.length_mm -= 20.0;
            train.adjuster.can_go_in_mm = 1.0;
        }
    }
    const auto scene = Scene::build(engine);
    EXPECT_NE(scene->status(intake_3), TrainStatus::answered);
    const std::size_t rod = part_of(*scene, PartKind::rod, intake_3);
    EXPECT_EQ(scene->parts()[rod].material, Material::rod_open);
    const CrankAngle full = engine.full_lift_angle(intake_3);
    EXPECT_EQ(scene->placed(full)[rod], scene->placed(full + CrankAngle::deg(360.0))[rod]);
    const Segment rod_E = *scene->rod_E(intake_3, full);
    EXPECT_NEAR((rod_E.b - rod_E.a).norm(), engine.train(intake_3)->rod.length_mm, 1e-9)
        << "shows how short it is";
    EXPECT_EQ(scene->status({3, ValveKind::exhaust, 1}), TrainStatus::answered);
}

TEST(Scene, hiding_others_leaves_the_selected_train) {
    const auto scene = Scene::build(sample_engine());
    SceneShow show;
    show.selected = intake_3;
    show.others = Others::hidden;
    show.rockers = Rockers::hidden;
    for (const Part& part : scene->parts()) {
        const bool of_rocker = part.kind == PartKind::rocker || part.kind == PartKind::roller ||
                               part.kind == PartKind::adjuster || part.kind == PartKind::shaft;
        if (part.valve && part.kind != PartKind::rod_sweep) {
            EXPECT_EQ(Scene::drawn(part, show), part.valve == intake_3 && !of_rocker);
        }
    }
}

} // namespace
} // namespace rodway
