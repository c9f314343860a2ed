#include "core/barring/arc_stabbing.h"

#include <algorithm>

namespace rodway {

std::vector<CrankAngle> fewest_angles(const std::vector<CrankArc>& arcs) {
    std::vector<CrankArc> by_end = arcs;
    std::vector<CrankAngle> fewest;
    for (const CrankArc& tried : arcs) {
        const CrankAngle first = tried.to();
        std::sort(by_end.begin(), by_end.end(), [&](const CrankArc& a, const CrankArc& b) {
            return degrees_ahead(first, a.to()) < degrees_ahead(first, b.to());
        });
        std::vector<CrankAngle> taken{first};
        for (const CrankArc& arc : by_end) {
            if (!arc.holds(first) && !arc.holds(taken.back())) {
                taken.push_back(arc.to());
            }
        }
        if (fewest.empty() || taken.size() < fewest.size()) {
            fewest = taken;
        }
    }
    std::sort(fewest.begin(), fewest.end());
    return fewest;
}

} // namespace rodway
