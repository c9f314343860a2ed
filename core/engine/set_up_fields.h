#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/error.h"

namespace rodway {

/// What a field of a set-up holds.
enum class FieldKind {
    length,      ///< in, mm or thou; limits in mm
    direction,   ///< one component of an axis, no unit
    angle,       ///< degrees of geometry ("deg")
    crank_angle, ///< crank degrees ("crank_deg")
    words,
    choice,
    lift_table,   ///< "angle lift; angle lift; …", unit "cam_deg/in", "crank_deg/mm" and so on
    number,       ///< no unit
    spring_loads, ///< "height load; …", unit "in/lbf" or "mm/N"
    valve_drops,  ///< "crank degrees drop; …", unit "crank_deg/in" or "crank_deg/mm"
    rod_profile,  ///< "distance diameter; …", unit "in" or "mm"
    durations,    ///< "lobe_lift duration; …", unit "in/crank_deg" or "mm/crank_deg"
    temperature,  ///< "degC" or "degF"; limits in degC
    modulus,      ///< of elasticity, "GPa" or "Mpsi" (a million psi); limits in GPa
    mass,         ///< "g" or "oz"; limits in g
    speed,        ///< "rpm"
    expansion,    ///< millionths for each degree, "ppm_K" or "ppm_F"; limits in ppm_K
};

/// One field, or one family of fields, that a set-up may have. A `*` in the pattern stands for one
/// name: a bank, a cylinder's number, a valve such as 3I, a passage, an obstacle.
struct FieldSpec {
    std::string_view pattern;
    FieldKind kind;
    double low = 0.0;
    double high = 0.0;
    bool needed = true;
    std::string_view choices = {}; ///< separated by spaces
};

/// All fields there are, in the order in which a set-up is written.
[[nodiscard]] const std::vector<FieldSpec>& set_up_field_specs();

/// The spec of a path such as "trains/3I/rod/length", or nothing if no field is called so.
[[nodiscard]] const FieldSpec* field_spec(std::string_view path);

/// Path split at its slashes.
[[nodiscard]] std::vector<std::string> path_parts(std::string_view path);

/// Whether a field holds a list of pairs.
[[nodiscard]] bool is_list_of_pairs(FieldKind kind);

/// Whether a field holds one plain number with a unit of its own, neither a length nor an angle.
[[nodiscard]] bool is_amount(FieldKind kind);

/// Whether a unit may stand with a kind of field.
[[nodiscard]] bool unit_fits(FieldKind kind, std::string_view unit);

} // namespace rodway
