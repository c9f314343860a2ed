#include "core/build/money.h"

#include <algorithm>
#include <array>
#include <limits>
#include <optional>

#include "core/build/word_list.h"
#include "core/units/plain_text.h"

namespace rodway {
namespace {

constexpr std::size_t most_digits = 12; // before the cents: see `most_money`
constexpr std::array<std::string_view, 3> usual_signs{"$", "\u20ac", "\u00a3"};

Error wrong(std::string_view text, std::string expected) {
    return Error{ErrorCode::wrong_type, "amount", std::string(text), std::move(expected), {}, {}};
}

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

/// Cells of a pasted table are not one amount with its threes parted.
bool on_one_line(std::string_view text) {
    return std::none_of(text.begin(), text.end(),
                        [](char c) { return static_cast<unsigned char>(c) < ' '; });
}

bool all_digits(std::string_view text) {
    return std::all_of(text.begin(), text.end(), is_digit);
}

void trim(std::string_view& text) {
    while (text.starts_with(' ')) text.remove_prefix(1);
    while (text.ends_with(' ')) text.remove_suffix(1);
}

bool take_from_ends(std::string_view& text, std::string_view sign) {
    if (text.starts_with(sign)) {
        text.remove_prefix(sign.size());
    } else if (text.ends_with(sign)) {
        text.remove_suffix(sign.size());
    } else {
        return false;
    }
    trim(text);
    return true;
}

bool take_minus(std::string_view& text) {
    if (!text.starts_with('-')) return false;
    text.remove_prefix(1);
    trim(text);
    return true;
}

/// Whether every piece but the first has three digits and the first one to three, not "0".
bool in_threes(std::string_view whole, char mark) {
    std::size_t from = 0;
    bool first = true;
    for (;;) {
        const std::size_t to = std::min(whole.find(mark, from), whole.size());
        const std::string_view piece = whole.substr(from, to - from);
        const bool good = all_digits(piece) &&
                          (first ? !piece.empty() && piece.size() <= 3 && !piece.starts_with('0')
                                 : piece.size() == 3);
        if (!good) return false;
        if (to == whole.size()) return !first;
        from = to + 1;
        first = false;
    }
}

/// The digits of a whole number, its threes perhaps parted by one of the marks.
std::optional<std::string> whole_digits(std::string_view whole, std::string_view marks) {
    if (all_digits(whole)) return std::string(whole);
    for (const char mark : marks) {
        if (!in_threes(whole, mark)) continue;
        std::string digits;
        std::copy_if(whole.begin(), whole.end(), std::back_inserter(digits), is_digit);
        return digits;
    }
    return std::nullopt;
}

Result<Money> made_of(std::string_view text, std::string digits, std::string_view cents,
                      bool negative) {
    digits.erase(0, std::min(digits.find_first_not_of('0'), digits.size()));
    if (digits.size() > most_digits) return wrong(text, "money_size");
    digits += cents;
    digits.append(2 - cents.size(), '0');
    std::int64_t value = 0;
    for (const char digit : digits) value = 10 * value + (digit - '0');
    return Money{negative ? -value : value};
}

/// A number without sign or currency.
Result<Money> read_number(std::string_view text, std::string_view number, bool negative) {
    const std::size_t point = number.rfind('.');
    const std::size_t comma = number.rfind(',');
    const bool has_point = point != std::string_view::npos;
    const bool has_comma = comma != std::string_view::npos;
    const std::size_t last = !has_point ? comma : !has_comma ? point : std::max(point, comma);
    if (last == std::string_view::npos) {
        const auto digits = whole_digits(number, " '");
        return digits ? made_of(text, *digits, {}, negative) : Result<Money>(wrong(text, "money"));
    }
    const char mark = number[last];
    const std::string_view behind = number.substr(last + 1);
    const std::string_view before = number.substr(0, last);
    if (!all_digits(behind) || behind.empty()) return wrong(text, "money");
    if (behind.size() <= 2) {
        const auto digits = whole_digits(before, mark == '.' ? ", '" : ". '");
        return digits ? made_of(text, *digits, behind, negative)
                      : Result<Money>(wrong(text, "money"));
    }
    const bool alone = before.find(mark) == std::string_view::npos;
    if (const auto digits = whole_digits(number, std::string_view(&mark, 1))) {
        // "1.250" may be a thousand and more, or one and a quarter.
        if (mark == '.' && alone) return wrong(text, "money_three_digits");
        return made_of(text, *digits, {}, negative);
    }
    const bool fraction = alone && (before.empty() || whole_digits(before, ", '"));
    return wrong(text, fraction ? "money_cents" : "money");
}

} // namespace

Result<Money> parse_money(std::string_view text, std::string_view currency) {
    const std::string typed = without_blanks(text);
    const std::string plain = plain_text(typed);
    std::string_view rest = plain;
    trim(rest);
    if (rest.empty()) return Error{ErrorCode::empty_text, "amount", {}, {}, {}, {}};
    if (!on_one_line(typed)) return wrong(text, "money");
    bool negative = take_minus(rest);
    std::string own = plain_text(currency);
    bool signed_ = !own.empty() && take_from_ends(rest, own);
    for (const std::string_view sign : usual_signs) {
        if (signed_ || !take_from_ends(rest, sign)) continue;
        if (!own.empty()) return wrong(text, "money_currency");
        signed_ = true;
    }
    negative = (signed_ && !negative && take_minus(rest)) || negative;
    const bool digits = std::any_of(rest.begin(), rest.end(), is_digit);
    return digits ? read_number(text, rest, negative) : Result<Money>(wrong(text, "money"));
}

Result<Money> recorded_money(std::string_view text) {
    std::string_view rest = text;
    const bool negative = take_minus(rest);
    const std::size_t point = rest.find('.');
    const bool good = point != std::string_view::npos && point > 0 && rest.size() == point + 3 &&
                      all_digits(rest.substr(0, point)) && all_digits(rest.substr(point + 1));
    if (!good) return wrong(text, "money");
    return made_of(text, std::string(rest.substr(0, point)), rest.substr(point + 1), negative);
}

std::string money_text(Money amount) {
    const std::int64_t size = amount.cents < 0 ? -amount.cents : amount.cents;
    std::string cents = std::to_string(size % 100);
    if (cents.size() < 2) cents.insert(0, "0");
    return (amount.cents < 0 ? "-" : "") + std::to_string(size / 100) + '.' + cents;
}

Result<Money> sum_of(std::span<const Money> amounts) {
    // Ninety thousand of the greatest amounts fit, so that the order of what people typed can't
    // matter: an account overflows by its end alone.
    constexpr std::int64_t no_further = std::numeric_limits<std::int64_t>::max() - most_money.cents;
    std::int64_t cents = 0;
    for (const Money amount : amounts) {
        RODWAY_ASSERT(amount <= most_money && amount >= -most_money);
        cents += amount.cents;
        if (cents > no_further || cents < -no_further) break;
    }
    if (cents > most_money.cents || cents < -most_money.cents) return wrong({}, "money_size");
    return Money{cents};
}

} // namespace rodway
