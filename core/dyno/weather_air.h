#pragma once

#include <optional>

#include "core/base/result.h"
#include "core/units/pressure.h"
#include "core/units/temperature.h"

namespace rodway {

/// Where a barometer's figure belongs. A weather report's is brought down to sea level; far above
/// it the two are so different that one is never taken for the other: whoever asks must know.
enum class BarometerKind {
    station,   ///< the pressure of the air in the room
    sea_level, ///< an altimeter setting: wants the altitude
};

/// The weather of a pull, as read. Of humidity and wet bulb one is wanted, and not both.
struct Weather {
    Pressure barometer;                          ///< station: 50 to 110 kPa; sea level: 90 to 110
    std::optional<BarometerKind> barometer_kind; ///< wanted: never assumed
    std::optional<double> altitude_m; ///< of the room, -500 to 5000; wanted with `sea_level`
    Temperature dry_bulb;             ///< of the air that the engine takes in, -20 to 60 degC
    std::optional<double> relative_humidity_percent; ///< 0 to 100
    std::optional<Temperature> wet_bulb;             ///< 0 degC to dry bulb
};

/// The air of a pull.
struct WeatherAir {
    Temperature dry_bulb;
    Pressure total;
    Pressure vapour;
    Pressure dry; ///< total less vapour
    double relative_humidity_percent = 0.0;
    double density_kg_per_m3 = 0.0;
};

/// Errors: not_a_number, out_of_range ("barometer", "altitude", "dry_bulb", "relative_humidity",
/// "wet_bulb": below its least, the air would be drier than dry); missing_field ("barometer_kind",
/// "altitude", "relative_humidity"); not_of_this_kind ("wet_bulb" where a humidity is given too:
/// `expected` "relative_humidity").
Result<WeatherAir> weather_air(const Weather& weather);

/// Vapour pressure over water of air that can take no more: 0.61121·exp((18.678 - t/234.5)·
/// t/(257.14 + t)) kPa. Source: Buck, J. Appl. Meteorol. 20 (1981) 1527, with the coefficients of
/// 1996; within 0.05 % of IAPWS-95 from 10 to 50 degC. `air`: -20 to 60 degC.
[[nodiscard]] Pressure saturation_vapour(Temperature air);

/// Vapour pressure by two thermometers in a draught: that of saturation at the wet one, less
/// 6.53e-4·(1 + 0.000944·t_wet)·p·(t_dry - t_wet), the wick not frozen. Below 0 where no air is so
/// dry. Source: WMO-No. 8, Guide to Meteorological Instruments, Annex 4.B (from memory).
[[nodiscard]] Pressure vapour_by_wet_bulb(Temperature dry_bulb, Temperature wet_bulb,
                                          Pressure station);
/// The other way round: what a wet bulb would show. `relative_humidity_percent`: 0 to 100. Below
/// freezing it is that of a wick that isn't frozen.
[[nodiscard]] Temperature wet_bulb_at(Temperature dry_bulb, double relative_humidity_percent,
                                      Pressure station);

/// Pressure at an altitude by an altimeter setting: p = p0·(1 - 0.0065·h/288.15)^5.25588, the
/// standard atmosphere's law (ISO 2533:1975) let down to today's pressure. `altitude_m`: -500 to
/// 5000. Meteorologists who reduce by the day's own temperatures differ from it, by some tenths of
/// a per cent at 1000 m.
[[nodiscard]] Pressure station_pressure(Pressure sea_level, double altitude_m);

/// Dry air and vapour as perfect gases, 287.05287 and 461.523 J/(kg K) (ISO 2533:1975; CODATA gas
/// constant over 18.01528 g/mol): within 0.06 % of CIPM-2007.
[[nodiscard]] double air_density_kg_per_m3(Pressure dry, Pressure vapour, Temperature air);

} // namespace rodway
