#include "core/engine/train_fields.h"

#include <algorithm>
#include <array>

#include "core/engine/obstacle_fields.h"
#include "core/engine/passage_fields.h"
#include "core/engine/rod_length_fields.h"
#include "core/units/typed_text.h"
#include "core/valvetrain/train_check.h"

namespace rodway {
namespace {

void read_lifter(FieldReader& fields, Lifter& lifter, const std::string& path) {
    lifter.foot_K = fields.point_mm(path + "/foot");
    lifter.axis_K = fields.direction(path + "/axis");
    lifter.seat_height_mm = fields.length_mm(path + "/seat_height");
    lifter.kind =
        fields.choice_or_first(path + "/kind") == 0 ? LifterKind::solid : LifterKind::hydraulic;
    lifter.follower =
        fields.choice_or_first(path + "/follower") == 0 ? FollowerKind::flat : FollowerKind::roller;
    lifter.face_diameter_mm = fields.length_mm_if_any(path + "/face_diameter");
    lifter.roller_radius_mm = fields.length_mm_if_any(path + "/roller_radius");
    lifter.body_diameter_mm = fields.length_mm_if_any(path + "/body_diameter");
    lifter.body_length_mm = fields.length_mm_if_any(path + "/body_length");
    if (lifter.kind == LifterKind::solid) {
        for (const char* field : {"/preload", "/plunger_travel"}) {
            if (fields.has(path + field)) {
                fields.refuse(bad_field(ErrorCode::not_of_this_kind, path + field,
                                        fields.find(path + field)->text, "solid"));
            }
        }
        return;
    }
    lifter.preload_mm = fields.length_mm(path + "/preload");
    lifter.plunger_travel_mm = fields.length_mm(path + "/plunger_travel");
    if (lifter.preload_mm > lifter.plunger_travel_mm) {
        Error error =
            bad_field(ErrorCode::out_of_range, path + "/preload", exact_text(lifter.preload_mm));
        error.limits = Limits{0.0, lifter.plunger_travel_mm, "mm"};
        fields.refuse(error);
    }
}

/// Rows of distance from the lower ball and diameter; the same distance twice is a step.
void read_rod_profile(FieldReader& fields, Pushrod& rod, const std::string& path) {
    constexpr double thinnest_mm = 4.0;
    constexpr double thickest_mm = 25.0;
    const auto rows = fields.pairs(path);
    for (std::size_t at = 0; at < rows.size(); ++at) {
        const auto& [place, diameter] = rows[at];
        const double before = at == 0 ? 0.0 : rows[at - 1].first;
        if (place < before || place > rod.length_mm || (at == 0 && place != 0.0)) {
            Error error = bad_field(ErrorCode::order_wrong, path, exact_text(place));
            error.line = static_cast<int>(at) + 1;
            fields.refuse(error);
            return;
        }
        if (diameter < thinnest_mm || diameter > thickest_mm) {
            Error error = bad_field(ErrorCode::out_of_range, path, exact_text(diameter));
            error.line = static_cast<int>(at) + 1;
            error.limits = Limits{thinnest_mm, thickest_mm, "mm"};
            fields.refuse(error);
            return;
        }
        rod.diameter_mm = std::max(rod.diameter_mm, diameter);
        if (at > 0 && place > before) {
            rod.profile.push_back({before, place, rows[at - 1].second, diameter});
        }
    }
    if (rod.profile.empty()) {
        fields.refuse(bad_field(ErrorCode::too_few_rows, path, std::to_string(rows.size()), "2"));
        return;
    }
    if (rod.profile.back().to_mm < rod.length_mm) {
        rod.profile.push_back(
            {rod.profile.back().to_mm, rod.length_mm, rows.back().second, rows.back().second});
    }
}

void read_rod(FieldReader& fields, Pushrod& rod, const std::string& path) {
    rod.lower_ball_diameter_mm = fields.length_mm_if_any(path + "/lower_ball");
    rod.upper_ball_diameter_mm = fields.length_mm_if_any(path + "/upper_ball");
    rod.cup_at_top = fields.choice_or_first(path + "/top_end") == 1;
    rod.cup_depth_mm = fields.length_mm_if_any(path + "/cup_depth");
    rod.gauge_hole_mm = fields.length_mm_if_any(path + "/gauge_hole");
    rod.cup_outside_mm = fields.length_mm_if_any(path + "/cup_outside");
    for (const char* of_cup : {"/cup_depth", "/cup_outside"}) {
        if (fields.has(path + of_cup) && !rod.cup_at_top) {
            fields.refuse(bad_field(ErrorCode::not_of_this_kind, path + of_cup,
                                    fields.find(path + of_cup)->text, "ball_end"));
        }
    }
    rod.length_mm = read_rod_length_mm(fields, rod, path);
    if (!fields.has(path + "/profile")) {
        rod.diameter_mm = fields.length_mm(path + "/diameter");
    } else if (fields.has(path + "/diameter")) {
        fields.refuse(bad_field(ErrorCode::not_of_this_kind, path + "/diameter",
                                fields.find(path + "/diameter")->text, "profile"));
    } else {
        read_rod_profile(fields, rod, path + "/profile");
    }
}

void read_rocker(FieldReader& fields, Train& train, const std::string& path) {
    static constexpr std::array mounts{RockerMount::shaft, RockerMount::stud,
                                       RockerMount::ball_pivot};
    Rocker& rocker = train.rocker;
    rocker.mount = mounts[fields.choice_or_first(path + "/mount")];
    rocker.pivot_K = fields.point_mm(path + "/pivot");
    rocker.ball_arm_K = fields.point_mm(path + "/ball_arm");
    rocker.tip_arm_K = fields.point_mm(path + "/tip_arm");
    rocker.end_float_mm = fields.length_mm_or(path + "/end_float", 0.0);
    rocker.body_K = read_rocker_body(fields, path + "/body");
    if (fields.has(path + "/shaft")) {
        rocker.shaft = fields.words(path + "/shaft");
    }
    if (rocker.mount != RockerMount::ball_pivot) {
        rocker.axis_K = fields.direction(path + "/axis");
        return;
    }
    rocker.guide = fields.choice(path + "/guided_by") == 0 ? Guide::guide_plate : Guide::tip_rails;
    if (fields.has_any_under(path + "/axis")) {
        fields.refuse(bad_field(ErrorCode::not_of_this_kind, path + "/axis", {}, "ball_pivot"));
        return;
    }
    rocker.axis_K =
        ball_pivot_axis_K(rocker.guide, train.adjuster.axis_K, rocker.ball_arm_K, rocker.tip_arm_K);
    if (rocker.axis_K.isZero()) {
        fields.refuse(bad_field(ErrorCode::not_a_direction, path + "/guided_by",
                                fields.find(path + "/guided_by")->text));
    }
}

void read_adjuster(FieldReader& fields, Train& train, const std::string& path) {
    static constexpr std::array kinds{AdjusterKind::screw, AdjusterKind::nut, AdjusterKind::none};
    Adjuster& adjuster = train.adjuster;
    adjuster.kind = kinds[fields.choice_or_first(path + "/kind")];
    const bool stud =
        fields.choice_or_first("trains/" + position_name(train.position) + "/rocker/mount") != 0;
    if (adjuster.kind != AdjusterKind::none || stud) {
        adjuster.axis_K = fields.direction(path + "/axis");
    }
    if (adjuster.kind != AdjusterKind::none) {
        adjuster.can_go_in_mm = fields.length_mm(path + "/thread_towards_rod");
        adjuster.can_go_out_mm = fields.length_mm(path + "/thread_away_from_rod");
    }
    if (adjuster.kind == AdjusterKind::nut && !stud) {
        fields.refuse(bad_field(ErrorCode::not_of_this_kind, path + "/kind", "nut", "shaft"));
    }
    adjuster.pitch_mm = fields.length_mm_if_any(path + "/pitch");
    if (fields.has(path + "/cup_limit")) {
        adjuster.cup_limit_rad = radians(fields.angle_deg(path + "/cup_limit"));
    }
}

void read_valve(FieldReader& fields, Engine& engine, Train& train, const std::string& path) {
    train.valve.axis_K = fields.direction(path + "/axis");
    if (fields.has_any_under(path + "/tip")) {
        train.valve.tip_K = fields.point_mm(path + "/tip");
    }
    train.valve.lash_mm = engine.lobes(train.position).lash_mm;
    if (train.lifter.kind == LifterKind::hydraulic && train.valve.lash_mm != 0.0) {
        const std::string kind = train.position.kind == ValveKind::intake ? "intake" : "exhaust";
        fields.refuse(bad_field(ErrorCode::not_of_this_kind, "lobes/" + kind + "/lash",
                                exact_text(train.valve.lash_mm), "hydraulic"));
    }
}

/// What a train's fields must mean together.
void check_fields_together(FieldReader& fields, const Engine& engine, const Train& train,
                           const std::string& path) {
    if (const auto checked = check_train(train); !checked) {
        Error error = checked.error();
        error.field = path + "/" + error.field;
        fields.refuse(error);
    }
    const Bore& bore = train.tube.bore;
    if (2.0 * bore.bore_radius_mm <= train.rod.diameter_mm) {
        fields.refuse(bad_field(ErrorCode::bore_smaller_than_rod, path + "/tube/bore",
                                exact_text(2.0 * bore.bore_radius_mm),
                                exact_text(train.rod.diameter_mm)));
    }
    const auto closing = Linkage::close(train);
    const double full_lift = engine.lobes(train.position).lobe.full_lift_mm();
    const auto lifted = closing.linkage ? closing.linkage->at(full_lift) : std::nullopt;
    if (lifted && closing.linkage->gross_lift_mm(*lifted) < 0.0) {
        fields.refuse(bad_field(ErrorCode::valve_swapped, path + "/valve/axis", {}));
    }
    check_passages(fields, engine, train, path);
}

} // namespace

void read_train(FieldReader& fields, Engine& engine, const std::string& name) {
    const std::string path = "trains/" + name;
    const auto position = parse_position(name);
    if (!position || position_name(*position) != name) {
        fields.refuse(bad_field(ErrorCode::not_a_position, path, name, "3I"));
        return;
    }
    if (position->cylinder > static_cast<int>(engine.layout.cylinders.size())) {
        fields.refuse(bad_field(ErrorCode::valve_unknown, path, name));
        return;
    }
    Train train;
    train.position = *position;
    train.bank = engine.layout.cylinder(position->cylinder).bank;
    read_lifter(fields, train.lifter, path + "/lifter");
    read_rod(fields, train.rod, path + "/rod");
    read_adjuster(fields, train, path + "/adjuster");
    read_rocker(fields, train, path + "/rocker");
    read_valve(fields, engine, train, path + "/valve");
    train.tube = read_tube(fields, path + "/tube");
    train.further_passages = read_further_passages(fields, path);
    if (!fields.error()) {
        check_fields_together(fields, engine, train, path);
        engine.trains.push_back(train);
    }
}

} // namespace rodway
