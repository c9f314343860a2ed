#include "core/tubes/tube_wall.h"

#include <algorithm>

namespace rodway {

Result<TubeWall> tube_wall(const TubeWallReadings& readings, double least_mm) {
    const Limits walls{0.0, 50.0, "mm"};
    if (const auto bad = first_outside(
            {{"before", readings.before_mm, walls},
             {"relieved_by", readings.relieved_by_mm, walls},
             {"after", readings.measured_after_mm.value_or(Interval::exactly(0.0)), walls},
             {"least", Interval::exactly(least_mm), walls}})) {
        return *bad;
    }
    const Interval meant_mm = readings.before_mm - readings.relieved_by_mm;
    TubeWall wall;
    wall.left_mm = meant_mm;
    if (readings.measured_after_mm) {
        const Interval& after_mm = *readings.measured_after_mm;
        wall.gone_astray_mm = meant_mm - after_mm;
        wall.left_mm = meant_mm.meets(after_mm) ? Interval{std::max(meant_mm.low, after_mm.low),
                                                           std::min(meant_mm.high, after_mm.high)}
                                                : after_mm;
    }
    wall.left_mm = not_below_zero(wall.left_mm);
    wall.may_be_taken_mm = not_below_zero(wall.left_mm - Interval::exactly(least_mm));
    return wall;
}

Result<Interval> tube_wall_by_diameters(const Interval& outside_mm, const Interval& bore_mm,
                                        const Interval& off_centre_mm) {
    const Limits sizes{3.0, 100.0, "mm"};
    if (const auto bad = first_outside({{"outside", outside_mm, sizes},
                                        {"bore", bore_mm, sizes},
                                        {"off_centre", off_centre_mm, {0.0, 10.0, "mm"}}})) {
        return *bad;
    }
    return (outside_mm - bore_mm) / 2.0 - off_centre_mm;
}

} // namespace rodway
