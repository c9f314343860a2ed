#include "core/bottom_end/bobweight.h"

#include "core/units/within.h"

namespace rodway {

Result<Bobweight> bobweight(const std::vector<BobweightPart>& parts, int rods_on_throw,
                            double balance_percent) {
    if (parts.empty()) {
        return Error{ErrorCode::too_few_rows, "part", "0", "1", {}, {}};
    }
    if (auto bad = outside("rods_on_throw", rods_on_throw, {1.0, 4.0, {}})) {
        return *bad;
    }
    if (auto bad = outside("balance_percent", balance_percent, {0.0, 100.0, "%"})) {
        return *bad;
    }
    const double share = balance_percent / 100.0;
    const auto rods = static_cast<double>(rods_on_throw);
    Bobweight weight;
    for (std::size_t at = 0; at < parts.size(); ++at) {
        const BobweightPart& part = parts[at];
        // Half a step below nothing is what a reading of 0 may be.
        if (auto bad = wrong_interval("part", part.mass_g, {-50.0, 50000.0, "g"},
                                      static_cast<int>(at) + 1)) {
            return *bad;
        }
        const bool up_and_down = part.motion == PartMotion::reciprocating;
        const Interval counted = part.mass_g * (up_and_down ? share : 1.0);
        if (part.share == PartShare::each_throw) {
            weight.each_throw_g = weight.each_throw_g + counted;
            weight.bobweight_g = weight.bobweight_g + counted;
            continue;
        }
        Interval& of_rod = up_and_down ? weight.reciprocating_g : weight.rotating_g;
        of_rod = of_rod + part.mass_g;
        weight.bobweight_g = weight.bobweight_g + counted * rods;
    }
    return weight;
}

} // namespace rodway
