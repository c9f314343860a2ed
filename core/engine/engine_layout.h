#pragma once

#include <string>
#include <vector>

#include "core/engine/firing_order.h"
#include "core/engine/valve_position.h"
#include "core/geometry/frames.h"

namespace rodway {

enum class Arrangement { vee, inline_row, flat };

/// Which way the crank turns, seen from the front of the engine.
enum class Turning { clockwise, counter_clockwise };

/// A row of cylinders. `lean_deg`: from straight up towards +y, -90 to 90.
struct Bank {
    std::string name;
    double lean_deg = 0.0;
    BankFrame frame{0.0};
};

/// One cylinder: its number, its bank, and where its centreline stands along the crank.
struct Cylinder {
    int number = 1;
    std::size_t bank = 0; ///< index into `EngineLayout::banks`
    double centre_x_mm = 0.0;
};

/// Where everything sits and in which order it fires: the engine seen as a plan.
struct EngineLayout {
    std::string name;
    Arrangement arrangement = Arrangement::vee;
    Turning turning = Turning::clockwise;
    std::vector<Bank> banks;
    std::vector<Cylinder> cylinders; ///< by number, 1 first
    std::string firing_order_text;
    std::vector<CrankAngle> firing_angles; ///< per cylinder, same order as `cylinders`
    double bore_mm = 0.0;
    double stroke_mm = 0.0;
    double cam_y_mm = 0.0; ///< camshaft centre in the block frame
    double cam_z_mm = 0.0;

    [[nodiscard]] const Cylinder& cylinder(int number) const;
    [[nodiscard]] CrankAngle firing_angle(int number) const;
    [[nodiscard]] const Bank& bank_of(int number) const { return banks[cylinder(number).bank]; }
};

} // namespace rodway
