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

void add_beside_reading(SheetOutcome& outcome, const TakenReadings& readings,
                        std::string_view quantity, const std::string& position,
                        const Interval& figure, Dimension dimension) {
    outcome.figures.push_back({std::string(quantity), position, figure});
    const auto written = readings.number(quantity, position);
    if (written && !overlap(*written, figure)) {
        outcome.findings.push_back({PointedOut::stated_differs,
                                    std::string(quantity),
                                    {position},
                                    {written->middle(), figure.low, figure.high},
                                    dimension});
    }
}

std::vector<Interval> numbers_of(const TakenReadings& readings, std::string_view quantity) {
    std::vector<Interval> numbers;
    for (const Taken& taken : readings.of(quantity)) {
        if (const auto range = taken.range()) {
            numbers.push_back(*range);
        }
    }
    return numbers;
}

bool overlap(const Interval& a, const Interval& b) {
    const double last_bits = 1e-9 * (1.0 + std::abs(a.high) + std::abs(b.high));
    return a.high >= b.low - last_bits && b.high >= a.low - last_bits;
}

} // namespace rodway
