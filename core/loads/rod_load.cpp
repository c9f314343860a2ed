#include "core/loads/rod_load.h"

#include "core/loads/shaft_load.h"

namespace rodway {
namespace {

double spring_load_N(const Linkage& linkage, const Pose& pose, const ValveSpring& spring) {
    return spring.load_N(spring.installed_height_mm - linkage.valve_lift_mm(pose));
}

} // namespace

// With q the tip's arm across the shaft, C'' = φ''·(n × q) - φ'²·q.
double valve_acceleration(const Linkage& linkage, const Pose& pose, double velocity,
                          double acceleration) {
    const Vec3& n = linkage.shaft_axis_K();
    const Vec3& a = linkage.lifter_axis_K();
    const RockerTurning turning = linkage.turning(pose, velocity * a, acceleration * a);
    const Vec3 arm = pose.roller_K - linkage.pivot_K();
    const Vec3 across = arm - arm.dot(n) * n;
    return -linkage.valve_axis_K().dot(turning.acceleration_rad * n.cross(across) -
                                       turning.velocity_rad * turning.velocity_rad * across);
}

double spring_on_rod_N(const Train& train, const Linkage& linkage, const Pose& pose,
                       const ValveSpring& spring) {
    return rocker_forces(train, linkage, pose, spring_load_N(linkage, pose, spring)).rod_N;
}

double running_load_N(const Train& train, const Linkage& linkage, const Pose& pose,
                      const ValveSpring& spring, const LobeMotion& lobe,
                      const RunningSpeed& running) {
    const double velocity = lobe.velocity * running.cam_rad_per_s;
    const double acceleration = lobe.acceleration * running.cam_rad_per_s * running.cam_rad_per_s;
    const double at_valve_N = (running.masses.valve_side_t + running.masses.rocker_at_valve_t) *
                              valve_acceleration(linkage, pose, velocity, acceleration);
    const RockerForces forces =
        rocker_forces(train, linkage, pose, spring_load_N(linkage, pose, spring) + at_valve_N);
    const Vec3 way = (pose.upper_ball_K - pose.lower_ball_K).normalized();
    return forces.rod_N +
           running.masses.rod_t / 2.0 * acceleration * way.dot(linkage.lifter_axis_K());
}

} // namespace rodway
