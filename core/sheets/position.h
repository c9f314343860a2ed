#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>

#include "core/base/result.h"
#include "core/engine/valve_position.h"
#include "core/sheets/place.h"
#include "core/units/angle.h"
#include "core/units/length.h"

namespace rodway {

/// Where on the engine something was read: the parts of its place as they are kept.
struct SheetPosition {
    Place place = Place::engine;
    std::map<PlacePart, std::string> parts; ///< as "3", "top", "3I", "20 BTDC", "0.05in"

    /// Empty if the place has no such part, or it wasn't given.
    [[nodiscard]] std::optional<std::string> part(PlacePart wanted) const;
    [[nodiscard]] std::optional<int> cylinder() const; ///< also that of a valve
    [[nodiscard]] std::optional<ValvePosition> valve() const;
    [[nodiscard]] std::optional<int> journal() const;
    [[nodiscard]] std::optional<CrankAngle> angle() const; ///< -360 to under 360
    [[nodiscard]] std::optional<Length> rise() const;
};

/// Reads a position as people write it: its parts in any order, in small or capital letters, with
/// or without "#", "cyl", "main": "#3", "cyl 3", "thrust 3 top", "J2 vertical", "main 2", "front
/// left", "ex 5", "3I -20", "bolt 7". What isn't certain is refused: a bank is left or right, never
/// the driver's; a day is written year first. A gap's position is read as it is kept only.
/// Error: not_a_place, `field` "position", `expected` an example as kept, empty if nothing may
/// stand there.
Result<SheetPosition> parse_sheet_position(std::string_view text, Place place);

/// The position as a record has it. One place has one text, by which a retake is known; it may
/// never change.
[[nodiscard]] std::string sheet_position_text(const SheetPosition& position);

/// Both in one: from what people write to what is kept.
Result<std::string> kept_position(std::string_view text, Place place);

} // namespace rodway
