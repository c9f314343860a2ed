#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/build/open_item.h"

namespace rodway {

/// Kinds of thing that a gate waits for.
enum class NeedKind {
    steps,     ///< every step of its stage ticked, or not needed
    sheet,     ///< these kinds of sheet complete, nothing on them outside its limits
    parts,     ///< parts of these roles fitted
    cures,     ///< what cures at a step of its stage has cured fully
    clearance, ///< every valve's pushrod clear of its walls: the certified minimum of the set-up in
               ///< hand, and the readings
    closed,    ///< open items of these kinds closed
    approvals, ///< every question to the customer answered
};

/// One thing that a gate waits for.
struct Need {
    NeedKind kind = NeedKind::steps;
    std::vector<std::string> sheets = {}; ///< of `sheet`: identities of kinds of sheet
    std::vector<std::string> roles = {};  ///< of `parts`: as `part_roles`
    std::vector<OpenItemKind> items = {}; ///< of `closed`

    bool operator==(const Need&) const = default;
};

/// Reads what a gate waits for, as `Gate::needs` keeps it: a list separated by ';', in it each kind
/// once, behind it what it is about, separated by ','. "steps; sheet rod_clearance, lash; parts
/// intake_gasket; cures; clearance; closed temporary_part; approvals".
///
/// A kind of sheet is a built-in one, or one of a shop's own, whose word begins with "own_": only
/// the shop file knows which of those there are.
///
/// Errors, with field "needs": empty_text, nothing between two separators; not_a_choice, `expected`
/// the kinds, or what there is of that kind; missing_field, `value` the kind that doesn't say what
/// it is about; wrong_type, a kind that is about nothing else and has words behind it;
/// duplicate_field, `value` the kind or word that stands twice.
Result<std::vector<Need>> parse_needs(std::string_view text);

/// The same, written: `parse_needs` gives it back.
[[nodiscard]] std::string needs_text(const std::vector<Need>& needs);

/// "steps", "sheet": as written.
[[nodiscard]] std::string_view need_word(NeedKind kind);
/// "temporary_part": as written, and as the shop file keeps it.
[[nodiscard]] std::string_view open_item_word(OpenItemKind kind);

/// True for an identity of a shop's own sheet.
[[nodiscard]] bool is_own_sheet(std::string_view word);
/// True for a built-in kind of sheet and for every identity of a shop's own.
[[nodiscard]] bool is_sheet_word(std::string_view word);

} // namespace rodway
