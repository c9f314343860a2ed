#pragma once

#include <compare>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>

#include "core/base/result.h"

namespace rodway {

/// An amount of money in whole cents, of whatever currency the shop keeps its account in. Never a
/// fraction of a cent, so that sums are exact.
struct Money {
    std::int64_t cents = 0;

    auto operator<=>(const Money&) const = default;
    Money operator-() const { return {-cents}; }
};

/// The greatest amount a record holds, either side of zero: twelve digits before the cents.
inline constexpr Money most_money{99'999'999'999'999};

/// Reads what people type: "1250", "1250.5", "1,250", "1,250.50", "1.250,50", "1250,50", "1 250",
/// "$40", "40 $", "-12", "-$12.00", ".50". A point or comma with one or two digits behind it parts
/// the cents; one that parts threes, counted from the right, is the eye's. "1.250" may be either
/// and is refused. Of currency signs it takes `currency`, the shop's own, or, if that is empty,
/// any of $, €, £.
/// Errors, field "amount": empty_text; wrong_type, `expected` "money", "money_three_digits"
/// ("1.250"), "money_cents" (a fraction of a cent), "money_currency" (another currency's sign),
/// "money_size" (more than `most_money`).
Result<Money> parse_money(std::string_view text, std::string_view currency = {});

/// An amount as records hold it, "-12.50". Errors: wrong_type, field "amount", `expected` "money".
Result<Money> recorded_money(std::string_view text);
/// The same, written.
[[nodiscard]] std::string money_text(Money amount);

/// Errors: wrong_type, field "amount", `expected` "money_size": the sum is more than `most_money`.
Result<Money> sum_of(std::span<const Money> amounts);

} // namespace rodway
