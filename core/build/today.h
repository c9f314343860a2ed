#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/build/edit.h"
#include "core/build/records.h"
#include "core/build/utc_time.h"

namespace rodway {

/// The records of all builds from which a day's list is made.
struct TodayFacts {
    std::vector<Build> builds;        ///< in hand
    std::vector<Cure> cures;          ///< running, of builds in hand
    std::vector<PartRecord> parts;    ///< to come, of builds in hand
    std::vector<PartRecord> kept;     ///< with a day until which they are kept, of every build
    std::vector<OpenItem> open_items; ///< open ones with a due day, of builds in hand
    std::vector<HandOff> hand_offs;   ///< the newest of each build, those put away too
    std::vector<Visit> visits;        ///< of every build
};

enum class DueKind {
    promise_passed, ///< the day given to the customer has gone by
    promise_near,   ///< it is today, or within `near_days`
    part_overdue,   ///< promised by its supplier for a day that has gone by
    part_due,       ///< promised for today
    cure_handling,  ///< from some time today on it may be handled
    cure_full,      ///< it cures fully some time today
    cure_not_known, ///< it dries, and nobody has written down how long it must
    item_due,       ///< an open item's due day has come, or gone by
    service_due,    ///< a day on the customer's settings card has come: he is to come back
    visit_due,      ///< an engine is expected back, and nothing is written down of the visit
    keep_ended,     ///< a failed part or core need not be kept any longer
};

/// One line of a day's list.
struct Due {
    DueKind kind = DueKind::part_due;
    RecordRef record;
    std::int64_t build_id = 0;
    std::string at;                   ///< ISO day; of a cure the UTC time. Empty: not known
    std::optional<std::int64_t> days; ///< until then; less than 0: gone by. Not of cures
};

struct TodayRequest {
    ShopDay day;
    std::string now_utc;
    int near_days = 7;     ///< promises so far ahead are shown
    int service_days = 30; ///< what the customer is to come for is shown so long after its day
};

/// What is due across all builds, by kind, then by time, then by build. A cure shows on the days on
/// which its times fall; one of which the full time isn't known, from the day it may be handled
/// until somebody ends it. A service day shows until the engine came, a visit until something is
/// written of it, both for `service_days` at most.
[[nodiscard]] std::vector<Due> due_today(const TodayFacts& facts, const TodayRequest& request);

/// The days written in a text, "2026-12-15: retorque", in their order. Days written another way
/// can't be told apart and are passed over.
[[nodiscard]] std::vector<std::string> days_in(std::string_view text);

} // namespace rodway
