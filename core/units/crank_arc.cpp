#include "core/units/crank_arc.h"

#include <cmath>

#include "core/units/typed_text.h"

namespace rodway {
namespace {

constexpr double rounding_deg = 1e-9;

} // namespace

double degrees_ahead(CrankAngle from, CrankAngle to) {
    const double ahead = (to - from).in_cycle().in_deg();
    return ahead > 720.0 - rounding_deg || ahead < rounding_deg ? 0.0 : ahead;
}

bool CrankArc::holds(CrankAngle crank) const {
    return degrees_ahead(from, crank) <= span_deg + rounding_deg;
}

Result<Done> check_crank_angle(CrankAngle crank, std::string_view field) {
    if (!std::isfinite(crank.in_deg())) {
        return Error{ErrorCode::not_an_angle,
                     std::string(field),
                     exact_text(crank.in_deg()),
                     {},
                     std::nullopt,
                     std::nullopt};
    }
    return Done{};
}

} // namespace rodway
