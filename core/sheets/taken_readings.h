#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "core/build/records.h"
#include "core/sheets/position.h"
#include "core/sheets/quantity.h"
#include "core/sheets/reading_value.h"
#include "core/units/interval.h"

namespace rodway {

/// A reading that was taken again later.
struct EarlierTake {
    std::int64_t id = 0;
    ReadingValue value;
};

/// What counts at one position: of retakes the last, of "same" what it repeats.
struct Taken {
    SheetPosition place;
    ReadingValue value;
    Reading reading;                       ///< the one that counts, as kept
    std::vector<std::int64_t> retaken;     ///< ids of the earlier ones at this place, oldest first
    std::vector<EarlierTake> earlier = {}; ///< the same with what they said

    /// What the value may be, as `interval_of`; nothing unless it is a number with two ends.
    [[nodiscard]] std::optional<Interval> range() const;
    /// The same for putting it to a limit: ">.030" reaches without end upwards, "<.030" downwards.
    [[nodiscard]] std::optional<Interval> reach() const;
};

/// A reading that says nothing to the sheets, and why: as `read_value` and `parse_sheet_position`.
struct NotRead {
    Reading reading;
    Error error;
};

/// A build's readings as its sheets use them.
class TakenReadings {
  public:
    /// `readings` in the order taken; quantities that are neither built in nor among `own` are
    /// not read: no_such_record, `field` "quantity".
    explicit TakenReadings(const std::vector<Reading>& readings,
                           std::span<const Quantity> own = {});

    /// Of one quantity, in the order in which its positions were first written to.
    [[nodiscard]] std::span<const Taken> of(std::string_view quantity) const;
    /// Nothing if nobody wrote anything there.
    [[nodiscard]] const Taken* at(std::string_view quantity, std::string_view position) const;
    /// The number there; nothing if it is no number, or not taken.
    [[nodiscard]] std::optional<Interval> number(std::string_view quantity,
                                                 std::string_view position = {}) const;
    /// The word chosen or written there.
    [[nodiscard]] std::optional<std::string> word(std::string_view quantity,
                                                  std::string_view position = {}) const;
    [[nodiscard]] std::span<const NotRead> not_read() const { return not_read_; }

  private:
    void take(const Reading& reading, const Quantity& quantity);

    std::map<std::string, std::vector<Taken>, std::less<>> taken_;
    /// By quantity and position, which of the quantity's; a full build is asked thousands of times.
    std::map<std::string, std::map<std::string, std::size_t, std::less<>>, std::less<>> where_;
    std::vector<NotRead> not_read_;
};

} // namespace rodway
