#include "core/clearance/variant.h"

#include <algorithm>
#include <cmath>

#include "core/engine/set_up_fields.h"
#include "core/units/length.h"
#include "core/units/typed_text.h"

namespace rodway {
namespace {

/// The set-up's own limits for a field that a variant changes.
std::optional<Error> beyond(std::string_view path, double value_mm) {
    const FieldSpec* spec = field_spec(path);
    RODWAY_ASSERT(spec != nullptr);
    if (value_mm >= spec->low && value_mm <= spec->high) {
        return std::nullopt;
    }
    const auto inches = [](double mm) {
        return std::round(1e6 * Length::mm(mm).in_inches()) / 1e6;
    };
    return Error{ErrorCode::out_of_range,
                 std::string(path),
                 exact_text(inches(value_mm)),
                 {},
                 {},
                 Limits{inches(spec->low), inches(spec->high), "in"}};
}

} // namespace

bool Variant::changes_nothing() const {
    return lifter_taller_mm == 0.0 && rod_thicker_mm == 0.0 &&
           std::all_of(gasket_thicker_mm.begin(), gasket_thicker_mm.end(),
                       [](double mm) { return mm == 0.0; });
}

Result<Engine> with_variant(const Engine& engine, const Variant& variant) {
    Engine changed = engine;
    for (std::size_t bank = 0;
         bank < variant.gasket_thicker_mm.size() && bank < changed.flanges.size(); ++bank) {
        if (changed.flanges[bank]) {
            double& gasket = changed.flanges[bank]->gasket_mm;
            gasket += variant.gasket_thicker_mm[bank];
            if (auto error =
                    beyond("banks/" + changed.layout.banks[bank].name + "/flange/gasket", gasket)) {
                return *error;
            }
        }
    }
    for (Train& train : changed.trains) {
        const std::string path = "trains/" + position_name(train.position);
        train.lifter.seat_height_mm += variant.lifter_taller_mm;
        train.rod.diameter_mm += variant.rod_thicker_mm;
        if (auto error = beyond(path + "/lifter/seat_height", train.lifter.seat_height_mm)) {
            return *error;
        }
        if (auto error = beyond(path + "/rod/diameter", train.rod.diameter_mm)) {
            return *error;
        }
        const double bore = 2.0 * train.tube.bore.bore_radius_mm;
        if (bore <= train.rod.diameter_mm) {
            return Error{ErrorCode::bore_smaller_than_rod,
                         path + "/tube/bore",
                         exact_text(bore),
                         exact_text(train.rod.diameter_mm),
                         {},
                         {}};
        }
    }
    return changed;
}

} // namespace rodway
