#pragma once

#include <QString>

#include "app/words/sheet_words.h"
#include "core/build/need.h"
#include "core/build/plan_changes.h"

namespace rodway::words {

/// "every step of this stage ticked; sheets Lash and Pushrod clearance passed": what a gate waits
/// for.
[[nodiscard]] QString needs(const std::vector<Need>& needs, const OwnTitles& own = {});

/// "Temporary part".
[[nodiscard]] QString open_item_kind(OpenItemKind kind);

/// "New step “Oil at every rocker”".
[[nodiscard]] QString plan_change(const PlanChange& change);
/// "Title: was “Rods in”, is now “Rods in through the tubes”", one line for each field.
[[nodiscard]] QStringList plan_field_changes(const PlanChange& change);

// The words of `--json`: never translated.
[[nodiscard]] QString token(PlanChangeKind kind);

} // namespace rodway::words
