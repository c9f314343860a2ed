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
};

} // namespace rodway
