#include "core/barring/turn.h"

namespace rodway {

Result<BarringTurn> turn_to(const EngineLayout& layout, CrankAngle from, CrankAngle to) {
    if (const auto checked = check_crank_angle(from, "from"); !checked) {
        return checked.error();
    }
    if (const auto checked = check_crank_angle(to, "to"); !checked) {
        return checked.error();
    }
    return BarringTurn{degrees_ahead(from, to), layout.turning, other_hand(layout.turning)};
}

} // namespace rodway
