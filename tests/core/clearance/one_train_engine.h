#pragma once

#include "core/engine/engine.h"

namespace rodway {

/// An invented vee engine around one train, which stands on the bank that leans to +y. Its intake
/// faces look up a little, so that the heads' height moves the intake.
inline Engine engine_around(const Train& train, double full_lift_mm) {
    static const Lobe lobe =
        *Lobe::from_law(MotionLaw::cycloidal, 8.0, CamAngle::deg(65.0), CamAngle::deg(65.0));
    const CamLobes lobes{lobe.scaled(full_lift_mm / lobe.full_lift_mm()), 15.0, train.valve.lash_mm,
                         108.0};
    Engine engine{{}, lobes, lobes};
    engine.layout.banks = {{"right", 45.0, BankFrame(radians(45.0))},
                           {"left", -45.0, BankFrame(radians(-45.0))}};
    engine.layout.cylinders = {{1, 0, 60.0}};
    engine.layout.firing_angles = {CrankAngle::deg(0.0)};
    engine.trains = {train};
    FlangeSetting right;
    right.normal_K = Vec3(0.0, -1.0, 0.3).normalized();
    right.gasket_mm = 1.5;
    right.gasket_when_located_mm = 1.2;
    FlangeSetting left = right;
    left.normal_K = Vec3(0.05, 1.0, 0.2).normalized();
    left.gasket_when_located_mm = 1.5;
    engine.flanges = {right, left};
    return engine;
}

} // namespace rodway
