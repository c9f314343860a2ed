#include "core/units/within.h"

#include <cmath>

#include "core/units/typed_text.h"

namespace rodway {

std::optional<Error> outside(const std::string& field, double value, const Limits& limits,
                             std::optional<int> line) {
    if (!std::isfinite(value)) {
        return Error{ErrorCode::not_a_number, field, std::to_string(value), {}, line, limits};
    }
    if (value < limits.low || value > limits.high) {
        return Error{ErrorCode::out_of_range, field, exact_text(value), {}, line, limits};
    }
    return std::nullopt;
}

} // namespace rodway
