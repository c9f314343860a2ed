#pragma once

#include <string_view>
#include <vector>

namespace rodway {

/// The pushrod clearance worked out from the set-up, beside the kinds of sheet: "clearance".
inline constexpr std::string_view clearance_check = "clearance";

/// On what a check depends.
enum class DependsOn {
    part_role,   ///< parts of a role: `part_roles`
    set_up_path, ///< fields of the set-up in hand
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
    moves_head,        ///< it sets how high the head stands on the block, and with it valves,
                       ///< rockers and the holes in the head
    moves_intake,      ///< it sets where the intake stands between the heads
    moves_rod_foot,    ///< it sets where the pushrod's lower end stands
    moves_rod_top,     ///< it sets where the pushrod's upper end stands, and how it swings
    is_the_rod,        ///< the pushrod itself: its length, thickness and straightness
    is_the_passage,    ///< the hole, tube, plate or wall itself
    lifts_further,     ///< cam or rocker: how far, how fast and when the valve opens
    moves_valve,       ///< it sets where the valve stands in its head
    moves_piston,      ///< it sets how high the piston comes
    changes_chamber,   ///< it is a wall of the room above the piston
    changes_fit,       ///< one of the surfaces between which the gap lies
    changes_clamping,  ///< the joint is taken apart for it, and is tightened anew
    changes_spring,    ///< it sets the spring's load or the height it stands at
    drags,             ///< it rubs when the engine is turned over
    swings_near,       ///< it turns past what it must clear
    sets_mesh,         ///< it sets where a gear or drive stands in its mate
    shifts_timing,     ///< it sets where the cam stands to the crank
    changes_balance,   ///< its mass turns, or goes up and down
    carries_oil,       ///< oil comes, or is kept in, through it
    judged_by,         ///< it says by what the check is judged
};

struct Dependence {
    DependsOn on = DependsOn::part_role;
    /// Role; path or the beginning of paths, a `*` for one name of it; quantity.
    std::string_view what;
    DependenceReach reach = DependenceReach::engine;
    DependenceReason reason = DependenceReason::changes_fit;
    /// Of a quantity that says what was cut or done: its first reading is a change too. Of others
    /// only a retake with another value is.
    bool first_reading_counts = false;
    /// Of checks on bolts: only those of this joint, as a position has it; empty: of all.
    std::string_view joint = {};
};

/// What some checks of one kind depend on.
struct CheckDependences {
    std::string_view check; ///< kind of sheet, or `clearance_check`
    /// Quantities of the sheet that say how parts stand to each other, and so can become stale. The
    /// size of one part, what is wished for and what others stated can't. Empty for
    /// `clearance_check`.
    std::vector<std::string_view> quantities;
    std::vector<Dependence> on;
    /// Whether fitting, taking out or putting back a part counts, or only that its size is another.
    /// A set-up speaks of the parts that will be in the engine; a reading of those that were.
    bool fitting_counts = true;
};

/// The table. A quantity that isn't in it depends on nothing; one kind may have several entries.
[[nodiscard]] const std::vector<CheckDependences>& check_dependences();

/// Those of one quantity of a kind of sheet, or of `clearance_check` with an empty quantity; null
/// if there are none.
[[nodiscard]] const CheckDependences* dependences_of(std::string_view check,
                                                     std::string_view quantity);

/// All quantities of a kind of sheet that can become stale, in the table's order.
[[nodiscard]] std::vector<std::string_view> check_quantities(std::string_view kind);

/// Whether a set-up's path is one of those that `what` names.
[[nodiscard]] bool path_is_of(std::string_view path, std::string_view what);

} // namespace rodway
