#include "core/bottom_end/piston_wall.h"

#include <algorithm>
#include <cmath>

#include "core/units/within.h"

namespace rodway {
namespace {

std::optional<Error> wrong_piston(const PistonInBore& piston, int line) {
    const Limits sizes{10.0, 1000.0, "mm"};
    if (piston.piston_mm) {
        if (auto bad = wrong_interval("piston", *piston.piston_mm, sizes, line)) {
            return bad;
        }
    }
    if (piston.bore_mm) {
        if (auto bad = wrong_interval("bore", *piston.bore_mm, sizes, line)) {
            return bad;
        }
    }
    return piston.gauge_height_mm
               ? outside("gauge_height", *piston.gauge_height_mm, {0.0, 300.0, "mm"}, line)
               : std::nullopt;
}

/// The height at which most skirts were measured, the first of equals.
std::optional<double> usual_gauge_height(const std::vector<PistonInBore>& pistons) {
    std::optional<double> usual;
    std::ptrdiff_t most = 0;
    for (const PistonInBore& piston : pistons) {
        const auto count =
            std::count_if(pistons.begin(), pistons.end(), [&](const PistonInBore& other) {
                return other.gauge_height_mm && other.gauge_height_mm == piston.gauge_height_mm;
            });
        if (count > most) {
            most = count;
            usual = piston.gauge_height_mm;
        }
    }
    return usual;
}

} // namespace

Result<std::vector<PistonWall>> piston_walls(const std::vector<PistonInBore>& pistons,
                                             const SizeBand& wanted) {
    const auto usual_mm = usual_gauge_height(pistons);
    std::vector<PistonWall> walls;
    for (const PistonInBore& piston : pistons) {
        if (const auto bad = wrong_piston(piston, static_cast<int>(walls.size()) + 1)) {
            return *bad;
        }
        PistonWall wall;
        wall.cylinder = piston.cylinder;
        if (piston.piston_mm && piston.bore_mm) {
            wall.clearance_mm = *piston.bore_mm - *piston.piston_mm;
            wall.standing = stand_in(*wall.clearance_mm, wanted);
            wall.hone_mm = std::max(0.0, wanted.low_mm - wall.clearance_mm->low);
        }
        wall.gauge_height_unsure = piston.piston_mm.has_value() &&
                                   (!piston.gauge_height_mm || piston.gauge_height_mm != usual_mm);
        walls.push_back(wall);
    }
    return walls;
}

} // namespace rodway
