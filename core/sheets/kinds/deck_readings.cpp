#include "core/sheets/kinds/deck_readings.h"

#include <array>
#include <utility>
#include <vector>

namespace rodway {
namespace {

/// Mean of what was read at one side of a cylinder; of no side where `side` is nothing.
std::optional<Interval> at_side(const TakenReadings& readings, const std::string& cylinder,
                                const std::optional<std::string>& side) {
    std::vector<Interval> values;
    for (const Taken& taken : readings.of("deck_clearance")) {
        const auto range = taken.range();
        if (range && taken.place.part(PlacePart::cylinder) == cylinder &&
            taken.place.part(PlacePart::side) == side) {
            values.push_back(*range);
        }
    }
    return values.empty() ? std::nullopt : std::optional(mean_of(values));
}

} // namespace

DeckReadings deck_readings(const TakenReadings& readings, const std::string& cylinder) {
    DeckReadings found;
    found.over_pin = at_side(readings, cylinder, std::nullopt);
    const auto thrust = at_side(readings, cylinder, "thrust");
    const auto antithrust = at_side(readings, cylinder, "antithrust");
    if (thrust && antithrust) {
        found.rock = magnitude(*thrust - *antithrust);
    }
    bool half_a_pair = false;
    std::vector<Interval> sides;
    for (const auto& [one, opposite] :
         {std::pair(thrust, antithrust),
          std::pair(at_side(readings, cylinder, "front"), at_side(readings, cylinder, "rear"))}) {
        half_a_pair = half_a_pair || one.has_value() != opposite.has_value();
        if (one && opposite) {
            sides.insert(sides.end(), {*one, *opposite});
        }
    }
    found.by_sides = !half_a_pair && !sides.empty();
    found.mean = found.by_sides ? std::optional(mean_of(sides)) : found.over_pin;
    return found;
}

std::optional<Interval> deck_height_mm(const TakenReadings& readings, const std::string& cylinder) {
    const auto mean = deck_readings(readings, cylinder).mean;
    return mean ? mean : readings.number("deck_clearance_mean", cylinder);
}

} // namespace rodway
