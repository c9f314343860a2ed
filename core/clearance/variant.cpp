#include "core/clearance/variant.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>

#include "core/clearance/engine_parameter.h"
#include "core/engine/set_up_fields.h"
#include "core/units/length.h"
#include "core/units/typed_text.h"
#include "core/valvetrain/rod_for_adjuster.h"

namespace rodway {
namespace {

/// Rounding of sums of sizes: what is typed to a limit still reaches it.
constexpr double rounding_mm = 1e-9;

double inches(double mm) {
    return std::round(1e6 * Length::mm(mm).in_inches()) / 1e6;
}

/// A size outside limits, said in inches: a builder's units.
std::optional<Error> beyond(const std::string& field, double value_mm, double low_mm,
                            double high_mm) {
    if (value_mm >= low_mm - rounding_mm && value_mm <= high_mm + rounding_mm) {
        return std::nullopt;
    }
    return Error{ErrorCode::out_of_range,
                 field,
                 exact_text(inches(value_mm)),
                 {},
                 {},
                 Limits{inches(low_mm), inches(high_mm), "in"}};
}

/// The same with the set-up's own limits of a field, which `spec_path` names.
std::optional<Error> beyond(const std::string& field, double value_mm, std::string_view spec_path) {
    const FieldSpec* spec = field_spec(spec_path);
    RODWAY_ASSERT(spec != nullptr);
    return beyond(field, value_mm, spec->low, spec->high);
}

std::optional<Error> no_number(const Variant& variant) {
    const auto wrong = [](const char* field, double value) -> std::optional<Error> {
        return std::isfinite(value)
                   ? std::nullopt
                   : std::optional(
                         Error{ErrorCode::not_a_number, field, std::to_string(value), {}, {}, {}});
    };
    const std::array<std::pair<const char*, double>, 8> everywhere{
        {{"lifter_taller", variant.lifter_taller_mm},
         {"rod_thicker", variant.rod_thicker_mm},
         {"rod_longer", variant.rod_longer_mm},
         {"ball_arm_longer", variant.ball_arm_longer_mm},
         {"lash_more", variant.lash_more_mm},
         {"lobe_lift_more", variant.lobe_lift_more_mm},
         {"ratio_more", variant.ratio_more},
         {"adjuster_in_more", variant.adjuster_in_more_mm}}};
    for (const auto& [field, value] : everywhere) {
        if (auto error = wrong(field, value)) {
            return error;
        }
    }
    for (const double thicker : variant.gasket_thicker_mm) {
        if (auto error = wrong("gasket_thicker", thicker)) {
            return error;
        }
    }
    for (const double thicker : variant.head_gasket_thicker_mm) {
        if (auto error = wrong("head_gasket_thicker", thicker)) {
            return error;
        }
    }
    return std::nullopt;
}

/// A bank's path in the set-up; of one that the layout doesn't have, by its place in the list.
std::string bank_path(const Engine& engine, std::size_t bank) {
    return "banks/" + (bank < engine.layout.banks.size() ? engine.layout.banks[bank].name
                                                         : std::to_string(bank + 1));
}

std::optional<Error> refused_gaskets(const Engine& engine, const Variant& variant) {
    const auto& intake = variant.gasket_thicker_mm;
    for (std::size_t bank = 0; bank < intake.size(); ++bank) {
        const std::string field = bank_path(engine, bank) + "/flange/gasket";
        if (intake[bank] == 0.0) {
            continue;
        }
        if (bank >= engine.flanges.size() || !engine.flanges[bank]) {
            return Error{ErrorCode::missing_field, field, {}, {}, {}, {}};
        }
        if (auto error = beyond(field, engine.flanges[bank]->gasket_mm + intake[bank], field)) {
            return error;
        }
    }
    const auto& head = variant.head_gasket_thicker_mm;
    for (std::size_t bank = 0; bank < head.size(); ++bank) {
        const std::string field = bank_path(engine, bank) + "/head/gasket";
        if (head[bank] == 0.0) {
            continue;
        }
        if (bank >= engine.layout.banks.size()) {
            return Error{ErrorCode::missing_field, field, {}, {}, {}, {}};
        }
        // Of a gasket whose thickness nobody stated only the change can be judged.
        const bool stated = head_gasket_stated(engine, bank);
        const double value =
            stated ? engine.heads.of(bank).gasket_mm + head[bank] : std::abs(head[bank]);
        if (auto error = beyond(field, value, field)) {
            return error;
        }
    }
    return std::nullopt;
}

std::optional<Error> refused_rod(const Train& train, const std::string& path,
                                 const Variant& variant) {
    const double diameter = train.rod.diameter_mm + variant.rod_thicker_mm;
    if (auto error = beyond(path + "/rod/diameter", diameter, path + "/rod/diameter")) {
        return error;
    }
    for (const RodSection& section : train.rod.profile) {
        const double thinnest = std::min(section.diameter_from_mm, section.diameter_to_mm);
        if (auto error = beyond(path + "/rod/profile", thinnest + variant.rod_thicker_mm,
                                path + "/rod/diameter")) {
            return error;
        }
    }
    const double bore = 2.0 * train.tube.bore.bore_radius_mm;
    if (bore <= diameter) {
        return Error{ErrorCode::bore_smaller_than_rod,
                     path + "/tube/bore",
                     exact_text(bore),
                     exact_text(diameter),
                     {},
                     {}};
    }
    return beyond(path + "/rod/length", train.rod.length_mm + variant.rod_longer_mm,
                  path + "/rod/length");
}

std::optional<Error> refused_lobe(const Engine& engine, const Train& train,
                                  const Variant& variant) {
    const std::string path =
        "lobes/" +
        (engine.own_lobes.contains(train.position)
             ? position_name(train.position)
             : std::string(train.position.kind == ValveKind::intake ? "intake" : "exhaust"));
    if (variant.lash_more_mm != 0.0) {
        const double lash = train.valve.lash_mm + variant.lash_more_mm;
        if (train.lifter.kind == LifterKind::hydraulic) {
            return Error{ErrorCode::not_of_this_kind,
                         path + "/lash",
                         exact_text(inches(lash)),
                         "hydraulic",
                         {},
                         {}};
        }
        if (auto error = beyond(path + "/lash", lash, path + "/lash")) {
            return error;
        }
    }
    if (variant.lobe_lift_more_mm != 0.0) {
        const double lift = engine.lobes(train.position).lobe.full_lift_mm();
        return beyond(path + "/full_lift", lift + variant.lobe_lift_more_mm,
                      path + "/card/peak_lift");
    }
    return std::nullopt;
}

/// Ball arm that gives a rocker its new ratio, less the one it has.
double ball_arm_for_ratio_mm(const Train& train, double ratio_more) {
    const double now = arm_ratio(train);
    return ball_arm_across_mm(train) * (now / (now + ratio_more) - 1.0);
}

std::optional<Error> refused_rocker(const Train& train, const std::string& path,
                                    const Variant& variant) {
    constexpr double shortest_mm = 5.0; // the domain of the linkage, see train_check.h
    constexpr double longest_mm = 300.0;
    if (variant.ratio_more != 0.0) {
        const double arm = ball_arm_across_mm(train);
        const double tip = arm * arm_ratio(train);
        const double ratio = arm_ratio(train) + variant.ratio_more;
        if (!(ratio >= tip / longest_mm && ratio <= tip / shortest_mm)) {
            return Error{ErrorCode::out_of_range,
                         path + "/rocker/ratio",
                         exact_text(std::round(1e4 * ratio) / 1e4),
                         {},
                         {},
                         Limits{std::ceil(1e3 * tip / longest_mm) / 1e3,
                                std::floor(1e3 * tip / shortest_mm) / 1e3,
                                {}}};
        }
    }
    const double longer =
        variant.ball_arm_longer_mm + ball_arm_for_ratio_mm(train, variant.ratio_more);
    if (longer != 0.0) {
        if (auto error = beyond(path + "/rocker/ball_arm", ball_arm_across_mm(train) + longer,
                                shortest_mm, longest_mm)) {
            return error;
        }
    }
    if (variant.adjuster_in_more_mm != 0.0 && !adjuster_sets_lash(train)) {
        return Error{ErrorCode::not_of_this_kind,
                     path + "/adjuster",
                     exact_text(inches(variant.adjuster_in_more_mm)),
                     "no_adjuster",
                     {},
                     {}};
    }
    return std::nullopt;
}

std::optional<Error> refused_train(const Engine& engine, const Train& train,
                                   const Variant& variant) {
    const std::string path = "trains/" + position_name(train.position);
    if (auto error = beyond(path + "/lifter/seat_height",
                            train.lifter.seat_height_mm + variant.lifter_taller_mm,
                            path + "/lifter/seat_height")) {
        return error;
    }
    if (auto error = refused_rod(train, path, variant)) {
        return error;
    }
    if (auto error = refused_rocker(train, path, variant)) {
        return error;
    }
    return refused_lobe(engine, train, variant);
}

struct Change {
    EngineParameter parameter;
    double delta_mm = 0.0;
};

/// A variant as changes of single parameters, those of no size left out.
std::vector<Change> changes_of(const Variant& variant) {
    std::vector<Change> changes;
    const auto add = [&](ParameterKind kind, double delta_mm, std::size_t bank = 0) {
        if (delta_mm != 0.0) {
            changes.push_back({EngineParameter{.kind = kind, .bank = bank}, delta_mm});
        }
    };
    for (std::size_t bank = 0; bank < variant.gasket_thicker_mm.size(); ++bank) {
        add(ParameterKind::intake_gasket, variant.gasket_thicker_mm[bank], bank);
    }
    for (std::size_t bank = 0; bank < variant.head_gasket_thicker_mm.size(); ++bank) {
        add(ParameterKind::head_gasket, variant.head_gasket_thicker_mm[bank], bank);
    }
    add(ParameterKind::lifter_height, variant.lifter_taller_mm);
    add(ParameterKind::rod_diameter, variant.rod_thicker_mm);
    add(ParameterKind::rod_length, variant.rod_longer_mm);
    add(ParameterKind::ball_arm_length, variant.ball_arm_longer_mm);
    add(ParameterKind::lash, variant.lash_more_mm);
    add(ParameterKind::lobe_lift, variant.lobe_lift_more_mm);
    return changes;
}

/// Every rocker's ratio greater by so much. False if a train can't follow.
bool change_ratios(Engine& engine, double ratio_more) {
    for (const Train& train : std::vector<Train>(engine.trains)) {
        const EngineParameter arm{.kind = ParameterKind::ball_arm_length, .valve = train.position};
        auto next = with_change(engine, arm, ball_arm_for_ratio_mm(train, ratio_more));
        if (!next) {
            return false;
        }
        engine = std::move(*next);
    }
    return true;
}

/// Chooses rods so that every adjuster stands further in than in the engine as it is.
std::optional<Error> choose_rods(Engine& engine, const Engine& as_it_is, double in_more_mm) {
    for (std::size_t at = 0; at < engine.trains.size(); ++at) {
        Train& train = engine.trains[at];
        const auto stands = Linkage::close(as_it_is.trains[at]);
        const auto length =
            stands.linkage
                ? rod_for_adjuster_mm(train, stands.linkage->adjuster_in_mm() + in_more_mm)
                : std::nullopt;
        const std::string path = "trains/" + position_name(train.position);
        if (!length) {
            return Error{ErrorCode::out_of_range,
                         path + "/adjuster",
                         exact_text(inches(in_more_mm)),
                         {},
                         {},
                         {}};
        }
        if (auto error = beyond(path + "/rod/length", *length, path + "/rod/length")) {
            return error;
        }
        fit_rod(train, *length);
    }
    return std::nullopt;
}

bool all_zero(const std::vector<double>& thicker_mm) {
    return std::all_of(thicker_mm.begin(), thicker_mm.end(), [](double mm) { return mm == 0.0; });
}

} // namespace

bool Variant::changes_nothing() const {
    return lifter_taller_mm == 0.0 && rod_thicker_mm == 0.0 && all_zero(gasket_thicker_mm) &&
           rod_longer_mm == 0.0 && ball_arm_longer_mm == 0.0 && all_zero(head_gasket_thicker_mm) &&
           lash_more_mm == 0.0 && lobe_lift_more_mm == 0.0 && ratio_more == 0.0 &&
           adjuster_in_more_mm == 0.0;
}

double ball_arm_across_mm(const Train& train) {
    const Vec3& arm = train.rocker.ball_arm_K;
    const Vec3& axis = train.rocker.axis_K;
    return (arm - arm.dot(axis) * axis).norm();
}

double arm_ratio(const Train& train) {
    const Vec3& tip = train.rocker.tip_arm_K;
    const Vec3& axis = train.rocker.axis_K;
    return (tip - tip.dot(axis) * axis).norm() / ball_arm_across_mm(train);
}

bool adjuster_sets_lash(const Train& train) {
    return train.lifter.kind == LifterKind::solid && train.adjuster.kind != AdjusterKind::none;
}

bool head_gasket_stated(const Engine& engine, std::size_t bank) {
    const HeadSetting head = engine.heads.of(bank);
    return head.gasket_mm != 0.0 || head.gasket_when_located_mm != 0.0;
}

Result<Engine> with_variant(const Engine& engine, const Variant& variant) {
    auto refused = no_number(variant);
    if (!refused) {
        refused = refused_gaskets(engine, variant);
    }
    for (auto train = engine.trains.begin(); !refused && train != engine.trains.end(); ++train) {
        refused = refused_train(engine, *train, variant);
    }
    if (refused) {
        return *refused;
    }
    Engine changed = engine;
    for (const Change& change : changes_of(variant)) {
        if (engine.trains.empty() && change.parameter.kind != ParameterKind::intake_gasket &&
            change.parameter.kind != ParameterKind::head_gasket) {
            continue; // nothing that it could change
        }
        auto next = with_change(changed, change.parameter, change.delta_mm);
        if (!next) {
            // All else was looked at: a tip that can't follow its valve so far.
            return Error{ErrorCode::out_of_range,
                         "lobes/lash",
                         exact_text(inches(change.delta_mm)),
                         {},
                         {},
                         {}};
        }
        if (change.parameter.kind == ParameterKind::rod_length) {
            for (std::size_t at = 0; at < next->trains.size(); ++at) {
                const double length_mm = next->trains[at].rod.length_mm;
                next->trains[at].rod = changed.trains[at].rod;
                fit_rod(next->trains[at], length_mm);
            }
        }
        changed = std::move(*next);
    }
    if (variant.ratio_more != 0.0 && !change_ratios(changed, variant.ratio_more)) {
        return Error{
            ErrorCode::out_of_range, "ratio_more", exact_text(variant.ratio_more), {}, {}, {}};
    }
    if (variant.adjuster_in_more_mm != 0.0) {
        if (auto error = choose_rods(changed, engine, variant.adjuster_in_more_mm)) {
            return *error;
        }
    }
    return changed;
}

} // namespace rodway
