#include "tests/render/varied_engine.h"

#include "core/base/assert.h"
#include "tests/render/sample_engine.h"

namespace rodway {
namespace {

Train& train_of(Engine& engine, const ValvePosition& valve) {
    for (Train& train : engine.trains) {
        if (train.position == valve) {
            return train;
        }
    }
    RODWAY_ASSERT(false);
    return engine.trains.front();
}

void step_rod(Train& train) {
    train.rod.diameter_mm = 11.0;
    train.rod.profile = {{0.0, 60.0, 8.0, 8.0},
                         {60.0, 90.0, 8.0, 11.0},
                         {90.0, 160.0, 11.0, 11.0},
                         {160.0, train.rod.length_mm, 7.0, 7.0}};
    train.tube.kind = PassageKind::obround_tube;
    train.tube.wall_mm = 2.0;
    Bore& bore = train.tube.bore;
    bore.half_straight_mm = 5.0;
    bore.long_way_K = (Vec3::UnitY() - Vec3::UnitY().dot(bore.axis_K) * bore.axis_K).normalized();
    bore.top_edge_radius_mm = 2.0;
    Passage hole;
    hole.name = "deck hole";
    hole.kind = PassageKind::drilled_hole;
    hole.casting = Casting::block;
    hole.bore = bore;
    hole.bore.centre_K -= 78.0 * bore.axis_K;
    hole.bore.length_mm = 20.0;
    hole.bore.half_straight_mm = 0.0;
    hole.bore.bore_radius_mm = 10.0;
    hole.bore.top_edge_radius_mm = 0.0;
    train.further_passages.push_back(hole);
}

void put_on_stud(Train& train) {
    train.rocker.mount = RockerMount::stud;
    train.adjuster.kind = AdjusterKind::nut;
    train.adjuster.axis_K = -train.valve.axis_K;
    train.lifter.follower = FollowerKind::roller;
    train.lifter.roller_radius_mm = 9.5;
    train.lifter.body_diameter_mm = 23.0;
    train.lifter.body_length_mm = 62.0;
}

void put_on_ball(Train& train) {
    train.rocker.mount = RockerMount::ball_pivot;
    train.rocker.guide = Guide::guide_plate;
    train.adjuster.kind = AdjusterKind::nut;
    train.adjuster.axis_K = -train.valve.axis_K;
    train.rod.cup_at_top = true;
    Passage slot;
    slot.name = "guide plate";
    slot.kind = PassageKind::guide_slot;
    slot.casting = Casting::head;
    slot.bore = train.tube.bore;
    slot.bore.centre_K += 48.0 * slot.bore.axis_K;
    slot.bore.length_mm = 4.0;
    slot.bore.bore_radius_mm = 4.4;
    slot.bore.half_straight_mm = 4.0;
    slot.bore.long_way_K =
        (Vec3::UnitY() - Vec3::UnitY().dot(slot.bore.axis_K) * slot.bore.axis_K).normalized();
    train.further_passages.push_back(slot);
}

void add_obstacles(Engine& engine, const Train& near) {
    const Bore& bore = near.tube.bore;
    const Vec3 beside = bore.centre_K + 22.0 * Vec3::UnitY();
    engine.obstacles.push_back({"valley wall", ObstacleKind::plane, Casting::block, near.bank,
                                HalfSpace{bore.centre_K - 16.0 * Vec3::UnitY(), Vec3::UnitY()}});
    engine.obstacles.push_back({"bolt 7", ObstacleKind::bolt_end, Casting::head, near.bank,
                                RoundBar{beside + 40.0 * Vec3::UnitZ(), beside, 5.0}});
    const Vec3 behind = beside + 30.0 * Vec3::UnitX();
    engine.obstacles.push_back({"oil pipe", ObstacleKind::cylinder, Casting::head, near.bank,
                                RoundBar{behind, behind + 60.0 * Vec3::UnitX(), 4.0}});
    Cuboid block;
    block.centre_K = beside - 40.0 * Vec3::UnitZ();
    block.half_sizes_mm = {14.0, 8.0, 10.0};
    engine.obstacles.push_back({"boss", ObstacleKind::box, Casting::head, near.bank, block});
}

} // namespace

Engine varied_engine() {
    Engine engine = sample_engine();
    step_rod(train_of(engine, {1, ValveKind::intake, 1}));
    put_on_stud(train_of(engine, {1, ValveKind::exhaust, 1}));
    put_on_ball(train_of(engine, {3, ValveKind::intake, 1}));
    Train& sprung = train_of(engine, {3, ValveKind::exhaust, 1});
    ValveSpring spring;
    spring.installed_height_mm = 40.0;
    spring.loads = {{40.0, 600.0}, {28.0, 1500.0}};
    spring.wire = SpringWire{6.0, 34.0, 4.5, 6.0, 79000.0, 7.85e-9};
    engine.springs[sprung.position] = spring;
    sprung.rocker.body_K = Capsule{Vec3::Zero(), 0.8 * sprung.rocker.ball_arm_K, 9.0};
    add_obstacles(engine, train_of(engine, {1, ValveKind::intake, 1}));
    return engine;
}

} // namespace rodway
