#include "core/clearance/variant_fields.h"

#include <array>
#include <cmath>

#include "core/engine/length_text.h"
#include "core/engine/set_up.h"
#include "core/units/typed_text.h"

namespace rodway {
namespace {

/// Sizes that differ by less are the same: rounding of sums.
constexpr double same_size_mm = 1e-9;

Error no_such_size(const std::string& field, double mm, const char* why) {
    return Error{ErrorCode::not_of_this_kind, field, length_text(mm, "in"), why, {}, {}};
}

/// Adds to a length of the set-up, in its own unit.
std::optional<Error> add_mm(SetUpFields& fields, const std::string& path, double more_mm) {
    const auto found = fields.find(path);
    if (found == fields.end()) {
        return Error{ErrorCode::missing_field, path, {}, {}, {}, {}};
    }
    const auto stands = length_field_mm(path, found->second);
    if (!stands) {
        return stands.error();
    }
    found->second.text = length_text(*stands + more_mm, found->second.unit);
    return std::nullopt;
}

/// The first of some fields that the set-up has; the first of all where it has none.
std::string one_there(const SetUpFields& fields, const std::string& path,
                      const std::vector<const char*>& leaves) {
    for (const char* leaf : leaves) {
        if (fields.contains(path + leaf)) {
            return path + leaf;
        }
    }
    return path + leaves.front();
}

/// A gasket given new and crushed changes by the thickness that is in.
std::optional<Error> add_to_gasket(SetUpFields& fields, const std::string& path, double more_mm) {
    const auto state = fields.find(path + "/gasket_state");
    const std::string leaf = state == fields.end() ? "/gasket" : "/gasket_" + state->second.text;
    return add_mm(fields, path + leaf, more_mm);
}

std::optional<Error> change_gaskets(SetUpFields& fields, const Engine& engine,
                                    const Variant& variant) {
    const std::vector<Bank>& banks = engine.layout.banks;
    for (std::size_t bank = 0; bank < banks.size(); ++bank) {
        const std::string path = "banks/" + banks[bank].name;
        const auto thicker = [&](const std::vector<double>& list) {
            return bank < list.size() ? list[bank] : 0.0;
        };
        const double intake = thicker(variant.gasket_thicker_mm);
        const double head = thicker(variant.head_gasket_thicker_mm);
        if (intake != 0.0) {
            if (auto error = add_to_gasket(fields, path + "/flange", intake)) {
                return error;
            }
        }
        if (head != 0.0 && !head_gasket_stated(engine, bank)) {
            return no_such_size(path + "/head/gasket", head, "gasket_not_stated");
        }
        if (head != 0.0) {
            if (auto error = add_to_gasket(fields, path + "/head", head)) {
                return error;
            }
        }
    }
    return std::nullopt;
}

std::optional<Error> change_train(SetUpFields& fields, const Train& stands, const Train& tried) {
    const std::string path = "trains/" + position_name(stands.position);
    const auto add = [&](const std::string& field, double more_mm) {
        return std::abs(more_mm) < same_size_mm ? std::nullopt : add_mm(fields, field, more_mm);
    };
    const double thicker = tried.rod.diameter_mm - stands.rod.diameter_mm;
    if (std::abs(thicker) >= same_size_mm && fields.contains(path + "/rod/profile")) {
        return no_such_size(path + "/rod/profile", thicker, "profile_thickness");
    }
    auto error = add(path + "/lifter/seat_height",
                     tried.lifter.seat_height_mm - stands.lifter.seat_height_mm);
    if (!error) {
        error = add(path + "/rod/diameter", thicker);
    }
    if (!error) {
        error = add(one_there(fields, path + "/rod",
                              {"/length", "/overall_length", "/effective_length", "/gauge_length"}),
                    tried.rod.length_mm - stands.rod.length_mm);
    }
    static constexpr std::array<const char*, 3> components{"/x", "/y", "/z"};
    const Vec3 arm_K = tried.rocker.ball_arm_K - stands.rocker.ball_arm_K;
    for (std::size_t at = 0; !error && at < components.size(); ++at) {
        error = add(path + "/rocker/ball_arm" + components[at], arm_K[static_cast<int>(at)]);
    }
    return error;
}

} // namespace

Result<SetUpFields> fields_with_variant(const SetUpFields& fields, const Engine& engine,
                                        const Variant& variant) {
    if (variant.lash_more_mm != 0.0) {
        return no_such_size("lash_more", variant.lash_more_mm, "lash_as_found");
    }
    if (variant.lobe_lift_more_mm != 0.0) {
        return no_such_size("lobe_lift_more", variant.lobe_lift_more_mm, "lobe_as_measured");
    }
    const auto tried = with_variant(engine, variant);
    if (!tried) {
        return tried.error();
    }
    SetUpFields changed = fields;
    if (const auto error = change_gaskets(changed, engine, variant)) {
        return *error;
    }
    for (std::size_t at = 0; at < engine.trains.size(); ++at) {
        if (const auto error = change_train(changed, engine.trains[at], tried->trains[at])) {
            return *error;
        }
    }
    if (const auto made = make_engine(changed); !made) {
        return made.error();
    }
    return changed;
}

} // namespace rodway
