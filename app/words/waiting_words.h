#pragma once

#include <QString>
#include <vector>

#include "app/edit_stack/waiting_act.h"

namespace rodway::words {

/// "2 entries are not saved yet: another program holds the shop file. Trying again…". Not for an
/// empty list.
[[nodiscard]] QString waiting_bar(const std::vector<WaitingAct>& waiting);

/// One entry, a line for its heading and one for each edit: build 1, name: “A” → “B”.
[[nodiscard]] QString waiting_entry(const WaitingAct& act);

/// All of them, for the clipboard or a text file.
[[nodiscard]] QString waiting_as_text(const std::vector<WaitingAct>& waiting);

/// Both values of a refused entry, from its edits with what is stored as `before`.
[[nodiscard]] QString waiting_against_stored(const std::vector<Edit>& edits);

} // namespace rodway::words
