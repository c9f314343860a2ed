#include "render/scene.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

#include "core/clearance/rod_clearance.h"
#include "render/scene_builder.h"

namespace rodway {
namespace {

using Eigen::Matrix4d;

Matrix4d moved(const Vec3& by) {
    Matrix4d matrix = Matrix4d::Identity();
    matrix.block<3, 1>(0, 3) = by;
    return matrix;
}

Matrix4d turned_about(const Vec3& axis, double cosine, double sine) {
    Eigen::Matrix3d cross;
    cross << 0.0, -axis.z(), axis.y(), axis.z(), 0.0, -axis.x(), -axis.y(), axis.x(), 0.0;
    Matrix4d matrix = Matrix4d::Identity();
    matrix.block<3, 3>(0, 0) = cosine * Eigen::Matrix3d::Identity() + sine * cross +
                               (1.0 - cosine) * axis * axis.transpose();
    return matrix;
}

Matrix4d turned_about_x(double radians) {
    return turned_about(Vec3::UnitX(), std::cos(radians), std::sin(radians));
}

/// Where the moving parts of one train stand, bank frame.
struct TrainPlace {
    double lobe_lift_mm = 0.0;
    double valve_lift_mm = 0.0;
    Vec3 lower_ball_K;
    Vec3 upper_ball_K;
    double cos_turned = 1.0;
    double sin_turned = 0.0;
};

TrainPlace place_of(const DrawnTrain& drawn, const Engine& engine, CrankAngle crank) {
    const Train& train = engine.trains[drawn.index];
    TrainPlace place;
    place.lower_ball_K = train.lifter.lower_ball_K();
    const Vec3 as_found = train.rocker.pivot_K + train.rocker.ball_arm_K;
    place.upper_ball_K =
        place.lower_ball_K + train.rod.length_mm * (as_found - place.lower_ball_K).normalized();
    if (!drawn.moves) {
        return place;
    }
    place.lobe_lift_mm = engine.lobe_lift_mm(train.position, crank);
    if (const std::optional<Pose> pose = drawn.linkage->at(place.lobe_lift_mm)) {
        place.lower_ball_K = pose->lower_ball_K;
        place.upper_ball_K = pose->upper_ball_K;
        place.cos_turned = pose->cos_turned;
        place.sin_turned = pose->sin_turned;
        place.valve_lift_mm = drawn.linkage->valve_lift_mm(*pose);
    }
    return place;
}

/// A piston below top dead centre. Where the connecting rod isn't stated: 1.75 strokes, a usual
/// length.
double piston_down_mm(const Engine& engine, double from_top_rad) {
    const double crank = 0.5 * engine.layout.stroke_mm;
    const double rod = engine.connecting_rod_mm.value_or(3.5 * crank);
    const double sideways = crank * std::sin(from_top_rad);
    return crank + rod - crank * std::cos(from_top_rad) -
           std::sqrt(rod * rod - sideways * sideways);
}

/// Whether a camera that is to show everything has to bring the part into the picture.
bool bounds_count(const Part& part) {
    return part.kind != PartKind::crank_axis && part.kind != PartKind::rod_sweep &&
           part.kind != PartKind::obstacle;
}

} // namespace

Scene::Scene(const Engine& engine) : engine_(std::make_unique<const Engine>(engine)) {}

Scene::~Scene() = default;

std::shared_ptr<const Scene> Scene::build(const Engine& engine) {
    // make_shared can't reach the private constructor.
    std::shared_ptr<Scene> scene(new Scene(engine));
    SceneBuilder builder(*scene->engine_);
    builder.build();
    scene->meshes_ = std::move(builder.meshes);
    scene->parts_ = std::move(builder.parts);
    scene->placements_ = std::move(builder.placements);
    scene->trains_ = std::move(builder.trains);
    scene->front_E_ = builder.front_E;
    if (const std::optional<Box> box =
            scene->box_of([](const Part& part) { return bounds_count(part); })) {
        scene->bounds_ = *box;
    }
    return scene;
}

std::size_t Scene::triangle_count() const {
    std::size_t count = 0;
    for (const Part& part : parts_) {
        count += meshes_[part.mesh].triangles.size() / 3;
    }
    return count;
}

std::vector<Eigen::Matrix4f> Scene::placed(CrankAngle crank) const {
    const EngineLayout& layout = engine_->layout;
    std::vector<TrainPlace> places;
    for (const DrawnTrain& drawn : trains_) {
        places.push_back(place_of(drawn, *engine_, crank));
    }
    const double cam_turned = cam_turning(layout) * cam_angle(crank).in_rad();
    const Matrix4d cam =
        moved({0.0, layout.cam_y_mm, layout.cam_z_mm}) * turned_about_x(cam_turned);

    std::vector<Eigen::Matrix4f> matrices;
    matrices.reserve(placements_.size());
    for (const Placement& placement : placements_) {
        Matrix4d matrix = placement.base;
        const Motion motion = placement.motion;
        if (motion == Motion::with_cam) {
            matrix = cam * placement.base;
        } else if (motion == Motion::piston) {
            const CrankAngle from_top = crank - layout.firing_angles[placement.of];
            const double down = piston_down_mm(*engine_, radians(from_top.in_deg()));
            matrix = placement.base * moved({0.0, 0.0, -down});
        } else if (motion != Motion::none) {
            const TrainPlace& place = places[placement.of];
            const Train& train = engine_->trains[trains_[placement.of].index];
            const Matrix4d& bank = trains_[placement.of].block_from_bank;
            if (motion == Motion::with_lifter) {
                matrix = bank * moved(place.lobe_lift_mm * train.lifter.axis_K) * placement.base;
            } else if (motion == Motion::with_rod) {
                const Vec3 rod = place.upper_ball_K - place.lower_ball_K;
                matrix = bank * standing_at(place.lower_ball_K, rod.normalized());
            } else if (motion == Motion::with_rocker) {
                matrix = bank * moved(pivot_K(trains_[placement.of], train)) *
                         turned_about(train.rocker.axis_K, place.cos_turned, place.sin_turned);
            } else if (motion == Motion::with_valve) {
                matrix = bank * moved(-place.valve_lift_mm * train.valve.axis_K) * placement.base;
            } else if (motion == Motion::spring) {
                Matrix4d scaled = placement.base;
                const double installed = trains_[placement.of].spring_mm;
                scaled.col(2) *= std::max(1.0, installed - place.valve_lift_mm);
                matrix = bank * scaled;
            }
        }
        matrices.push_back(matrix.cast<float>());
    }
    return matrices;
}

bool Scene::of_rocker(const Part& part) {
    const bool turns_on = part.kind == PartKind::shaft || part.kind == PartKind::stud;
    return part.kind == PartKind::rocker || part.kind == PartKind::roller ||
           part.kind == PartKind::adjuster || (turns_on && part.valve);
}

bool Scene::drawn(const Part& part, const SceneShow& show) {
    if (part.kind == PartKind::rod_sweep) {
        return show.rod_sweep && show.selected && part.valve == show.selected;
    }
    if (part.kind == PartKind::piston) {
        return show.pistons;
    }
    if (part.kind == PartKind::obstacle) {
        return show.castings;
    }
    if ((part.kind == PartKind::tube || part.kind == PartKind::tube_rims) && !show.castings) {
        return false;
    }
    if (!part.valve) {
        return show.shared_parts;
    }
    if (of_rocker(part) && show.rockers == Rockers::hidden &&
        (!show.selected || part.valve == show.selected)) {
        return false;
    }
    return show.others != Others::hidden || !show.selected || part.valve == show.selected;
}

std::optional<Box> Scene::box_of(const std::function<bool(const Part&)>& wanted) const {
    const std::vector<Eigen::Matrix4f> matrices = placed(CrankAngle{});
    Eigen::AlignedBox3f box;
    for (std::size_t at = 0; at < parts_.size(); ++at) {
        if (wanted(parts_[at])) {
            const Eigen::Matrix3f turn = matrices[at].topLeftCorner<3, 3>();
            const Eigen::Vector3f move = matrices[at].topRightCorner<3, 1>();
            for (const MeshVertex& vertex : meshes_[parts_[at].mesh].vertices) {
                box.extend(Eigen::Vector3f(turn * vertex.at + move));
            }
        }
    }
    return box.isEmpty() ? std::nullopt
                         : std::optional(Box{box.min().cast<double>(), box.max().cast<double>()});
}

std::optional<Box> Scene::bounds(const ValvePosition& valve) const {
    return box_of([&](const Part& part) { return part.valve == valve; });
}

std::vector<Vec3> Scene::outline_E(std::optional<ValvePosition> valve) const {
    const std::vector<Eigen::Matrix4f> matrices = placed(CrankAngle{});
    std::vector<Vec3> points;
    for (std::size_t at = 0; at < parts_.size(); ++at) {
        const Part& part = parts_[at];
        if (!bounds_count(part) || (valve && part.valve != valve)) {
            continue;
        }
        Eigen::AlignedBox3f box;
        for (const MeshVertex& vertex : meshes_[part.mesh].vertices) {
            box.extend(vertex.at);
        }
        for (int corner = 0; corner < 8; ++corner) {
            const auto kind = static_cast<Eigen::AlignedBox3f::CornerType>(corner);
            points.push_back(
                (matrices[at] * box.corner(kind).homogeneous()).head<3>().cast<double>());
        }
    }
    return points;
}

const DrawnTrain* Scene::find(const ValvePosition& valve) const {
    const auto found = std::find_if(trains_.begin(), trains_.end(), [&](const DrawnTrain& drawn) {
        return engine_->trains[drawn.index].position == valve;
    });
    return found == trains_.end() ? nullptr : &*found;
}

std::optional<Segment> Scene::rod_E(const ValvePosition& valve, CrankAngle crank) const {
    const DrawnTrain* drawn = find(valve);
    if (drawn == nullptr) {
        return std::nullopt;
    }
    const TrainPlace place = place_of(*drawn, *engine_, crank);
    const BankFrame& frame = engine_->layout.banks[engine_->trains[drawn->index].bank].frame;
    return Segment{frame.to_block(place.lower_ball_K), frame.to_block(place.upper_ball_K)};
}

TrainStatus Scene::status(const ValvePosition& valve) const {
    const DrawnTrain* drawn = find(valve);
    RODWAY_ASSERT(drawn != nullptr);
    return drawn->status;
}

} // namespace rodway
