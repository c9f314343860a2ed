#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "core/build/records.h"

namespace rodway {

enum class CureStage {
    wet,            ///< not to be touched
    may_be_handled, ///< the label's first time has passed, its second hasn't, or isn't known
    cured,          ///< all of the label's times that are known have passed, the full one among
                    ///< them
    not_known,      ///< the label's times are missing, so that nobody can say
    ended,          ///< somebody found it cured, or took it off
};

/// How something that cures stands at one moment, by the times on its label. A time that isn't
/// known is absent, never 0.
struct CureState {
    CureStage stage = CureStage::not_known;
    std::optional<std::string> handling_at; ///< UTC: from then on it may be handled
    std::optional<std::string> full_at;     ///< UTC: from then on it has cured fully
    /// Minutes still to wait, a begun one counted whole; 0 once the time has come. Nothing where
    /// the label's time isn't known.
    std::optional<std::int64_t> minutes_to_handling;
    std::optional<std::int64_t> minutes_to_full;
    /// Of one that was ended: whether that was before the label's full time. Nothing if that isn't
    /// known, or it hasn't been ended.
    std::optional<bool> ended_early;

    /// Whether the work still waits for it: neither cured nor ended.
    [[nodiscard]] bool is_running() const {
        return stage != CureStage::cured && stage != CureStage::ended;
    }
};

/// Between applying and the end of wet time nothing but the label counts: a warm or a dry shop may
/// be slower or quicker. `now_utc` as kept. A full time shorter than the one for handling doesn't
/// make it cured before it may be handled.
[[nodiscard]] CureState cure_state(const Cure& cure, std::string_view now_utc);

} // namespace rodway
