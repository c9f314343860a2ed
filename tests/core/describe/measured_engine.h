#pragma once

#include <algorithm>
#include <cmath>

#include "core/clearance/gap_at.h"
#include "core/clearance/train_surroundings.h"
#include "core/describe/description.h"
#include "core/units/angle.h"
#include "tests/core/demo_set_ups.h"

namespace rodway {

/// What a builder with perfect tools would measure of an engine whose places are known: the
/// definitions of `resources/guide/describe.md` worked backwards, by another way than the program.
class MeasuredEngine {
  public:
    explicit MeasuredEngine(const SetUpFields& places)
        : places_(places), engine_(*make_engine(places)) {
        for (const auto& [path, value] : places) {
            const std::string section = path.substr(0, path.find('/'));
            if (section == "engine" || section == "camshaft" || section == "limits" ||
                section == "doubt" || (section == "lobes" && !path.ends_with("circle_radius")) ||
                path.ends_with("/lean") || path.ends_with("/bank")) {
                fields_.emplace(path, value);
            }
        }
        for (std::size_t bank = 0; bank < engine_.layout.banks.size(); ++bank) {
            measure_row(bank);
        }
        for (const Train& train : engine_.trains) {
            measure(train);
        }
    }
    [[nodiscard]] const SetUpFields& fields() const { return fields_; }
    [[nodiscard]] const Engine& engine() const { return engine_; }

  private:
    void put(const std::string& owner, const char* name, double value) {
        const EngineDimension* dimension = dimension_called(name);
        fields_[described_path(owner, *dimension)] = {plain_digits(value),
                                                      dimension->angle ? "deg" : "mm"};
    }
    static constexpr double head_gasket_mm = 1.1;
    static constexpr double deck_mm = 200.0;

    void measure_row(std::size_t bank) {
        const std::string name = engine_.layout.banks[bank].name;
        std::vector<const Train*> row;
        std::vector<double> centres;
        for (const Train& train : engine_.trains) {
            if (train.bank == bank) {
                row.push_back(&train);
            }
        }
        for (const Cylinder& cylinder : engine_.layout.cylinders) {
            if (cylinder.bank == bank) {
                centres.push_back(cylinder.centre_x_mm);
            }
        }
        std::sort(row.begin(), row.end(), [](const Train* a, const Train* b) {
            return a->lifter.foot_K.x() < b->lifter.foot_K.x();
        });
        std::string valves;
        for (const Train* train : row) {
            valves += train->position.kind == ValveKind::intake ? "I" : "E";
        }
        fields_["described/" + name + "/valves"] = {valves, {}};
        put(name, "first_cylinder", centres.front());
        put(name, "spacing", centres[1] - centres[0]);
        const double y = to_rods(*row.front());
        put(name, "deck_height", deck_mm);
        put(name, "head_gasket", head_gasket_mm);
        put(name, "shaft_above_head", row.front()->rocker.pivot_K.z() - deck_mm - head_gasket_mm);
        put(name, "shaft_beside", y * row.front()->rocker.pivot_K.y());
        if (engine_.flanges[bank]) {
            const Vec3 normal = engine_.flanges[bank]->normal_K;
            put(name, "intake_face_lean", degrees(std::atan2(normal.z(), y * normal.y())));
            put(name, "intake_gasket", engine_.flanges[bank]->gasket_mm);
        }
    }

    [[nodiscard]] static double to_rods(const Train& train) {
        return train.lifter.foot_K.y() < 0.0 ? -1.0 : 1.0;
    }

