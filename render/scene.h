#pragma once

#include <Eigen/Core>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "core/engine/engine.h"
#include "core/geometry/segment.h"
#include "render/check_state.h"
#include "render/material.h"
#include "render/mesh.h"

namespace rodway {

enum class PartKind {
    camshaft,
    lobe,
    lifter,
    rod,
    rocker,
    roller,
    adjuster,
    shaft,
    valve,
    spring,
    retainer,
    tube,
    tube_rims,
    rod_sweep,
    lifter_roller,
    piston,
    bore_outline,
    crank_axis,
    stud,
    cam_gear,
    obstacle,
    front_mark,
};

/// One thing drawn: a mesh, its look, and the valve it belongs to (none: it serves several).
struct Part {
    PartKind kind = PartKind::camshaft;
    Material material = Material::cam;
    std::size_t mesh = 0; ///< index into `Scene::meshes`
    std::optional<ValvePosition> valve;
    std::string name = {}; ///< of a passage or an obstacle, as the set-up calls it
};

/// A box along the axes of the block frame, mm.
struct Box {
    Vec3 low_E = Vec3::Zero();
    Vec3 high_E = Vec3::Zero();

    [[nodiscard]] Vec3 centre_E() const { return 0.5 * (low_E + high_E); }
    [[nodiscard]] double diagonal_mm() const { return (high_E - low_E).norm(); }
};

/// What becomes of the trains that are not selected.
enum class Others { shown, faded, hidden };

/// How rockers with their rollers, adjusters and what they turn on are drawn; as glass, the tube is
/// seen under them.
enum class Rockers { shown, glass, hidden };

/// A plane; what lies on the side its normal points to is cut away. Block frame, mm.
struct Section {
    Vec3 point_E = Vec3::Zero();
    Vec3 normal_E = Vec3::UnitX(); ///< unit
};

/// What of a scene is drawn, and how.
struct SceneShow {
    std::optional<ValvePosition> selected; ///< drawn in the accent colour
    Others others = Others::shown;         ///< matters only where one is selected
    bool rod_sweep = false;                ///< the space the selected rod takes through a turn
    bool pistons = true;
    bool shared_parts = true; ///< cam, shafts, bore outlines, crank axis
    bool castings = true;     ///< passages, and what stands beside the rods
    /// Of the selected valve, or of all where none is selected.
    Rockers rockers = Rockers::shown;
    /// How each valve's clearance stands: its rod takes the state's colour and hatching. Valves not
    /// named keep the metal's colour.
    std::map<ValvePosition, CheckState> states = {};
    std::optional<Section> section;
};

struct Placement;
struct DrawnTrain;

/// An engine's valvetrain as meshes, made once, and where each stands at a crank angle. World
/// frame: block frame E, millimetres. Reads the engine while it is made and keeps nothing of it but
/// a copy.
///
/// Drawn from the engine: lobes (its lift curve on its base circle), lifter feet and axes, rods
/// with every taper and step, pivots, ball and tip arms, studs, valve axes, tubes and other
/// passages, round or obround, what stands beside the rods; lifters' bodies, springs' heights and
/// wire where they are stated. Drawn in usual proportions, because an engine doesn't state them:
/// the rest of lifters (with a roller where the lobe's curve can't work a flat face) and springs,
/// rocker bodies, valve lengths and heads, pistons, the wheel that drives the cam.
class Scene {
  public:
    [[nodiscard]] static std::shared_ptr<const Scene> build(const Engine& engine);
    ~Scene();
    Scene(const Scene&) = delete;
    Scene& operator=(const Scene&) = delete;

    [[nodiscard]] const std::vector<Mesh>& meshes() const { return meshes_; }
    [[nodiscard]] const std::vector<Part>& parts() const { return parts_; }
    [[nodiscard]] std::size_t triangle_count() const;

    /// Part frame to block frame, one matrix per part, in the order of `parts`.
    [[nodiscard]] std::vector<Eigen::Matrix4f> placed(CrankAngle crank) const;

    /// A part of a rocker: its arm, roller, adjuster, and what it turns on.
    [[nodiscard]] static bool of_rocker(const Part& part);
    /// Whether a part is drawn at all under `show`.
    [[nodiscard]] static bool drawn(const Part& part, const SceneShow& show);

    /// All parts at crank angle 0.
    [[nodiscard]] const Box& bounds() const { return bounds_; }
    /// One train at crank angle 0; nothing for a valve without a train.
    [[nodiscard]] std::optional<Box> bounds(const ValvePosition& valve) const;

    /// Corners of a box round every part, as turned as the part is, at crank angle 0: what a camera
    /// has to bring into the picture. Of one train, or of everything.
    [[nodiscard]] std::vector<Vec3> outline_E(std::optional<ValvePosition> valve = {}) const;

    /// Ball centres of a rod, lower first; nothing for a valve without a train. A train which
    /// doesn't close gives the rod as it would stand on the heel, adjuster as found.
    [[nodiscard]] std::optional<Segment> rod_E(const ValvePosition& valve, CrankAngle crank) const;

    /// A train which doesn't close at some lift of its lobe is drawn on the heel, in a colour of
    /// its own.
    [[nodiscard]] TrainStatus status(const ValvePosition& valve) const;

    /// The point of the arrow out of the engine's front; the origin without trains.
    [[nodiscard]] const Vec3& front_E() const { return front_E_; }

    [[nodiscard]] const Engine& engine() const { return *engine_; }

  private:
    explicit Scene(const Engine& engine);
    [[nodiscard]] std::optional<Box> box_of(const std::function<bool(const Part&)>& wanted) const;
    [[nodiscard]] const DrawnTrain* find(const ValvePosition& valve) const;

    std::unique_ptr<const Engine> engine_;
    std::vector<Mesh> meshes_;
    std::vector<Part> parts_;
    std::vector<Placement> placements_; ///< one per part
    std::vector<DrawnTrain> trains_;
    Box bounds_;
    Vec3 front_E_ = Vec3::Zero();
};

} // namespace rodway
