#include "core/sheets/kinds/worked_figures.h"

#include <utility>

#include "core/base/assert.h"
#include "core/sheets/kinds/work_out.h"
#include "core/sheets/sheet_kinds.h"

namespace rodway {

void WorkedFigures::add(std::string_view quantity, const std::string& position,
                        const std::optional<Interval>& value) {
    if (value) {
        outcome_.figures.push_back({std::string(quantity), position, *value});
    }
}

void WorkedFigures::add_beside_reading(std::string_view quantity, const std::string& position,
                                       const std::optional<Interval>& value, PointedOut differs) {
    add(quantity, position, value);
    const auto written = readings_.number(quantity, position);
    if (value && written && !overlap(*written, *value)) {
        point_out(differs, quantity, {position}, {written->middle(), value->low, value->high});
    }
}

void WorkedFigures::point_out(PointedOut what, std::string_view quantity,
                              std::vector<std::string> positions, std::vector<double> numbers,
                              std::string other) {
    const Quantity* known = find_quantity(quantity);
    RODWAY_ASSERT(known != nullptr);
    outcome_.findings.push_back({what, std::string(quantity), std::move(positions),
                                 std::move(numbers), dimension_of(known->form), std::move(other)});
}

std::vector<std::string> valves_read(const TakenReadings& readings,
                                     const std::vector<std::string_view>& quantities) {
    return parts_read(readings, quantities, PlacePart::valve);
}

ValvePosition valve_called(const std::string& kept) {
    const auto valve = parse_position(kept);
    RODWAY_ASSERT(valve.ok());
    return *valve;
}

} // namespace rodway