    void measure(const Train& train) {
        const std::string kind = train.position.kind == ValveKind::intake ? "intake" : "exhaust";
        const double y = to_rods(train);
        const double centre = engine_.layout.cylinder(train.position.cylinder).centre_x_mm;
        constexpr double ball_mm = 7.9375;
        put(kind, "base_circle", 2.0 * engine_.lobes(train.position).base_circle_radius_mm);
        put(kind, "lifter_along", std::abs(train.lifter.foot_K.x() - centre));
        put(kind, "lifter_lean", degrees(std::asin(y * train.lifter.axis_K.y())));
        put(kind, "seat_height", train.lifter.seat_height_mm);
        measure_rod_end(train, kind, ball_mm);
        put(kind, "rod_ball", ball_mm);
        put(kind, "rod_diameter", train.rod.diameter_mm);
        put(kind, "rocker_along", std::abs(train.rocker.pivot_K.x() - centre));
        // As they stand on the heel with the lash set, not as the arms were typed.
        const auto closed = train_surroundings(engine_, train);
        const Linkage& linkage = closed->surroundings->linkage;
        put(kind, "ball_arm", std::hypot(linkage.ball_arm_K().y(), linkage.ball_arm_K().z()));
        put(kind, "tip_arm", linkage.tip_arm_K().norm());
        put(kind, "tip_above_shaft", linkage.tip_arm_K().z());
        put(kind, "valve_lean", degrees(std::asin(y * train.valve.axis_K.y())));
        const double side = train.lifter.foot_K.x() < centre ? -1.0 : 1.0;
        put(kind, "ball_offset", side * (linkage.ball_arm_K().x() - linkage.tip_arm_K().x()));
        put(kind, "tube_length", train.tube.bore.length_mm);
        put(kind, "tube_bore", 2.0 * train.tube.bore.bore_radius_mm);
        fields_["described/" + kind + "/tube_casting"] = {
            train.tube.casting == Casting::intake ? "intake" : "head", {}};
        measure_tube(train, kind, linkage);
    }

    /// Callipers over ball and ball, or over ball and the lip of a cup in which another ball sits.
    void measure_rod_end(const Train& train, const std::string& kind, double ball_mm) {
        if (!train.rod.cup_at_top) {
            put(kind, "rod_overall", train.rod.length_mm + ball_mm);
            return;
        }
        const double lip_above_centre =
            *train.rod.cup_depth_mm - *train.rod.upper_ball_diameter_mm / 2.0;
        fields_["described/" + kind + "/top_end"] = {"cup", {}};
        put(kind, "rod_overall", ball_mm / 2.0 + train.rod.length_mm + lip_above_centre);
        put(kind, "adjuster_ball", *train.rod.upper_ball_diameter_mm);
        put(kind, "cup_depth", *train.rod.cup_depth_mm);
        put(kind, "cup_outside", *train.rod.cup_outside_mm);
    }

    void measure_tube(const Train& train, const std::string& kind, const Linkage& linkage) {
        const auto pose = linkage.at(0.0);
        const RodPlace rod{pose->lower_ball_K, pose->upper_ball_K, train.rod.diameter_mm / 2.0};
        const Bore& bore = train.tube.bore;
        if (bore.half_straight_mm > 0.0) {
            fields_["described/" + kind + "/tube_shape"] = {"obround", {}};
            fields_["described/" + kind + "/tube_long"] = {
                std::abs(bore.long_way_K.x()) > 0.7 ? "along_crank" : "across_crank", {}};
            put(kind, "tube_long_bore", 2.0 * (bore.bore_radius_mm + bore.half_straight_mm));
        }
        if (train.rocker.mount == RockerMount::ball_pivot) {
            fields_["described/" + kind + "/mount"] = {"ball_pivot", {}};
        }
        const Vec3 along = (rod.upper_K - rod.lower_K).normalized();
        const double below = along.dot(rod.upper_K - bore.centre_K) - bore.length_mm / 2.0;
        put(kind, "tube_below_ball", below);
        const std::string valve = position_name(train.position);
        put(valve, "tube_below_ball", below);
        const double outboard = engine_.outboard_y_sign(train) > 0.0 ? 3.0 : 9.0;
        put(valve, "gap_front_top", *gap_at(bore, rod, BoreEnd::top, 12.0));
        put(valve, "gap_front_bottom", *gap_at(bore, rod, BoreEnd::bottom, 12.0));
        put(valve, "gap_outboard_top", *gap_at(bore, rod, BoreEnd::top, outboard));
        put(valve, "gap_outboard_bottom", *gap_at(bore, rod, BoreEnd::bottom, outboard));
    }

    SetUpFields places_;
    Engine engine_;
    SetUpFields fields_;
};

} // namespace rodway
