#pragma once

#include <string>
#include <vector>

#include "core/engine/engine.h"
#include "core/sheets/place.h"

namespace rodway {

/// What there is to measure at on one engine: its cylinders, valves, banks and journals.
struct EnginePlaces {
    std::vector<int> cylinders; ///< by number
    std::vector<int> front_to_rear;
    std::vector<int> firing_order;
    std::vector<std::string> banks;    ///< "left", "right"; one or none on an engine with one bank
    std::vector<ValvePosition> valves; ///< by cylinder, intake before exhaust
    std::vector<ValvePosition> full_lift_order;
    int main_journals = 0;
    int cam_journals = 0;
};

/// Journals: one main more than there are cylinders in a bank, which is the usual block and may be
/// wrong for one that has fewer; as many cam journals as mains.
[[nodiscard]] EnginePlaces places_on(const Engine& engine);

/// In which order positions are walked through.
enum class EntryOrder {
    by_number,     ///< by cylinder, intake before exhaust
    front_to_rear, ///< as they stand along the engine
    firing_order,
    full_lift, ///< of valves, as they come to full lift; of cylinders, as `firing_order`
};

/// The positions at which a quantity of this place is usually read, as they are kept, in the order
/// asked for. Empty where only the bench knows (bolts, pulls, spots, angles): positions are then
/// added as they are read.
[[nodiscard]] std::vector<std::string> usual_positions(Place place, const EnginePlaces& places,
                                                       EntryOrder order);

} // namespace rodway
