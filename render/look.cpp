#include "render/look.h"

#include <cmath>

namespace rodway {
namespace {

/// The crank angle at which a valve's lobe stands in the middle of its heel.
CrankAngle heel_angle(const Engine& engine, const ValvePosition& valve) {
    return (engine.full_lift_angle(valve) + CrankAngle::deg(360.0)).in_cycle();
}

} // namespace

Camera looked_at(const Scene& scene, Look look, const std::optional<ValvePosition>& valve,
                 CrankAngle crank, PictureSize size) {
    Camera camera;
    switch (look) {
        case Look::corner:
            break;
        case Look::front:
            camera.yaw_deg = camera.pitch_deg = 0.0;
            break;
        case Look::rear:
            camera.yaw_deg = 180.0;
            camera.pitch_deg = 0.0;
            break;
        case Look::left:
            camera.yaw_deg = -90.0;
            camera.pitch_deg = 8.0;
            break;
        case Look::right:
            camera.yaw_deg = 90.0;
            camera.pitch_deg = 8.0;
            break;
        case Look::above:
            camera.yaw_deg = 90.0;
            camera.pitch_deg = 90.0;
            break;
        case Look::along_rod:
            if (const auto rod = valve ? scene.rod_E(*valve, crank) : std::nullopt) {
                return along_rod(camera, *rod);
            }
            break;
    }
    return framed(camera, scene.outline_E(valve), size);
}

std::optional<Section> section_of(const Scene& scene, Cut cut, const ValvePosition& valve,
                                  const Camera& camera, double by_mm) {
    const Train* train = scene.engine().train(valve);
    if (cut == Cut::none || train == nullptr) {
        return std::nullopt;
    }
    const auto rod = scene.rod_E(valve, heel_angle(scene.engine(), valve));
    const Vec3 along = (rod->b - rod->a).normalized();
    Section section{rod->at(0.5), -Vec3::UnitX()};
    if (cut == Cut::along_crank) {
        const Vec3 normal = Vec3::UnitX().cross(along).normalized();
        section.normal_E = normal.dot(forward_E(camera)) > 0.0 ? Vec3(-normal) : normal;
    } else if (cut == Cut::across_rod) {
        const Result<Bore> tube = scene.engine().tube_in_place(*train);
        const Vec3 middle_K = tube ? tube->centre_K : train->tube.bore.centre_K;
        const Vec3 middle_E = scene.engine().layout.banks[train->bank].frame.to_block(middle_K);
        section.point_E = rod->a + (middle_E - rod->a).dot(along) * along;
        section.normal_E = along;
    }
    section.point_E += by_mm * section.normal_E;
    return section;
}

} // namespace rodway
