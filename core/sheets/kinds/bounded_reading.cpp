#include "core/sheets/kinds/bounded_reading.h"

namespace rodway {

Bounded bounded(const Interval& range) {
    return Bounded::between(range.low, range.high);
}

Interval range_of(const Bounded& number) {
    return {number.low, number.high};
}

Interval rounded_from_zero(const Interval& range) {
    return range.middle() < 0.0 ? range : not_below_zero(range);
}

} // namespace rodway
