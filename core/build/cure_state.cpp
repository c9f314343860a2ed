#include "core/build/cure_state.h"

#include <algorithm>

#include "core/build/utc_time.h"

namespace rodway {
namespace {

constexpr std::int64_t minute_s = 60;

/// The last second that a record can hold: a label's time beyond it can't be written.
std::int64_t last_second() {
    return *utc_seconds("9999-12-31T23:59:59Z");
}

std::optional<std::int64_t> after_minutes(std::int64_t from, const std::optional<int>& minutes) {
    if (!minutes || *minutes < 0) {
        return std::nullopt;
    }
    const std::int64_t at = from + *minutes * minute_s;
    return at <= last_second() ? std::optional(at) : std::nullopt;
}

std::int64_t minutes_until(std::int64_t now, std::int64_t at) {
    return at <= now ? 0 : (at - now + minute_s - 1) / minute_s;
}

} // namespace

CureState cure_state(const Cure& cure, std::string_view now_utc) {
    CureState state;
    const auto now = utc_seconds(now_utc);
    const auto applied = utc_seconds(cure.applied_at);
    const auto handling = applied ? after_minutes(*applied, cure.handling_minutes) : std::nullopt;
    auto full = applied ? after_minutes(*applied, cure.full_minutes) : std::nullopt;
    if (handling && full) {
        full = std::max(*handling, *full);
    }
    if (handling) {
        state.handling_at = utc_text(*handling);
    }
    if (full) {
        state.full_at = utc_text(*full);
    }
    if (cure.ended) {
        state.stage = CureStage::ended;
        if (state.full_at && utc_seconds(*cure.ended)) {
            // UTC texts stand in the order of time.
            state.ended_early = *cure.ended < *state.full_at;
        }
        return state;
    }
    if (!now) {
        return state;
    }
    if (handling) {
        state.minutes_to_handling = minutes_until(*now, *handling);
    }
    if (full) {
        state.minutes_to_full = minutes_until(*now, *full);
    }
    if (full && *now >= *full) {
        state.stage = CureStage::cured;
    } else if (handling) {
        state.stage = *now >= *handling ? CureStage::may_be_handled : CureStage::wet;
    }
    return state;
}

} // namespace rodway
