#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "core/build/records.h"
#include "core/sheets/quantity.h"
#include "core/sheets/taken_readings.h"

namespace rodway {

/// For which parts a limit holds: a serviceable part may be worn further than a new one.
enum class LimitFor { new_parts, serviceable };

/// Where a built-in limit comes from. A shop's own say it in words.
enum class UsualSource {
    none,            ///< the shop's own, `source` says whose
    common_practice, ///< of the trade, without a source; the maker's figure goes before it
};

/// What a quantity may be, in the unit in which its dimension is held; either side may be open.
struct SheetLimit {
    std::string quantity;
    std::string position; ///< as kept; empty: at all of them
    std::optional<double> low;
    std::optional<double> high;
    LimitFor holds_for = LimitFor::new_parts;
    UsualSource usual = UsualSource::none;
    std::string source; ///< who says so; empty for a usual one
};

/// A limit as a shop keeps it, read. Errors: as `read_value`, `field` "low" or "high";
/// missing_field "low" if neither side has a number; out_of_range if low is above high;
/// no_such_record "quantity".
Result<SheetLimit> read_limit(const LimitRecord& record, const Quantity& quantity);

/// The limit that rules at a position: the shop's own before common practice, then one for this
/// position before one for all, then a later one in `limits` before an earlier (the build's stand
/// behind the shop's). Nothing if none speaks of it.
[[nodiscard]] const SheetLimit* ruling_limit(std::span<const SheetLimit> limits,
                                             std::string_view quantity, std::string_view position,
                                             LimitFor holds_for);

/// How a reading stands to its limit.
enum class SheetVerdict {
    no_limit,    ///< nobody has said what it may be
    no_number,   ///< nothing to compare
    passed,      ///< whatever the doubt
    serviceable, ///< not as new, but within what a used part may have
    too_close,   ///< the doubt reaches over the limit: not to be decided with this instrument
    failed,      ///< whatever the doubt
};

/// Judges what a number may be with a guard band as wide as its doubt (JCGM 106:2012): passed if
/// even its ends lie within the limit, failed if all of it lies beyond, else too close to call.
[[nodiscard]] SheetVerdict judge(const Interval& value, const SheetLimit& limit);

} // namespace rodway
