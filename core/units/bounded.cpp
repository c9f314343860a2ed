#include "core/units/bounded.h"

#include "core/units/typed_text.h"
#include "core/units/within.h"

namespace rodway {

std::optional<Error> outside(const std::string& field, const Bounded& number, const Limits& limits,
                             std::optional<int> line) {
    for (const double one : {number.value, number.low, number.high}) {
        if (auto bad = outside(field, one, limits, line)) {
            return bad;
        }
    }
    if (number.value < number.low || number.value > number.high) {
        return Error{ErrorCode::order_wrong,
                     field,
                     exact_text(number.value),
                     {},
                     line,
                     Limits{number.low, number.high, limits.unit}};
    }
    return std::nullopt;
}

} // namespace rodway
