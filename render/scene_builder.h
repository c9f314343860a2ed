#pragma once

#include <array>
#include <map>

#include "render/scene.h"
#include "render/train_parts.h"

namespace rodway {

/// What a part follows.
enum class Motion {
    none,
    with_cam,
    with_lifter,
    with_rod,
    with_rocker,
    with_valve,
    spring,
    piston
};

/// How one part gets its place: `base` puts it into the frame of what it follows.
struct Placement {
    Motion motion = Motion::none;
    std::size_t of = 0; ///< index of a train, or of a cylinder for a piston
    Eigen::Matrix4d base = Eigen::Matrix4d::Identity();
};

/// One train as it is drawn.
struct DrawnTrain {
    std::size_t index = 0; ///< into `Engine::trains`
    std::optional<Linkage> linkage;
    TrainStatus status = TrainStatus::answered;
    bool moves = false;     ///< it closes all the way to full lift
    Bore tube;              ///< where it stands now
    double spring_mm = 0.0; ///< its spring's height with the valve closed
    Eigen::Matrix4d block_from_bank = Eigen::Matrix4d::Identity();
};

/// Where a rocker's pivot stands once a nut, if there is one, has set the lash.
[[nodiscard]] Vec3 pivot_K(const DrawnTrain& drawn, const Train& train);

/// +1 if the camshaft turns from the block's y towards its z, as a crank that is clockwise from the
/// front does. It is taken to turn with its crank: nothing in a set-up says otherwise.
[[nodiscard]] double cam_turning(const EngineLayout& layout);

/// Makes all meshes and parts of an engine. Used once, by `Scene::build`.
class SceneBuilder {
  public:
    explicit SceneBuilder(const Engine& engine);
    void build();

    std::vector<Mesh> meshes;
    std::vector<Part> parts;
    std::vector<Placement> placements;
    std::vector<DrawnTrain> trains;
    Vec3 front_E = Vec3::Zero(); ///< the point of the arrow out of the front

  private:
    std::size_t add_mesh(Mesh mesh);
    void add_part(PartKind kind, Material material, std::size_t mesh, const Placement& placement,
                  std::optional<ValvePosition> valve = {});
    void fit_sizes();
    void add_train(std::size_t index);
    void add_cam_side(const Train& train, const Placement& follow);
    void add_rocker_side(const Train& train, const DrawnTrain& drawn, Placement follow);
    void add_valve_side(const Train& train, Placement follow);
    void add_spring(const Train& train, Placement follow);
    void add_passages(const Train& train, const DrawnTrain& drawn, Placement follow);
    void add_passage(const Passage& passage, const Bore& bore, const ValvePosition& valve,
                     Placement follow);
    void add_obstacles();
    void add_camshaft();
    void add_shafts();
    void add_cylinders();
    void add_front_mark(double wheel_x, double wheel_radius);
    [[nodiscard]] std::size_t lobe_mesh_of(const ValvePosition& valve, double roller_radius);
    [[nodiscard]] double lifter_roller_of(const Train& train);
    [[nodiscard]] Vec3 tip_on_heel_K(const Train& train) const;

    const Engine& engine_;
    UsualSizes sizes_;
    std::map<std::pair<const CamLobes*, double>, std::size_t> lobe_meshes_;
    std::map<const CamLobes*, bool> works_flat_;
    std::map<ValveKind, std::size_t> valve_meshes_;
    std::map<std::array<double, 4>, std::size_t> spring_meshes_;
    std::size_t retainer_mesh_ = 0;
};

} // namespace rodway
