#pragma once

#include <cstdint>
#include <optional>
#include <string>

namespace rodway {

enum class PartOwner { shop, customer };

/// A part or fastener of a build, from the need for it until it is fitted or given back. Dates are
/// ISO dates.
struct PartRecord {
    std::int64_t id = 0;
    std::int64_t build_id = 0;
    std::optional<std::int64_t> step_id;     ///< the step that waits for it
    std::optional<std::int64_t> replaces_id; ///< the part it takes the place of
    std::string item;
    std::optional<std::string> size;
    std::optional<std::string> marking;
    std::optional<int> count;
    std::optional<std::string> position;
    PartOwner owner = PartOwner::shop;
    std::optional<std::string> supplier;
    std::optional<std::string> order_number;
    std::optional<std::string> cost; ///< money, two decimals
    std::optional<std::string> weight;
    std::optional<std::string> needed;
    std::optional<std::string> ordered;
    std::optional<std::string> promised;
    std::optional<std::string> received;
    std::optional<std::string> measured;
    std::optional<std::string> fitted;
    std::optional<std::string> returned;
    std::optional<std::string> kept_until; ///< a failed part, or a core
    std::optional<std::string> failed;     ///< how it failed
    std::optional<std::string> note;
    std::optional<std::string> role = {};       ///< what it is in the engine: "intake_bolt"
    bool temporary = false;                     ///< stands in for another that must replace it
    std::optional<std::string> condition = {};  ///< in which it came
    std::optional<std::string> thread = {};     ///< of a fastener: "7/16-14"
    std::optional<std::string> length = {};     ///< under its head, as typed, with its unit
    std::optional<std::string> drive = {};      ///< hexagon, twelve point, ...
    std::optional<std::string> lubricant = {};  ///< on its thread and under its head
    std::optional<std::string> tightening = {}; ///< steps or stretch, as typed: "45/65/65+90"
};

} // namespace rodway
