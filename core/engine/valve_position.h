#pragma once

#include <compare>
#include <string>
#include <string_view>

#include "core/base/result.h"

namespace rodway {

enum class ValveKind { intake, exhaust };

/// One valve's place in the engine: cylinder number as the engine's maker counts, kind, and, where
/// a cylinder has several of a kind, which of them from the front (1, 2, …).
struct ValvePosition {
    int cylinder = 1;
    ValveKind kind = ValveKind::intake;
    int which = 1;

    auto operator<=>(const ValvePosition&) const = default;
};

/// "3I", "3E"; the second of a kind is "3I2".
[[nodiscard]] std::string position_name(const ValvePosition& position);

/// Reads "3I", "3e", "#3 intake", "5 ex", "3I2". Error: not_a_position.
Result<ValvePosition> parse_position(std::string_view text);

} // namespace rodway
