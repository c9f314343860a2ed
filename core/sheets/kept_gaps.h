#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/build/records.h"
#include "core/sheets/rod_gap_reading.h"

namespace rodway {

/// What a kept gap reading still says of the set-up in hand.
enum class GapStanding {
    holds,            ///< taken in it, or in an earlier one whose changes since don't touch it
    taken_again,      ///< held, but a later reading at the same place that holds counts instead
    stale,            ///< what it was taken with has changed since
    set_up_not_known, ///< nobody knows in which set-up it was taken
    not_readable,     ///< its position or text can't be read
};

/// One reading of the quantity `rod_gap` as kept, and what it is worth now.
struct KeptGap {
    Reading reading;
    GapStanding standing = GapStanding::holds;
    std::optional<GapReading> gap; ///< empty only if it can't be read
    std::optional<Error> error;    ///< why not: as `read_rod_gap`
    /// Fields whose change since makes it stale, as `stale_by`.
    std::vector<std::string> stale_fields;
    std::optional<std::int64_t> taken_again_in; ///< the later reading's id
};

/// A build's gap readings in the order of `readings`, each against the set-up in hand: the one of
/// `set_ups` with the highest id. Without any, all are of a set-up that isn't known.
[[nodiscard]] std::vector<KeptGap> kept_gaps(const std::vector<Reading>& readings,
                                             const std::vector<SetUpRecord>& set_ups);

} // namespace rodway
