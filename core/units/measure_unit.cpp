#include "core/units/measure_unit.h"

#include <algorithm>
#include <array>

#include "core/units/force.h"
#include "core/units/length.h"
#include "core/units/mass.h"
#include "core/units/power.h"
#include "core/units/pressure.h"
#include "core/units/temperature.h"
#include "core/units/torque.h"
#include "core/units/volume.h"

namespace rodway {
namespace {

using Of = Dimension;

// The dimensions stand together, each with the unit in which it is held first.
constexpr std::array units{
    MeasureUnit{"mm", Of::length, 1.0, 0.0, ""},
    MeasureUnit{"in", Of::length, Length::mm_per_inch, 0.0, ""},
    MeasureUnit{"deg", Of::angle, 1.0, 0.0, "deg degs degree degrees"},
    MeasureUnit{"turn", Of::angle, 360.0, 0.0, "turn turns"},
    MeasureUnit{"deg", Of::crank_angle, 1.0, 0.0,
                "deg degs degree degrees crank degcrank degreescrank crankdeg crankdegrees"},
    MeasureUnit{"cam", Of::crank_angle, 2.0, 0.0, "cam degcam degreescam camdeg camdegrees"},
    MeasureUnit{"atdc", Of::crank_angle, 1.0, 0.0, "atdc degatdc degreesatdc", true},
    MeasureUnit{"btdc", Of::crank_angle, -1.0, 0.0, "btdc degbtdc degreesbtdc", true},
    MeasureUnit{"abdc", Of::crank_angle, 1.0, 180.0, "abdc degabdc degreesabdc", true},
    MeasureUnit{"bbdc", Of::crank_angle, -1.0, 180.0, "bbdc degbbdc degreesbbdc", true},
    MeasureUnit{"deg", Of::cam_angle, 1.0, 0.0,
                "deg degs degree degrees cam degcam degreescam camdeg camdegrees"},
    MeasureUnit{"crank", Of::cam_angle, 0.5, 0.0,
                "crank degcrank degreescrank crankdeg crankdegrees"},
    MeasureUnit{"N", Of::force, 1.0, 0.0, "n newton newtons"},
    // "125 psi on the seat" is said of springs and means pounds-force.
    MeasureUnit{"lbf", Of::force, Force::N_per_lbf, 0.0, "lbf lb lbs pound pounds # psi"},
    MeasureUnit{"kgf", Of::force, 9.80665, 0.0, "kgf kg kilo kilos"},
    MeasureUnit{"g", Of::mass, 1.0, 0.0, "g gram grams gm gms"},
    MeasureUnit{"kg", Of::mass, Mass::g_per_kg, 0.0, "kg kgs kilo kilos"},
    MeasureUnit{"oz", Of::mass, Mass::g_per_oz, 0.0, "oz ounce ounces"},
    MeasureUnit{"lb", Of::mass, Mass::g_per_lb, 0.0, "lb lbs pound pounds #"},
    MeasureUnit{"cc", Of::volume, 1.0, 0.0, "cc ccs cm3 ml"},
    MeasureUnit{"l", Of::volume, Volume::cc_per_litre, 0.0, "l litre litres liter liters"},
    MeasureUnit{"ci", Of::volume, Volume::cc_per_cubic_inch, 0.0,
                "ci cid cuin in3 cubicinch cubicinches"},
    MeasureUnit{"qt", Of::volume, Volume::cc_per_us_quart, 0.0, "qt qts quart quarts"},
    MeasureUnit{"kPa", Of::pressure, 1.0, 0.0, "kpa"},
    MeasureUnit{"psi", Of::pressure, Pressure::kPa_per_psi, 0.0, "psi lb lbs pound pounds #"},
    MeasureUnit{"bar", Of::pressure, Pressure::kPa_per_bar, 0.0, "bar"},
    MeasureUnit{"mbar", Of::pressure, 0.1, 0.0, "mbar hpa millibar"},
    MeasureUnit{"inHg", Of::pressure, Pressure::kPa_per_inHg, 0.0, "inhg \"hg incheshg"},
    MeasureUnit{"degC", Of::temperature, 1.0, 0.0, "c degc degreesc celsius"},
    MeasureUnit{"degF", Of::temperature, 1.0 / Temperature::degF_per_degC,
                -Temperature::degF_at_freezing / Temperature::degF_per_degC,
                "f degf degreesf fahrenheit"},
    MeasureUnit{"Nm", Of::torque, 1.0, 0.0, "nm"},
    MeasureUnit{"lb-ft", Of::torque, Torque::Nm_per_lbf_ft, 0.0,
                "lbft lbsft lbfft ftlb ftlbs ftlbf footlb footlbs footpounds footpound poundfeet "
                "ft/lb ft/lbs"},
    MeasureUnit{
        "in-lb", Of::torque, Torque::Nm_per_lbf_in, 0.0,
        "inlb inlbs inlbf lbin lbsin lbfin inchlb inchlbs inchpounds inchpound poundinches"},
    MeasureUnit{"kgf-m", Of::torque, Torque::Nm_per_kgf_m, 0.0, "kgfm kgm mkg mkgf"},
    MeasureUnit{"kW", Of::power, 1.0, 0.0, "kw"},
    MeasureUnit{"hp", Of::power, Power::kW_per_hp, 0.0, "hp horsepower bhp"},
    MeasureUnit{"PS", Of::power, Power::kW_per_metric_hp, 0.0, "ps cv"},
    MeasureUnit{"rpm", Of::speed, 1.0, 0.0, "rpm revs rev/min r/min"},
    MeasureUnit{"s", Of::time, 1.0, 0.0, "s sec secs second seconds"},
    MeasureUnit{"min", Of::time, 60.0, 0.0, "min mins minute minutes"},
    MeasureUnit{"h", Of::time, 3600.0, 0.0, "h hr hrs hour hours"},
    MeasureUnit{"%", Of::percent, 1.0, 0.0, "% percent pct"},
    MeasureUnit{"m", Of::altitude, 1.0, 0.0, "m metre metres meter meters"},
    MeasureUnit{"ft", Of::altitude, 0.3048, 0.0, "ft feet foot"},
    MeasureUnit{"N/mm", Of::spring_rate, 1.0, 0.0, "n/mm"},
    MeasureUnit{"lb/in", Of::spring_rate, Force::N_per_lbf / Length::mm_per_inch, 0.0,
                "lb/in lbs/in lbf/in lb/inch lbs/inch pounds/inch #/in"},
};

} // namespace

std::span<const MeasureUnit> units_of(Dimension dimension) {
    const auto of_it = [&](const MeasureUnit& unit) { return unit.dimension == dimension; };
    const auto first = std::find_if(units.begin(), units.end(), of_it);
    return {first, std::find_if_not(first, units.end(), of_it)};
}

const MeasureUnit* find_unit(Dimension dimension, std::string_view id) {
    const auto of_it = units_of(dimension);
    const auto found = std::find_if(of_it.begin(), of_it.end(),
                                    [&](const MeasureUnit& unit) { return unit.id == id; });
    return found == of_it.end() ? nullptr : &*found;
}

std::string unit_ids(Dimension dimension) {
    std::string ids;
    for (const MeasureUnit& unit : units_of(dimension)) {
        ids += ids.empty() ? "" : " ";
        ids += unit.id;
    }
    return ids;
}

} // namespace rodway
