#include "core/sheets/kinds/cylinder_room.h"

#include <cmath>

#include "core/sheets/kinds/deck_readings.h"
#include "core/sheets/kinds/engine_size.h"
#include "core/sheets/kinds/work_out.h"

namespace rodway {
namespace {

/// Takes numbers, and notes what is missing.
class RoomReader {
  public:
    RoomReader(const SheetFacts& facts, std::string cylinder)
        : facts_(facts), cylinder_(std::move(cylinder)) {}

    Bounded needed(std::string_view quantity, const std::optional<Bounded>& number) {
        if (!number) {
            missing.push_back(quantity);
        }
        return number.value_or(Bounded{});
    }
    Bounded chamber() {
        const auto range = at("chamber_volume");
        return needed("chamber_volume",
                      range ? std::optional(bounded(rounded_from_zero(*range))) : std::nullopt);
    }
    /// Above 0 a dome, below it a dish.
    Interval dome() {
        const auto range = at("dome_volume");
        needed("dome_volume", range ? std::optional(bounded(*range)) : std::nullopt);
        return range.value_or(Interval{});
    }
    Bounded deck() {
        const auto height_mm = deck_height_mm(facts_.readings, cylinder_);
        return needed("deck_clearance",
                      height_mm ? std::optional(bounded(*height_mm)) : std::nullopt);
    }
    HeadGasket gasket() {
        HeadGasket found;
        found.compressed_mm = once("gasket_compressed");
        found.volume_cc = once("gasket_volume");
        if (!found.volume_cc) {
            found.bore_mm = needed("gasket_bore", once("gasket_bore"));
            needed("gasket_compressed", found.compressed_mm);
        }
        return found;
    }
    [[nodiscard]] std::optional<Bounded> once(std::string_view quantity) const {
        const auto number = facts_.readings.number(quantity);
        return number ? std::optional(bounded(rounded_from_zero(*number))) : std::nullopt;
    }

    std::vector<std::string_view> missing;

  private:
    [[nodiscard]] std::optional<Interval> at(std::string_view quantity) const {
        return facts_.readings.number(quantity, cylinder_);
    }

    const SheetFacts& facts_;
    std::string cylinder_;
};

} // namespace

CylinderRoom cylinder_room(const SheetFacts& facts, const std::string& cylinder) {
    RoomReader reader(facts, cylinder);
    CylinderAtTop top;
    top.size.bore_mm = reader.needed("bore", bore_of(facts, cylinder));
    top.size.stroke_mm = reader.needed("stroke", stroke_of(facts, cylinder));
    top.chamber_cc = reader.chamber();
    const Interval dome = reader.dome();
    top.dome_cc = bounded(not_below_zero(dome));
    top.dish_cc = bounded(not_below_zero(-dome));
    top.gasket = reader.gasket();
    top.deck_mm = reader.deck();
    top.crevice_cc = reader.once("crevice_volume").value_or(Bounded{});
    CylinderRoom room{std::nullopt, reader.missing};
    if (room.missing.empty()) {
        room.cylinder = top;
    }
    return room;
}

std::vector<std::string> cylinders_with_room(const SheetFacts& facts) {
    return facts.engine != nullptr ? all_cylinders(facts)
                                   : parts_read(facts.readings,
                                                {"chamber_volume", "dome_volume", "deck_clearance",
                                                 "deck_clearance_mean", "bore", "stroke"},
                                                PlacePart::cylinder);
}

std::optional<Bounded> rod_length_mm(const SheetFacts& facts, const std::string& cylinder) {
    if (const auto read = facts.readings.number("connecting_rod_length", cylinder)) {
        return bounded(*read);
    }
    if (facts.engine != nullptr && facts.engine->connecting_rod_mm) {
        return Bounded::exactly(*facts.engine->connecting_rod_mm);
    }
    return std::nullopt;
}

std::optional<Bounded> intake_closes_crank_deg(const SheetFacts& facts) {
    constexpr double bottom_deg = 180.0;
    constexpr double turn_deg = 360.0;
    const auto after_top = facts.readings.number("dynamic_intake_closing");
    if (!after_top) {
        return std::nullopt;
    }
    // Any of the angles that are a turn apart may have been written: 240 and -120 are one place.
    const double from_bottom = after_top->middle() - bottom_deg;
    const double turns = std::floor((from_bottom + turn_deg / 2.0) / turn_deg);
    const double back = bottom_deg + turns * turn_deg;
    return bounded({after_top->low - back, after_top->high - back});
}

const std::vector<ReadingOfField>& room_readings() {
    static const std::vector<ReadingOfField> fields{
        {"bore", "bore"},
        {"stroke", "stroke"},
        {"chamber", "chamber_volume"},
        {"dome", "dome_volume"},
        {"dish", "dome_volume", -1.0},
        {"gasket_compressed", "gasket_compressed"},
        {"gasket_bore", "gasket_bore"},
        {"gasket_volume", "gasket_volume"},
        {"deck", "deck_clearance"},
        {"crevice", "crevice_volume"},
        {"clearance", "clearance_volume"},
        {"ratio", "compression_target"},
        {"connecting_rod", "connecting_rod_length"},
        {"intake_closes", "dynamic_intake_closing", 1.0, 180.0},
    };
    return fields;
}

} // namespace rodway
