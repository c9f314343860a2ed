#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/units/typed_text.h"

namespace rodway {

/// One pass over a bolt: to a torque, on by an angle from where it then stands, or both; or until
/// it is longer by so much.
struct TighteningStep {
    std::optional<double> torque_Nm;
    std::optional<double> turn_deg;
    std::optional<double> stretch_mm;
};

/// Reads how a bolt is tightened, step by step: "45/65/65+90" (45, 65, then 65 and 90 degrees on),
/// "20 then 1/4 turn", "60+80 deg", "20 Nm + 90 + 90", "stretch .006". A torque without a unit has
/// that of the next one behind it, or `torque_unit`; an angle without one is degrees; a stretch is
/// read as `parse_length` reads it.
/// Errors: empty_text; not_an_amount (`expected` holds the units of torque), also for a range, for
/// what is less than nothing and for more than 20 steps; of a stretch, as `parse_length`.
Result<std::vector<TighteningStep>> parse_tightening(std::string_view text,
                                                     std::string_view torque_unit, BareNumber bare);

} // namespace rodway
