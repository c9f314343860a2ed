#include "core/sheets/kinds/work_out.h"

#include <algorithm>
#include <cmath>

namespace rodway {

SheetLimit common_practice(std::string_view quantity, std::optional<double> low,
                           std::optional<double> high, std::string position, LimitFor holds_for) {
    SheetLimit limit;
    limit.quantity = quantity;
    limit.position = std::move(position);
    limit.low = low;
    limit.high = high;
    limit.holds_for = holds_for;
    limit.usual = UsualSource::common_practice;
    return limit;
}

std::optional<Interval> spread_at(const TakenReadings& readings, std::string_view quantity,
                                  PlacePart part, std::string_view name) {
    std::optional<Interval> spread;
    for (const Taken& taken : readings.of(quantity)) {
        const auto range = taken.range();
        if (!range || taken.place.part(part) != name) {
            continue;
        }
        if (!spread) {
            spread = range;
        }
        spread->low = std::min(spread->low, range->low);
        spread->high = std::max(spread->high, range->high);
    }
    return spread;
}

std::vector<std::string> parts_read(const TakenReadings& readings,
                                    const std::vector<std::string_view>& quantities,
                                    PlacePart part) {
    std::vector<std::string> names;
    for (const std::string_view quantity : quantities) {
        for (const Taken& taken : readings.of(quantity)) {
            const auto name = taken.place.part(part);
            if (name && std::find(names.begin(), names.end(), *name) == names.end()) {
                names.push_back(*name);
            }
        }
    }
    return names;
}

bool overlap(const Interval& a, const Interval& b) {
    const double last_bits = 1e-9 * (1.0 + std::abs(a.high) + std::abs(b.high));
    return a.high >= b.low - last_bits && b.high >= a.low - last_bits;
}

} // namespace rodway
