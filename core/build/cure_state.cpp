#include "core/build/cure_state.h"

#include <algorithm>

#include "core/build/utc_time.h"

namespace rodway {
namespace {

constexpr std::int64_t minute_s = 60;

/// A moment by the label, in seconds as `utc_seconds`, if it is known.
struct LabelTime {
    bool is_known = false;
    std::int64_t at = 0;

    [[nodiscard]] bool has_come(std::int64_t now) const { return is_known && now >= at; }
    [[nodiscard]] std::optional<std::string> text() const {
        return is_known ? std::optional(utc_text(at)) : std::nullopt;
    }
    [[nodiscard]] std::optional<std::int64_t> minutes_from(std::int64_t now) const {
        if (!is_known) {
            return std::nullopt;
        }
        return at <= now ? 0 : (at - now + minute_s - 1) / minute_s;
    }
};

/// What a record can't hold isn't known.
LabelTime label_time(std::string_view applied_at, const std::optional<int>& minutes) {
    const auto applied = utc_seconds(applied_at);
    if (!applied || !minutes || *minutes < 0) {
        return {};
    }
    const std::int64_t at = *applied + *minutes * minute_s;
    return at <= *utc_seconds("9999-12-31T23:59:59Z") ? LabelTime{true, at} : LabelTime();
}

} // namespace

CureState cure_state(const Cure& cure, std::string_view now_utc) {
    const LabelTime handling = label_time(cure.applied_at, cure.handling_minutes);
    LabelTime full = label_time(cure.applied_at, cure.full_minutes);
    full.at = std::max(full.at, handling.at);
    CureState state;
    state.handling_at = handling.text();
    state.full_at = full.text();
    if (cure.ended) {
        state.stage = CureStage::ended;
        if (full.is_known && utc_seconds(*cure.ended)) {
            // UTC texts stand in the order of time.
            state.ended_early = *cure.ended < *state.full_at;
        }
        return state;
    }
    const std::int64_t now = utc_seconds(now_utc).value_or(0);
    if (!utc_seconds(now_utc)) {
        return state;
    }
    state.minutes_to_handling = handling.minutes_from(now);
    state.minutes_to_full = full.minutes_from(now);
    if (full.has_come(now)) {
        state.stage = CureStage::cured;
    } else if (handling.is_known) {
        state.stage = handling.has_come(now) ? CureStage::may_be_handled : CureStage::wet;
    }
    return state;
}

} // namespace rodway
