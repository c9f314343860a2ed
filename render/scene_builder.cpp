#include "render/scene_builder.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

#include "core/geometry/bore.h"
#include "render/obstacle_parts.h"
#include "render/passage_parts.h"
#include "render/rocker_parts.h"

namespace rodway {
namespace {

using Eigen::Matrix4d;

/// Block frame's y and z as the plane of a mesh made about z, and x as its axis.
Matrix4d along_crank() {
    Matrix4d matrix = Matrix4d::Zero();
    matrix(1, 0) = matrix(2, 1) = matrix(0, 2) = matrix(3, 3) = 1.0;
    return matrix;
}

Matrix4d turned_about_x(double radians) {
    Matrix4d matrix = Matrix4d::Identity();
    matrix.block<3, 3>(0, 0) = Eigen::AngleAxisd(radians, Vec3::UnitX()).toRotationMatrix();
    return matrix;
}

/// The first reason, from the heel to full lift, why a train has no answer.
TrainStatus status_of(const DrawnTrain& drawn, double full_lift_mm) {
    constexpr int steps = 32;
    for (int at = 0; at <= steps; ++at) {
        const double lift = full_lift_mm * at / steps;
        const TrainStatus status = drawn.linkage->status_at(lift);
        if (status != TrainStatus::answered) {
            return status;
        }
        const std::optional<Pose> pose = drawn.linkage->at(lift);
        if (pose && !axis_to_wall(drawn.tube, pose->lower_ball_K, pose->upper_ball_K)) {
            return TrainStatus::does_not_go_through;
        }
    }
    return TrainStatus::answered;
}

} // namespace

Vec3 pivot_K(const DrawnTrain& drawn, const Train& train) {
    return drawn.linkage ? drawn.linkage->pivot_K() : train.rocker.pivot_K;
}

double cam_turning(const EngineLayout& layout) {
    return layout.turning == Turning::clockwise ? 1.0 : -1.0;
}

SceneBuilder::SceneBuilder(const Engine& engine) : engine_(engine) {}

std::size_t SceneBuilder::add_mesh(Mesh mesh) {
    meshes.push_back(std::move(mesh));
    return meshes.size() - 1;
}

void SceneBuilder::add_part(PartKind kind, Material material, std::size_t mesh,
                            const Placement& placement, std::optional<ValvePosition> valve) {
    parts.push_back({kind, material, mesh, valve});
    placements.push_back(placement);
}

void SceneBuilder::build() {
    fit_sizes();
    const double bore = engine_.layout.bore_mm > 0.0 ? engine_.layout.bore_mm : 100.0;
    for (const ValveKind kind : {ValveKind::intake, ValveKind::exhaust}) {
        const double head =
            kind == ValveKind::intake ? sizes_.intake_head_per_bore : sizes_.exhaust_head_per_bore;
        valve_meshes_[kind] = add_mesh(valve_mesh(head * bore, sizes_));
    }
    retainer_mesh_ = add_mesh(retainer_mesh(sizes_));
    for (std::size_t index = 0; index < engine_.trains.size(); ++index) {
        add_train(index);
    }
    add_camshaft();
    add_shafts();
    add_cylinders();
    add_obstacles();
}

// Neighbours must not run into each other, however close an engine has them.
void SceneBuilder::fit_sizes() {
    const auto fit = [](double& size, double spacing) {
        constexpr double share = 0.46;
        size = std::min(size, share * spacing);
    };
    for (std::size_t a = 0; a < engine_.trains.size(); ++a) {
        const Train& one = engine_.trains[a];
        const double arm = one.rocker.ball_arm_K.norm();
        sizes_.shaft_radius = std::clamp(0.45 * arm, 3.0, sizes_.shaft_radius);
        for (std::size_t b = 0; b < a; ++b) {
            const Train& other = engine_.trains[b];
            const double lobes_apart = std::abs(one.lifter.foot_K.x() - other.lifter.foot_K.x());
            // Lobes of a vee's two banks may share a place along the cam, drawn over each other.
            if (lobes_apart > 1.0) {
                fit(sizes_.lobe_half_width, lobes_apart);
            }
            if (one.bank == other.bank) {
                fit(sizes_.lifter_radius, (one.lifter.foot_K - other.lifter.foot_K).norm());
                fit(sizes_.spring_radius, (tip_on_heel_K(one) - tip_on_heel_K(other)).norm());
                fit(sizes_.rocker_half_width, (one.rocker.pivot_K - other.rocker.pivot_K).norm());
            }
        }
    }
    sizes_.lifter_roller_radius =
        std::min(sizes_.lifter_roller_radius, 0.86 * sizes_.lifter_radius);
}

Vec3 SceneBuilder::tip_on_heel_K(const Train& train) const {
    return train.rocker.pivot_K + train.rocker.tip_arm_K -
           (sizes_.roller_radius + train.valve.lash_mm) * train.valve.axis_K;
}

void SceneBuilder::add_train(std::size_t index) {
    const Train& train = engine_.trains[index];
    DrawnTrain drawn;
    drawn.index = index;
    const Linkage::Closing closing = Linkage::close(train);
    drawn.status = closing.status;
    drawn.linkage = closing.linkage;
    const Result<Bore> tube = engine_.tube_in_place(train);
    drawn.tube = tube ? *tube : train.tube.bore;
    drawn.block_from_bank.block<3, 3>(0, 0) = engine_.layout.banks[train.bank].frame.R_EK();
    if (drawn.linkage) {
        drawn.status = status_of(drawn, engine_.lobes(train.position).lobe.full_lift_mm());
    }
    drawn.moves =
        drawn.status == TrainStatus::answered || drawn.status == TrainStatus::does_not_go_through;
    trains.push_back(drawn);

    Placement follow;
    follow.of = trains.size() - 1;
    add_cam_side(train, follow);
    add_rocker_side(train, drawn, follow);
    add_valve_side(train, follow);
    add_passages(train, drawn, follow);
}

void SceneBuilder::add_cam_side(const Train& train, const Placement& follow) {
    const EngineLayout& layout = engine_.layout;
    const Vec3 rise_E = layout.banks[train.bank].frame.to_block(train.lifter.axis_K);
    const double rise = std::atan2(rise_E.z(), rise_E.y());
    const double full_lift = cam_angle(engine_.full_lift_angle(train.position)).in_rad();
    Placement lobe = follow;
    lobe.motion = Motion::with_cam;
    lobe.base = turned_about_x(rise - cam_turning(layout) * full_lift) * along_crank();
    lobe.base(0, 3) = train.lifter.foot_K.x();
    const double roller = lifter_roller_of(train);
    add_part(PartKind::lobe, Material::cam, lobe_mesh_of(train.position, roller), lobe,
             train.position);

    Placement lifter = follow;
    lifter.motion = Motion::with_lifter;
    lifter.base = standing_at(train.lifter.foot_K, train.lifter.axis_K, Vec3::UnitX());
    const double radius = train.lifter.body_diameter_mm
                              ? 0.5 * *train.lifter.body_diameter_mm
                              : std::max(sizes_.lifter_radius, 0.7 * train.rod.diameter_mm);
    add_part(PartKind::lifter, Material::lifter,
             add_mesh(lifter_mesh(train.lifter.seat_height_mm, radius, roller,
                                  train.lifter.body_length_mm)),
             lifter, train.position);
    if (roller > 0.0) {
        add_part(PartKind::lifter_roller, Material::roller,
                 add_mesh(lifter_roller_mesh(radius, roller)), lifter, train.position);
    }

    Placement rod = follow;
    rod.motion = Motion::with_rod;
    const Material material =
        trains[follow.of].status == TrainStatus::answered ? Material::rod : Material::rod_open;
    add_part(PartKind::rod, material, add_mesh(rod_mesh(train.rod)), rod, train.position);
}

std::size_t SceneBuilder::lobe_mesh_of(const ValvePosition& valve, double roller_radius) {
    const CamLobes& lobes = engine_.lobes(valve);
    const auto [known, fresh] = lobe_meshes_.try_emplace({&lobes, roller_radius}, 0);
    if (fresh) {
        known->second =
            add_mesh(lobe_mesh(lobes.lobe, lobes.base_circle_radius_mm, sizes_.lobe_half_width,
                               cam_turning(engine_.layout), roller_radius));
    }
    return known->second;
}

// A lobe that no flat face can follow is worked by a roller, whatever was left unsaid.
double SceneBuilder::lifter_roller_of(const Train& train) {
    const CamLobes& lobes = engine_.lobes(train.position);
    const auto [flat, fresh] = works_flat_.try_emplace(&lobes, true);
    if (fresh) {
        flat->second = works_flat(lobes.lobe, lobes.base_circle_radius_mm);
    }
    const bool rolls = train.lifter.follower == FollowerKind::roller || !flat->second;
    return rolls ? train.lifter.roller_radius_mm.value_or(sizes_.lifter_roller_radius) : 0.0;
}

void SceneBuilder::add_rocker_side(const Train& train, const DrawnTrain& drawn, Placement follow) {
    const RockerShape shape = rocker_shape(train, drawn.linkage);
    Placement pivot = follow;
    pivot.base = drawn.block_from_bank;
    pivot.base.block<3, 1>(0, 3) = drawn.block_from_bank.block<3, 3>(0, 0) * pivot_K(drawn, train);
    if (train.rocker.mount == RockerMount::shaft) {
        pivot.base = pivot.base * standing_at(Vec3::Zero(), train.rocker.axis_K);
        add_part(PartKind::shaft, Material::shaft, add_mesh(shaft_piece_mesh(shape, sizes_)), pivot,
                 train.position);
    } else {
        add_part(PartKind::stud, Material::shaft, add_mesh(stud_mesh(shape)), pivot,
                 train.position);
    }
    follow.motion = Motion::with_rocker;
    add_part(PartKind::rocker, Material::rocker, add_mesh(rocker_mesh(shape, sizes_)), follow,
             train.position);
    add_part(PartKind::roller, Material::roller, add_mesh(roller_mesh(shape, sizes_)), follow,
             train.position);
    add_part(PartKind::adjuster, Material::adjuster, add_mesh(adjuster_mesh(shape)), follow,
             train.position);
}

void SceneBuilder::add_valve_side(const Train& train, Placement follow) {
    follow.motion = Motion::with_valve;
    follow.base = standing_at(tip_on_heel_K(train), train.valve.axis_K);
    add_part(PartKind::valve, Material::valve, valve_meshes_[train.position.kind], follow,
             train.position);
    add_part(PartKind::retainer, Material::retainer, retainer_mesh_, follow, train.position);
    add_spring(train, follow);
}

void SceneBuilder::add_spring(const Train& train, Placement follow) {
    double radius = sizes_.spring_radius;
    double wire = sizes_.spring_wire_radius;
    double coils = sizes_.spring_turns;
    double length = sizes_.spring_length;
    if (const ValveSpring* spring = engine_.spring(train.position)) {
        length = spring->installed_height_mm;
        if (spring->wire) {
            radius = 0.5 * spring->wire->mean_diameter_mm;
            wire = 0.5 * spring->wire->wire_mm;
            coils = spring->wire->total_coils;
        }
    }
    trains[follow.of].spring_mm = length;
    follow.motion = Motion::spring;
    const double seat_below_tip = retainer_below_tip_mm + 3.0 + length;
    follow.base =
        standing_at(tip_on_heel_K(train) - seat_below_tip * train.valve.axis_K, train.valve.axis_K);
    const std::array<double, 4> key{radius, wire, length, coils};
    const auto [known, fresh] = spring_meshes_.try_emplace(key, 0);
    if (fresh) {
        known->second = add_mesh(coil(radius, wire, length, coils, 16));
    }
    add_part(PartKind::spring, Material::spring, known->second, follow, train.position);
}

void SceneBuilder::add_passages(const Train& train, const DrawnTrain& drawn, Placement follow) {
    add_passage(train.tube, drawn.tube, train.position, follow);
    for (const Passage& passage : train.further_passages) {
        const Result<Bore> stands = engine_.bore_in_place(train, passage);
        add_passage(passage, stands ? *stands : passage.bore, train.position, follow);
    }
    if (drawn.moves) {
        follow.base = drawn.block_from_bank;
        const double full_lift = engine_.lobes(train.position).lobe.full_lift_mm();
        add_part(PartKind::rod_sweep, Material::sweep,
                 add_mesh(rod_sweep_mesh(*drawn.linkage, full_lift, train.rod)), follow,
                 train.position);
    }
}

void SceneBuilder::add_passage(const Passage& passage, const Bore& bore, const ValvePosition& valve,
                               Placement follow) {
    follow.motion = Motion::none;
    follow.base = trains[follow.of].block_from_bank * standing_as(bore);
    const bool tube =
        passage.kind == PassageKind::round_tube || passage.kind == PassageKind::obround_tube;
    add_part(PartKind::tube_rims, Material::rim, add_mesh(rims_mesh(bore)), follow, valve);
    parts.back().name = passage.name;
    add_part(PartKind::tube, tube ? Material::glass : Material::casting,
             add_mesh(passage_mesh(bore, drawn_wall_mm(passage))), follow, valve);
    parts.back().name = passage.name;
}

void SceneBuilder::add_obstacles() {
    for (const Obstacle& obstacle : engine_.obstacles) {
        Eigen::AlignedBox3d near;
        for (const DrawnTrain& drawn : trains) {
            if (engine_.trains[drawn.index].bank == obstacle.bank) {
                const Vec3 half = 0.5 * drawn.tube.length_mm * drawn.tube.axis_K;
                near.extend(drawn.tube.centre_K + half);
                near.extend(drawn.tube.centre_K - half);
            }
        }
        if (near.isEmpty()) {
            continue;
        }
        constexpr double beside_mm = 24.0;
        const Vec3 margin = Vec3::Constant(beside_mm);
        const Result<Solid> stands = engine_.solid_in_place(obstacle);
        Placement placement;
        placement.base.block<3, 3>(0, 0) = engine_.layout.banks[obstacle.bank].frame.R_EK();
        add_part(PartKind::obstacle,
                 obstacle.kind == ObstacleKind::plane ? Material::casting : Material::obstacle,
                 add_mesh(obstacle_mesh(obstacle.kind, stands ? *stands : obstacle.solid,
                                        {near.min() - margin, near.max() + margin})),
                 placement);
        parts.back().name = obstacle.name;
    }
}

void SceneBuilder::add_camshaft() {
    if (engine_.trains.empty()) {
        return;
    }
    const auto [front, rear] = std::minmax_element(
        engine_.trains.begin(), engine_.trains.end(),
        [](const Train& a, const Train& b) { return a.lifter.foot_K.x() < b.lifter.foot_K.x(); });
    const double from = front->lifter.foot_K.x() - 42.0;
    const double to = rear->lifter.foot_K.x() + 34.0;
    const double base =
        std::min(engine_.intake.base_circle_radius_mm, engine_.exhaust.base_circle_radius_mm);
    const double core = 0.72 * base;
    const double journal = 1.15 * base;
    Mesh mesh = turned({{0.0, from - 20.0},
                        {0.5 * journal, from - 20.0},
                        {0.5 * journal, from - 6.0},
                        {core, from - 6.0},
                        {core, from},
                        {journal, from},
                        {journal, from + 16.0},
                        {core, from + 16.0},
                        {core, to - 16.0},
                        {journal, to - 16.0},
                        {journal, to},
                        {0.0, to}},
                       36);
    Placement placement;
    placement.motion = Motion::with_cam;
    placement.base = along_crank();
    add_part(PartKind::camshaft, Material::cam, add_mesh(std::move(mesh)), placement);
    // The wheel that drives it, at the front; a dot on it shows how far the cam has turned.
    const double wheel = 2.3 * journal;
    Mesh gear;
    Eigen::Matrix4f ahead = Eigen::Matrix4f::Identity();
    ahead(2, 3) = static_cast<float>(from - 12.0);
    gear.add(cam_gear_mesh(wheel, 4.0), ahead);
    add_part(PartKind::cam_gear, Material::adjuster, add_mesh(std::move(gear)), placement);
    Mesh dot;
    ahead(0, 3) = static_cast<float>(0.82 * wheel);
    ahead(2, 3) = static_cast<float>(from - 16.4);
    dot.add(cylinder(0.09 * wheel, 0.0, 1.5, 16), ahead);
    add_part(PartKind::cam_gear, Material::retainer, add_mesh(std::move(dot)), placement);
    add_front_mark(from - 12.0, wheel);
}

// One shaft for all rockers of a bank whose pivots lie on one line.
void SceneBuilder::add_shafts() {
    struct ShaftLine {
        std::size_t bank;
        Vec3 point_K, axis_K;
        double from, to;
    };
    std::vector<ShaftLine> lines;
    for (const Train& train : engine_.trains) {
        if (train.rocker.mount != RockerMount::shaft) {
            continue;
        }
        const auto found = std::find_if(lines.begin(), lines.end(), [&](const ShaftLine& line) {
            const Vec3 apart = train.rocker.pivot_K - line.point_K;
            return line.bank == train.bank &&
                   std::abs(line.axis_K.dot(train.rocker.axis_K)) > 0.9999 &&
                   (apart - apart.dot(line.axis_K) * line.axis_K).norm() < 1.0;
        });
        if (found == lines.end()) {
            lines.push_back({train.bank, train.rocker.pivot_K, train.rocker.axis_K, 0.0, 0.0});
        } else {
            const double along = (train.rocker.pivot_K - found->point_K).dot(found->axis_K);
            found->from = std::min(found->from, along);
            found->to = std::max(found->to, along);
        }
    }
    const double beyond = sizes_.rocker_half_width + 12.0;
    for (const ShaftLine& line : lines) {
        Placement placement;
        Matrix4d bank = Matrix4d::Identity();
        bank.block<3, 3>(0, 0) = engine_.layout.banks[line.bank].frame.R_EK();
        placement.base = bank * standing_at(line.point_K, line.axis_K);
        add_part(PartKind::shaft, Material::shaft,
                 add_mesh(cylinder(sizes_.shaft_radius, line.from - beyond, line.to + beyond, 28)),
                 placement);
    }
}

// Bore outlines and crowns stand far enough below the valve heads never to seem to touch them:
// where the deck is, a set-up of rods and tubes doesn't state.
void SceneBuilder::add_cylinders() {
    const EngineLayout& layout = engine_.layout;
    if (layout.bore_mm <= 0.0 || layout.stroke_mm <= 0.0 || engine_.trains.empty()) {
        return;
    }
    const double greatest_lift =
        2.0 * std::max(engine_.intake.lobe.full_lift_mm(), engine_.exhaust.lobe.full_lift_mm());
    double lowest_head = 1e300;
    double longest_x = 0.0;
    for (const Train& train : engine_.trains) {
        const Vec3 head = tip_on_heel_K(train) - sizes_.valve_length * train.valve.axis_K;
        lowest_head =
            std::min(lowest_head, head.z() - 0.3 * sizes_.intake_head_per_bore * layout.bore_mm);
        longest_x = std::max(longest_x, train.lifter.foot_K.x());
    }
    const double crown_top = lowest_head - greatest_lift - 4.0;
    const std::size_t piston = add_mesh(piston_mesh(layout.bore_mm));
    const std::size_t outline = add_mesh(ring(0.5 * layout.bore_mm, 0.7, 0.0, 56, 4));
    for (std::size_t at = 0; at < layout.cylinders.size(); ++at) {
        const Cylinder& cylinder_at = layout.cylinders[at];
        Placement placement;
        placement.of = at;
        placement.base.block<3, 3>(0, 0) = layout.banks[cylinder_at.bank].frame.R_EK();
        placement.base.block<3, 1>(0, 3) = layout.banks[cylinder_at.bank].frame.to_block(
            {cylinder_at.centre_x_mm, 0.0, crown_top});
        add_part(PartKind::bore_outline, Material::guide_line, outline, placement);
        placement.motion = Motion::piston;
        add_part(PartKind::piston, Material::piston, piston, placement);
        longest_x = std::max(longest_x, cylinder_at.centre_x_mm + 0.5 * layout.bore_mm);
    }
    Placement axis;
    axis.base = along_crank();
    add_part(PartKind::crank_axis, Material::guide_line,
             add_mesh(cylinder(1.2, -30.0, longest_x + 30.0, 8)), axis);
}

// Before the wheel that drives the cam: an arrow points out of the front, and a bent one goes the
// way the engine turns.
void SceneBuilder::add_front_mark(double wheel_x, double wheel_radius) {
    const EngineLayout& layout = engine_.layout;
    Placement ahead;
    ahead.base = along_crank();
    ahead.base.block<3, 1>(0, 3) = Vec3(0.0, layout.cam_y_mm, layout.cam_z_mm);
    Mesh arrow = bar({0.0, 0.0, wheel_x - 12.0}, {0.0, 0.0, wheel_x - 34.0}, 2.2, 2.2, 12);
    arrow.add(bar({0.0, 0.0, wheel_x - 34.0}, {0.0, 0.0, wheel_x - 56.0}, 7.5, 0.01, 20));
    front_E = ahead.base.block<3, 1>(0, 3) + (wheel_x - 56.0) * Vec3::UnitX();
    add_part(PartKind::front_mark, Material::mark, add_mesh(std::move(arrow)), ahead);
    Placement turning = ahead;
    if (cam_turning(layout) < 0.0) {
        // Turned over about y: x to y becomes y to x, seen from the same end.
        turning.base.col(0) *= -1.0;
        turning.base.col(2) *= -1.0;
    }
    turning.base(0, 3) = wheel_x - 16.0;
    add_part(PartKind::front_mark, Material::mark,
             add_mesh(turning_arrow_mesh(0.62 * wheel_radius, 1.6)), turning);
}

} // namespace rodway
