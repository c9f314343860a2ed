#pragma once

#include <QString>

#include "app/words/sheet_words.h"
#include "core/build/cure_state.h"
#include "core/build/hold.h"
#include "core/build/stage_state.h"
#include "core/build/today.h"

namespace rodway::words {

/// "3 March 2026": a day as kept, or the day of a UTC time by this computer's clock.
[[nodiscard]] QString day(const std::string& iso_day);
[[nodiscard]] QString day_of(const std::string& utc);
/// "3 March 2026, 14:05" by this computer's clock.
[[nodiscard]] QString time_of(const std::string& utc);

/// One thing that holds a build up, in a line: what it is, where, and until when; of a stale check
/// also what changed.
[[nodiscard]] QString hold(const Hold& hold, const OwnTitles& own = {});
/// "waived by MH on 3 March 2026 until 10 March 2026: …".
[[nodiscard]] QString waived(const HoldWaiver& waiver);
/// Why a waiver does nothing.
[[nodiscard]] QString neglect(WaiverNeglect why);

/// "Manifold bolt changed from 1.25 in to 1.5 in on 3 March 2026 by MH".
[[nodiscard]] QString stale_cause(const StaleCause& cause, const OwnTitles& own = {});
/// Why a check depends on that: "a longer bolt reaches into the pushrod's hole".
[[nodiscard]] QString reason(DependenceReason reason);

/// For what a part is waited, in a few words: "promised for 3 March 2026".
[[nodiscard]] QString part_wait(PartWait wait, const std::optional<std::string>& promised);
/// "wet; may be handled in 40 min; fully cured on 3 March 2026, 14:05".
[[nodiscard]] QString cure(const CureState& state);

/// What kind of thing is due.
[[nodiscard]] QString due(DueKind kind);

// The words of `--json`: never translated.
[[nodiscard]] QString token(HoldKind kind);
[[nodiscard]] QString token(PartWait wait);
[[nodiscard]] QString token(CureStage stage);
[[nodiscard]] QString token(NextKind kind);
[[nodiscard]] QString token(DueKind kind);
[[nodiscard]] QString token(WaiverNeglect why);
[[nodiscard]] QString token(DependenceReason reason);

} // namespace rodway::words
