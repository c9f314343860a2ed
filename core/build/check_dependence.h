#pragma once

#include <span>
#include <string_view>
#include <vector>

namespace rodway {

/// The pushrod clearance worked out from the set-up, beside the kinds of sheet: "clearance".
inline constexpr std::string_view clearance_check = "clearance";

/// On what a check depends.
enum class DependsOn {
    part_role,   ///< parts of a role: `part_roles`
    set_up_path, ///< fields of the set-up in hand; a `*` stands for one name
    quantity,    ///< readings of a quantity
};

/// How far a change at a known place reaches. A change whose place isn't known reaches everywhere.
enum class DependenceReach {
    engine,   ///< every check of the kind
    bank,     ///< those of its bank
    cylinder, ///< those of its cylinder
    valve,    ///< those of its valve
};

/// Why a check depends on something: the reason of the trade.
enum class DependenceReason {
    bolt_end_near_rod, ///< a longer bolt reaches into the pushrod's hole
    moves_head,        ///< it sets how high the head stands on the block
    moves_intake,      ///< it sets where the intake stands between the heads
    moves_rod_foot,    ///< it sets where the pushrod's lower end stands
    moves_rod_top,     ///< it sets where the pushrod's upper end stands, or how it swings
    is_the_rod,        ///< the pushrod itself: its length, thickness and straightness
    is_the_passage,    ///< the hole or tube itself
    lifts_further,     ///< cam or rocker: how far and when the valve opens
    moves_valve,       ///< it sets where the valve stands in its head
    moves_piston,      ///< it sets how high the piston comes
    changes_chamber,   ///< it holds a part of the room above the piston
    changes_fit,       ///< one of the two surfaces between which the gap lies
    changes_clamping,  ///< the joint is clamped anew, so that its bolts must be done again
    changes_spring,    ///< load and heights of the spring
    turns_with_it,     ///< it drags when the engine is turned
    swings_near,       ///< it turns past what it must clear
    sets_drive,        ///< it sets where a gear or drive meshes
    shifts_timing,     ///< it sets where the cam stands to the crank
    changes_balance,   ///< its mass turns or goes up and down
    feeds_oil,         ///< oil comes through it
};

struct Dependence {
    DependsOn on = DependsOn::part_role;
    std::string_view what; ///< role, path with `*`, or quantity
    DependenceReach reach = DependenceReach::engine;
    DependenceReason reason = DependenceReason::changes_fit;
    /// Of a quantity that says what was cut or done: its first reading is a change too. Of others
    /// only a retake with another value is.
    bool first_reading_counts = false;
};

/// What one kind of check depends on.
struct CheckDependences {
    std::string_view check; ///< kind of sheet, or `clearance_check`
    /// The quantities of the sheet that say how parts stand to each other, and can become stale.
    /// Sizes of single parts, settings wished for and what others stated can't. Empty for
    /// `clearance_check`.
    std::vector<std::string_view> quantities;
    std::vector<Dependence> on;
};

/// The table, by kind of check. A kind that isn't in it depends on nothing.
[[nodiscard]] std::span<const CheckDependences> check_dependences();
/// Null if the kind isn't in the table.
[[nodiscard]] const CheckDependences* dependences_of(std::string_view check);

} // namespace rodway
