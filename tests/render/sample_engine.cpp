#include "tests/render/sample_engine.h"

#include <cmath>
#include <string>

namespace rodway {
namespace {

constexpr double in = 25.4;
constexpr double bore_spacing = 4.4 * in;
constexpr double bank_stagger = 0.9 * in;

/// How far a flat engine's trains are moved along the cylinders, so that one cam serves both banks.
constexpr double flat_nearer = 3.535534;

/// The plausible train, case B, at a place along the crank; `side` -1 mirrors it in y, `nearer`
/// moves it towards the crank.
Train sample_train(const ValvePosition& position, std::size_t bank, double x_mm, double side,
                   double nearer) {
    const auto at = [&](double x, double y, double z) {
        return Vec3(x_mm + in * x, in * side * y, in * (z - nearer));
    };
    const auto way = [&](double x, double y, double z) { return Vec3(x, side * y, z); };
    Train train;
    train.position = position;
    train.bank = bank;
    train.lifter.foot_K = at(0.0, -3.535534, 4.095534);
    train.lifter.seat_height_mm = 1.75 * in;
    train.rod.length_mm = 8.968198 * in;
    train.rod.diameter_mm = 0.3125 * in;
    train.rocker.pivot_K = at(0.25, -1.25, 14.75);
    train.rocker.axis_K = Vec3::UnitX();
    train.rocker.ball_arm_K = in * way(0.0, -0.883583, -0.050054);
    train.rocker.tip_arm_K = in * way(0.0, 1.332916, 0.687993);
    train.adjuster.can_go_in_mm = 5.0;
    train.adjuster.can_go_out_mm = 5.0;
    train.valve.axis_K = way(0.0, -0.258819, 0.965926).normalized();
    train.valve.lash_mm = 0.018 * in;
    train.tube.casting = Casting::intake;
    train.tube.bore.centre_K = at(0.15, -2.639300, 11.339405);
    train.tube.bore.axis_K = way(0.027876, 0.157382, 0.987144).normalized();
    train.tube.bore.length_mm = 3.0 * in;
    train.tube.bore.bore_radius_mm = 0.5 * 0.5625 * in;
    return train;
}

void add_banks(Engine& engine) {
    const Arrangement arrangement = engine.layout.arrangement;
    const double lean = arrangement == Arrangement::vee ? 45.0 : 90.0;
    std::vector<double> leans{lean, -lean};
    if (arrangement == Arrangement::inline_row) {
        leans = {0.0};
    }
    for (const double lean_deg : leans) {
        engine.layout.banks.push_back(
            {lean_deg > 0.0 ? "left" : "right", lean_deg, BankFrame(radians(lean_deg))});
        const double inboard = lean_deg < 0.0 ? 1.0 : -1.0;
        engine.flanges.push_back(FlangeSetting{Vec3(0.0, inboard, 0.0), 1.5, 1.5});
    }
}

} // namespace

Lobe sample_lobe() {
    LiftTable table;
    table.resolution_mm = 0.001;
    for (int deg = -72; deg <= 72; deg += 2) {
        const double u = 1.0 - std::abs(deg) / 72.0;
        const double lift = 0.380 * in * u * u * u * (10.0 - 15.0 * u + 6.0 * u * u);
        table.rows.push_back({static_cast<double>(deg), std::round(1000.0 * lift) / 1000.0});
    }
    return std::move(Lobe::from_table(table)).value();
}

Engine sample_engine(const SampleKind& kind) {
    const CamLobes lobes{sample_lobe(), 0.560 * in, 0.018 * in, 106.0};
    Engine engine{.intake = lobes, .exhaust = lobes};
    EngineLayout& layout = engine.layout;
    layout.name = "sample";
    layout.arrangement = kind.arrangement;
    layout.turning = kind.turning;
    layout.bore_mm = 4.0 * in;
    layout.stroke_mm = 3.5 * in;
    layout.cam_z_mm = 5.0 * in;
    if (kind.arrangement == Arrangement::inline_row) {
        layout.cam_y_mm = -3.535534 * in;
        layout.cam_z_mm = 3.535534 * in;
    }
    const double nearer = kind.arrangement == Arrangement::flat ? flat_nearer : 0.0;
    if (kind.arrangement == Arrangement::flat) {
        layout.cam_z_mm = 3.535534 * in;
    }
    add_banks(engine);
    const int banks = static_cast<int>(layout.banks.size());
    for (int number = 1; number <= kind.cylinders; ++number) {
        const auto bank = static_cast<std::size_t>((number - 1) % banks);
        const double x = 3.0 * in + bore_spacing * ((number - 1) / banks) +
                         bank_stagger * static_cast<double>(bank);
        layout.cylinders.push_back({number, bank, x});
        layout.firing_angles.push_back(CrankAngle::deg(720.0 / kind.cylinders * (number - 1)));
        const double side = layout.banks[bank].lean_deg < 0.0 ? -1.0 : 1.0;
        // Rear cylinders of each pair carry their valves the other way round, so that two intakes
        // meet.
        const double turned = (number - 1) / banks % 2 == 0 ? 1.0 : -1.0;
        for (const ValveKind valve : {ValveKind::intake, ValveKind::exhaust}) {
            const double aside = (valve == ValveKind::intake ? 1.0 : -1.0) * turned * 0.95 * in;
            engine.trains.push_back(
                sample_train({number, valve, 1}, bank, x + aside, side, nearer));
        }
    }
    if (kind.arrangement == Arrangement::vee && kind.cylinders == 8) {
        layout.firing_order_text = "1-8-4-3-6-5-7-2";
        const Result<FiringOrder> order = FiringOrder::parse(layout.firing_order_text, 8);
        for (int number = 1; number <= 8; ++number) {
            layout.firing_angles[static_cast<std::size_t>(number - 1)] =
                order->firing_angle(number);
        }
    }
    return engine;
}

} // namespace rodway
