#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"

namespace rodway {

enum class TighteningKind {
    snug,    ///< by hand, until it sits: no number
    torque,  ///< to a torque
    angle,   ///< on by an angle
    stretch, ///< until it is so much longer
    loosen,  ///< back off: no number
};

/// One step of tightening; every bolt of the joint goes through it before the next.
struct TighteningStep {
    TighteningKind kind = TighteningKind::torque;
    /// N m, degrees or mm, by kind; `low` and `high` differ for a band ("40-45 lb-ft", "stretch
    /// .0055-.0060"). Without meaning for snug and loosen.
    double low = 0.0;
    double high = 0.0;
    std::string unit = {}; ///< identity of the unit it was typed in: "lb-ft", "turn", "in" …

    [[nodiscard]] bool has_number() const {
        return kind != TighteningKind::snug && kind != TighteningKind::loosen;
    }
    bool operator==(const TighteningStep&) const = default;
};

/// Reads how a joint is tightened, the way makers print it and builders write it: "45/65/65+90",
/// "20 then 1/4 turn", "60+80 deg", "stretch .006", "25 Nm, 60 deg, 60 deg", "snug then half a
/// turn", "60, loosen, 20 + 90°". Units: lb-ft, in-lb, Nm, kgf-m; deg, turn; in, thou, mm.
///
/// It is read only if it has one meaning. Behind "+", "plus" and "turn" stands an angle, in degrees
/// unless it says turn. "/" goes on from torque to torque. Behind "then" and a comma a number
/// without a unit may be either. Of the meanings that leaves, those drop out that can't be: a
/// torque less than the one before, or behind an angle, without loosening between; an angle with
/// nothing before it that seats the bolt. So "20, 45, 65 lb-ft" and "100 lb-ft then 90" have one
/// meaning, "35 lb-ft then 90" has two.
/// A torque without a unit takes the next one in the text, else, behind a slash, the one before;
/// behind "then" it may as well be in `bare_torque_unit`, an identity such as "lb-ft". Without
/// either it is refused.
///
/// Errors, field "tightening": empty_text; wrong_type (`expected` "tightening_steps") for what
/// can't be read; not_a_choice for several meanings (`expected` holds up to three, as
/// `tightening_steps_text`); not_an_amount (`expected` holds the units) for a torque without a
/// unit; missing_field for an angle with nothing before it; out_of_range: torque 0.1 to 2000 N m
/// and no less than the one before, in the unit typed; angle 5 to 720 degrees; stretch 0.01 to
/// 2 mm.
Result<std::vector<TighteningStep>> parse_tightening_steps(std::string_view text,
                                                           std::string_view bare_torque_unit);

/// The steps in one spelling, every number with its unit, without blanks: "45lb-ft/65lb-ft+90deg".
/// `parse_tightening_steps` reads it back, numbers to six decimals.
[[nodiscard]] std::string tightening_steps_text(const std::vector<TighteningStep>& steps);

} // namespace rodway
