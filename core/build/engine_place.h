#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/build/check_dependence.h"
#include "core/build/set_up_record.h"
#include "core/engine/valve_position.h"
#include "core/sheets/place.h"

namespace rodway {

/// In which bank each cylinder stands; empty while no set-up says so: then a change in a bank
/// reaches all.
using BanksOfCylinders = std::map<int, std::string>;
[[nodiscard]] BanksOfCylinders banks_of_cylinders(const SetUpFields& fields);

/// Where on an engine something is, as far as it is known.
struct EnginePlace {
    std::optional<ValvePosition> valve;
    std::optional<int> cylinder; ///< also that of a valve
    std::optional<std::string> bank;
    std::optional<std::string> joint; ///< of bolts, without the number of a cap: "main"
};

/// Of a position as a reading has it; nowhere known if it can't be read.
[[nodiscard]] EnginePlace place_of_position(std::string_view position, Place place);
/// Of a part's position as people write it, a valve, cylinder or bank, or several with commas
/// between; none if one of them is nothing of the kind: then nobody knows where it is.
[[nodiscard]] std::vector<EnginePlace> places_of_part(std::string_view position);
/// Of a field of a set-up: the valve, cylinder or bank in its path.
[[nodiscard]] EnginePlace place_of_path(std::string_view path);

/// Whether a change at one place concerns a check at another: compared at the finest that is known
/// of both, from `reach` upwards; where nothing is, it does.
[[nodiscard]] bool reaches(const EnginePlace& change, const EnginePlace& check,
                           DependenceReach reach, const BanksOfCylinders& banks);

} // namespace rodway
