#include "core/sheets/kinds/pull_air.h"

#include <algorithm>

#include "core/sheets/kinds/refused_reading.h"
#include "core/sheets/kinds/work_out.h"

namespace rodway {
namespace {

/// Reads one pull's weather, and notes what is missing.
class AirReader {
  public:
    AirReader(const TakenReadings& readings, const std::string& pull)
        : readings_(readings), pull_(pull) {
        const auto pressure = needed("pull_air_pressure");
        air.weather.barometer = Pressure::kPa(pressure.middle());
        air.steps.barometer_kPa = width(pressure);
        read_kind();
        const auto dry_bulb = needed("pull_dry_bulb");
        air.weather.dry_bulb = Temperature::degC(dry_bulb.middle());
        air.steps.dry_bulb_degC = width(dry_bulb);
        read_humidity();
    }

    PullAir air;
    std::vector<std::string_view> missing;

  private:
    static double width(const Interval& range) { return range.high - range.low; }

    [[nodiscard]] std::optional<Interval> number(std::string_view quantity) const {
        return readings_.number(quantity, pull_);
    }
    Interval needed(std::string_view quantity) {
        const auto range = number(quantity);
        if (!range) {
            missing.push_back(quantity);
        }
        return range.value_or(Interval{});
    }
    void read_kind() {
        const auto kind = readings_.word("pull_barometer_kind", pull_);
        if (!kind) {
            missing.push_back("pull_barometer_kind");
            return;
        }
        const bool at_sea_level = *kind == "sea_level";
        air.weather.barometer_kind =
            at_sea_level ? BarometerKind::sea_level : BarometerKind::station;
        if (at_sea_level) {
            const auto altitude = needed("pull_altitude");
            air.weather.altitude_m = altitude.middle();
            air.steps.altitude_m = width(altitude);
        }
    }
    /// Of the two ways one is enough; with both, the humidity counts.
    void read_humidity() {
        const auto wet_bulb = number("pull_wet_bulb");
        if (wet_bulb && !number("pull_humidity")) {
            air.weather.wet_bulb = Temperature::degC(wet_bulb->middle());
            air.steps.wet_bulb_degC = width(*wet_bulb);
            return;
        }
        const auto humidity = needed("pull_humidity");
        air.weather.relative_humidity_percent = humidity.middle();
        air.steps.relative_humidity_percent = width(humidity);
    }

    const TakenReadings& readings_;
    const std::string& pull_;
};

/// Only who has begun on the weather, or corrects by it, is told what it still needs.
bool weather_begun(const TakenReadings& readings, const std::string& pull) {
    const auto written = {"pull_air_pressure", "pull_dry_bulb", "pull_humidity", "pull_wet_bulb"};
    return readings.word("pull_correction", pull).value_or("none") != "none" ||
           std::any_of(written.begin(), written.end(), [&](const char* quantity) {
               return readings.number(quantity, pull).has_value();
           });
}

void put_air(const PullAir& air, const std::string& pull, SheetOutcome& outcome) {
    const auto put = [&](const char* quantity, const auto& figure) {
        outcome.figures.push_back({quantity, pull, over_airs(air, figure)});
    };
    put("pull_station_pressure", [](const WeatherAir& one) { return one.total.in_kPa(); });
    put("pull_vapour_pressure", [](const WeatherAir& one) { return one.vapour.in_kPa(); });
    put("pull_dry_pressure", [](const WeatherAir& one) { return one.dry.in_kPa(); });
    put("pull_air_density", [](const WeatherAir& one) { return one.density_kg_per_m3; });
    if (air.weather.wet_bulb) {
        put("pull_humidity", [](const WeatherAir& one) { return one.relative_humidity_percent; });
    }
}

/// A wet bulb beside a hygrometer is a second way to the same humidity.
void compare_wet_bulb(const PullAir& air, const TakenReadings& readings, const std::string& pull,
                      SheetOutcome& outcome) {
    const auto wet_bulb = readings.number("pull_wet_bulb", pull);
    const auto humidity = readings.number("pull_humidity", pull);
    if (!wet_bulb || !humidity) {
        return;
    }
    PullAir by_wet_bulb = air;
    by_wet_bulb.weather.relative_humidity_percent.reset();
    by_wet_bulb.weather.wet_bulb = Temperature::degC(wet_bulb->middle());
    by_wet_bulb.steps.wet_bulb_degC = wet_bulb->high - wet_bulb->low;
    const auto airs = airs_within(by_wet_bulb.weather, by_wet_bulb.steps);
    if (!airs) {
        point_out_refused(airs.error(), "pull_humidity", pull, air_readings(), outcome);
        return;
    }
    by_wet_bulb.airs = *airs;
    const Interval other =
        over_airs(by_wet_bulb, [](const WeatherAir& one) { return one.relative_humidity_percent; });
    if (!overlap(*humidity, other)) {
        outcome.findings.push_back({PointedOut::methods_differ,
                                    "pull_humidity",
                                    {pull},
                                    {humidity->middle(), other.low, other.high},
                                    Dimension::percent});
    }
}

} // namespace

const std::vector<ReadingOfField>& air_readings() {
    static const std::vector<ReadingOfField> fields{
        {"barometer", "pull_air_pressure"}, {"altitude", "pull_altitude"},
        {"dry_bulb", "pull_dry_bulb"},      {"relative_humidity", "pull_humidity"},
        {"wet_bulb", "pull_wet_bulb"},      {"factor", "pull_correction_factor"},
    };
    return fields;
}

Interval over_airs(const PullAir& air, const std::function<double(const WeatherAir&)>& figure) {
    Interval range = Interval::exactly(figure(air.airs.front()));
    for (const WeatherAir& one : air.airs) {
        range = hull(range, Interval::exactly(figure(one)));
    }
    return range;
}

std::optional<PullAir> work_out_air(const SheetFacts& facts, const std::string& pull,
                                    SheetOutcome& outcome) {
    AirReader reader(facts.readings, pull);
    if (!reader.missing.empty()) {
        for (const std::string_view reading : reader.missing) {
            if (weather_begun(facts.readings, pull)) {
                point_out_needed("pull_dry_pressure", pull, reading, outcome);
            }
        }
        return std::nullopt;
    }
    auto airs = airs_within(reader.air.weather, reader.air.steps);
    if (!airs) {
        point_out_refused(airs.error(), "pull_dry_pressure", pull, air_readings(), outcome);
        return std::nullopt;
    }
    reader.air.airs = std::move(airs).value();
    put_air(reader.air, pull, outcome);
    compare_wet_bulb(reader.air, facts.readings, pull, outcome);
    return reader.air;
}

} // namespace rodway
