#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/build/records.h"
#include "core/engine/engine_layout.h"

namespace rodway {

/// An engine's layout as a builder types it, every text as in its box.
struct EngineOutline {
    std::string name;
    Arrangement arrangement = Arrangement::inline_row;
    Turning turning = Turning::clockwise;
    std::string firing_order;
    std::string bore;
    std::string stroke;
    /// Vee: degrees between the banks. Inline: how far it leans to the right, seen from behind.
    std::string bank_angle;
    /// Of each bank, left before right (seen from behind, looking forward): its cylinders' numbers
    /// and its valves ("E I I E"), front to rear.
    struct Row {
        std::string cylinders;
        std::string valves;
    };
    std::vector<Row> rows;
    std::string cam_above;  ///< of the crank's axis
    std::string cam_beside; ///< of it, to the right seen from behind; to the left below 0
};

/// The banks' names of an arrangement: "row"; "left" and "right".
[[nodiscard]] const std::vector<std::string>& bank_names(Arrangement arrangement);

/// The set-up's fields that the outline makes. Errors, `field` a member's name (of rows
/// "left_cylinders", "row_valves" and so on): empty_text; what `read_typed_length` and
/// `FiringOrder::parse` refuse; not_an_angle; out_of_range; cylinder_twice, cylinder_missing,
/// cylinder_unknown for a numbering that isn't 1 to the number there are; not_a_choice for valves
/// that aren't one intake and one exhaust to a cylinder.
Result<SetUpFields> outline_fields(const EngineOutline& outline);

/// The outline that a set-up's fields make, as far as they do.
[[nodiscard]] EngineOutline outline_of(const SetUpFields& fields);

/// The fields with `outline`'s in place of those that made the outline before: of banks and
/// cylinders that are no more, nothing stays.
[[nodiscard]] SetUpFields with_outline(const SetUpFields& fields, const SetUpFields& outline);

} // namespace rodway
