#include "app/valvetrain/by_hand.h"

#include <algorithm>

namespace rodway {

const Reading* last_by_hand(const std::vector<Reading>& readings, const ValvePosition& valve) {
    const Reading* last = nullptr;
    for (const Reading& reading : readings) {
        if (reading.quantity == rod_clearance_quantity &&
            reading.position == position_name(valve)) {
            last = &reading;
        }
    }
    return last;
}

ByHand found_by_hand(const std::vector<Reading>& readings, std::int64_t set_up_id) {
    ByHand found;
    for (const Reading& reading : readings) {
        if (reading.quantity != rod_clearance_quantity || reading.set_up_id != set_up_id) {
            continue;
        }
        const auto valve = parse_position(reading.position);
        const auto clearance = parse_rod_clearance(reading.text, reading.unit != "mm");
        if (valve && clearance) {
            found[*valve] = *clearance;
        }
    }
    return found;
}

std::optional<Verdict> ruling(const ValveClearance& line, const ByHand& by_hand,
                              const RodClearanceLimits& limits) {
    const auto found = by_hand.find(line.position);
    if (found == by_hand.end() || !line.verdict) {
        return line.verdict;
    }
    return worse(*line.verdict, judge(found->second, limits));
}

bool disagree(const ValveClearance& line, const ByHand& by_hand) {
    const auto found = by_hand.find(line.position);
    if (found == by_hand.end() || !line.found.minimum) {
        return false;
    }
    const double doubt = line.doubt_mm.value_or(0.0);
    const double computed = line.found.minimum->clearance_mm;
    return computed + doubt < found->second.low_mm ||
           std::max(0.0, computed - doubt) > found->second.high_mm;
}

} // namespace rodway
