#include "core/sheets/kinds/read_diameters.h"

#include <algorithm>
#include <array>

namespace rodway {
namespace {

using Part = PlacePart;

constexpr std::array heights{Part::depth, Part::journal_end};
constexpr std::array directions{Part::bore_direction, Part::journal_direction};
/// Uppermost or foremost first.
constexpr std::array<std::string_view, 5> down{"top", "front", "middle", "bottom", "rear"};
constexpr std::array<std::string_view, 4> around{"thrust", "vertical", "pin", "horizontal"};

/// Which of the words one of these parts is; one past the last where none was written.
template <std::size_t size>
int index_of(const SheetPosition& place, const std::array<Part, 2>& parts,
             const std::array<std::string_view, size>& words) {
    for (const Part part : parts) {
        if (const auto word = place.part(part)) {
            return static_cast<int>(std::find(words.begin(), words.end(), *word) - words.begin());
        }
    }
    return static_cast<int>(size);
}

std::vector<DiameterReading> only(const std::vector<DiameterReading>& readings,
                                  const std::vector<bool>& wanted) {
    std::vector<DiameterReading> some;
    for (std::size_t at = 0; at < readings.size(); ++at) {
        if (wanted[at]) {
            some.push_back(readings[at]);
        }
    }
    return some;
}

std::optional<Interval> size_of(const std::optional<DiameterDifference>& difference) {
    return difference ? std::optional(difference->size_mm) : std::nullopt;
}

} // namespace

std::optional<Interval> ReadDiameters::taper() const {
    return size_of(taper_of(only(readings, height_known)));
}

std::optional<Interval> ReadDiameters::out_of_round() const {
    return size_of(out_of_round_of(only(readings, direction_known)));
}

ReadDiameters diameters_at(const TakenReadings& readings, std::string_view quantity, Part part,
                           std::string_view name) {
    ReadDiameters found;
    for (const Taken& taken : readings.of(quantity)) {
        const auto range = taken.range();
        if (!range || taken.place.part(part) != name) {
            continue;
        }
        const DiameterReading reading{index_of(taken.place, heights, down),
                                      index_of(taken.place, directions, around), *range};
        if (wrong_diameter("diameter", reading, 1)) {
            continue;
        }
        found.readings.push_back(reading);
        found.positions.push_back(sheet_position_text(taken.place));
        found.height_known.push_back(reading.along < static_cast<int>(down.size()));
        found.direction_known.push_back(reading.around < static_cast<int>(around.size()));
    }
    return found;
}

} // namespace rodway
