#include "core/bottom_end/size_table.h"

#include <algorithm>
#include <map>
#include <utility>

#include "core/base/assert.h"
#include "core/units/within.h"

namespace rodway {
namespace {

/// One line of the table: all places along in one direction, or all directions at one place.
struct TableLine {
    std::vector<int> places;
    std::vector<Interval> sizes;
};

std::map<int, TableLine> lines_of(const std::vector<DiameterReading>& readings, bool along) {
    std::map<int, TableLine> lines;
    for (const DiameterReading& reading : readings) {
        TableLine& line = lines[along ? reading.around : reading.along];
        line.places.push_back(along ? reading.along : reading.around);
        line.sizes.push_back(reading.diameter_mm);
    }
    return lines;
}

/// The greatest difference on any line. What it can be is at least what every line says.
std::optional<DiameterDifference> greatest_difference(const std::map<int, TableLine>& lines) {
    std::optional<DiameterDifference> greatest;
    double greatest_mm = -1.0;
    Interval size_mm;
    for (const auto& [at, line] : lines) {
        const auto spread = reading_spread(line.sizes);
        if (!spread) {
            continue;
        }
        const auto [narrow, wide] = std::minmax_element(
            line.sizes.begin(), line.sizes.end(),
            [](const auto& a, const auto& b) { return a.middle() < b.middle(); });
        const auto place = [&, &sizes = line.sizes, &places = line.places](auto found) {
            return places[static_cast<std::size_t>(found - sizes.begin())];
        };
        const double by_middle_mm = wide->middle() - narrow->middle();
        size_mm = {std::max(size_mm.low, spread->low), std::max(size_mm.high, spread->high)};
        if (by_middle_mm > greatest_mm) {
            greatest_mm = by_middle_mm;
            greatest = DiameterDifference{{}, at, place(wide), place(narrow)};
        }
    }
    if (greatest) {
        greatest->size_mm = size_mm;
    }
    return greatest;
}

} // namespace

std::vector<DiameterReading> last_readings(const std::vector<DiameterReading>& readings) {
    std::map<std::pair<int, int>, DiameterReading> by_place;
    for (const DiameterReading& reading : readings) {
        by_place[{reading.along, reading.around}] = reading;
    }
    std::vector<DiameterReading> last;
    last.reserve(by_place.size());
    for (const auto& [place, reading] : by_place) {
        last.push_back(reading);
    }
    return last;
}

std::optional<DiameterDifference> taper_of(const std::vector<DiameterReading>& readings) {
    return greatest_difference(lines_of(readings, true));
}

std::optional<DiameterDifference> out_of_round_of(const std::vector<DiameterReading>& readings) {
    return greatest_difference(lines_of(readings, false));
}

Interval mean_diameter_mm(const std::vector<DiameterReading>& readings) {
    RODWAY_ASSERT(!readings.empty());
    Interval sum;
    for (const DiameterReading& reading : readings) {
        sum = sum + reading.diameter_mm;
    }
    return sum * (1.0 / static_cast<double>(readings.size()));
}

std::optional<Error> wrong_diameter(const char* field, const DiameterReading& reading, int line) {
    if (auto bad = outside("along", reading.along, {0.0, 20.0, {}}, line)) {
        return bad;
    }
    if (auto bad = outside("around", reading.around, {0.0, 20.0, {}}, line)) {
        return bad;
    }
    return wrong_interval(field, reading.diameter_mm, {5.0, 1000.0, "mm"}, line);
}

} // namespace rodway
