#include "core/sheets/stated_total.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

#include "core/units/typed_amount.h"
#include "core/units/within.h"

namespace rodway {
namespace {

constexpr std::size_t most_parts = 10000;
/// Digits beyond these are no slip of somebody who adds up a sheet, but a file's.
constexpr std::size_t most_digits = 12;

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

/// A typed number taken apart: what stands before its digits, the digits, and what stands behind.
struct WrittenNumber {
    std::string before;
    std::string digits;    ///< without the point
    std::size_t whole = 0; ///< digits before the point
    char point = 0;        ///< '.' or ',', or none
    std::string behind;

    [[nodiscard]] std::string text() const {
        if (point == 0 && whole == digits.size()) {
            return before + digits + behind;
        }
        return before + digits.substr(0, whole) + (point == 0 ? '.' : point) +
               digits.substr(whole) + behind;
    }
};

/// Nothing where the text has more than one number, or a fraction.
std::optional<WrittenNumber> taken_apart(const std::string& text) {
    WrittenNumber number;
    std::size_t at = 0;
    while (at < text.size() && !is_digit(text[at]) && text[at] != '.' && text[at] != ',') {
        number.before += text[at++];
    }
    for (; at < text.size(); ++at) {
        if (is_digit(text[at])) {
            number.digits += text[at];
        } else if ((text[at] == '.' || text[at] == ',') && number.point == 0) {
            number.point = text[at];
            number.whole = number.digits.size();
        } else {
            break;
        }
    }
    if (number.point == 0) {
        number.whole = number.digits.size();
    }
    number.behind = text.substr(at);
    // "in3" and "cm3" end in a digit that belongs to a unit.
    const auto other = std::find_if(number.behind.begin(), number.behind.end(), is_digit);
    const bool of_a_unit = other != number.behind.begin() && other != number.behind.end() &&
                           ((*(other - 1) >= 'a' && *(other - 1) <= 'z') || *(other - 1) == '^');
    if (number.digits.empty() || number.digits.size() > most_digits ||
        (other != number.behind.end() && !of_a_unit)) {
        return std::nullopt;
    }
    return number;
}

using Slips = std::vector<std::pair<SlipKind, std::string>>;

void add(SlipKind kind, const WrittenNumber& number, Slips& slips) {
    const bool nobody_writes_it = number.whole > 1 && number.digits.front() == '0';
    if (!nobody_writes_it) {
        slips.emplace_back(kind, number.text());
    }
}

void add_digit_slips(const WrittenNumber& number, Slips& slips) {
    const std::string& digits = number.digits;
    for (std::size_t at = 0; at < digits.size(); ++at) {
        WrittenNumber other = number;
        for (char digit = '0'; digit <= '9'; ++digit) {
            other.digits[at] = digit;
            add(SlipKind::digit_changed, other, slips);
        }
        if (at + 1 < digits.size()) {
            other.digits = digits;
            std::swap(other.digits[at], other.digits[at + 1]);
            add(SlipKind::digits_swapped, other, slips);
        }
        other = number;
        other.digits.erase(at, 1);
        other.whole -= at < number.whole ? 1 : 0;
        add(SlipKind::digit_too_many, other, slips);
    }
    for (std::size_t at = 0; at <= digits.size(); ++at) {
        for (char digit = '0'; digit <= '9'; ++digit) {
            WrittenNumber other = number;
            other.digits.insert(at, 1, digit);
            if (at >= number.whole && number.point != 0) { // behind the point
                add(SlipKind::digit_missing, other, slips);
            }
            if (at <= number.whole) { // before it
                ++other.whole;
                add(SlipKind::digit_missing, other, slips);
            }
        }
    }
}

void add_point_slips(const WrittenNumber& number, Slips& slips) {
    if (number.point == 0) {
        for (std::size_t whole = 0; whole < number.digits.size(); ++whole) {
            WrittenNumber other = number;
            other.whole = whole;
            add(SlipKind::point_moved, other, slips);
        }
        return;
    }
    WrittenNumber right = number;
    if (number.whole == number.digits.size()) {
        right.digits += '0';
    }
    ++right.whole;
    add(SlipKind::point_moved, right, slips);
    WrittenNumber left = number;
    if (number.whole == 0) {
        left.digits.insert(0, 1, '0');
    } else {
        --left.whole;
    }
    add(SlipKind::point_moved, left, slips);
}

/// Every text that one slip could have made into this one.
Slips slips_of(const std::string& text) {
    Slips slips;
    if (const auto number = taken_apart(text)) {
        add_digit_slips(*number, slips);
        add_point_slips(*number, slips);
    }
    return slips;
}

double middle(const TypedAmount& amount) {
    return (amount.low + amount.high) / 2.0;
}
double half_step(const TypedAmount& amount) {
    return (amount.high - amount.low + amount.resolution) / 2.0;
}

/// Parts and the figure below them, read.
class Column {
  public:
    enum class Of { total, mean };

    static Result<Column> read(const std::vector<std::string>& parts, const std::string& figure,
                               Of of, Dimension dimension, std::string_view bare_unit) {
        Column column(of, dimension, bare_unit);
        if (parts.size() < 2) {
            return Error{
                ErrorCode::too_few_rows, "parts", std::to_string(parts.size()), "2", {}, {}};
        }
        if (const auto bad = outside("parts", static_cast<double>(parts.size()),
                                     {2.0, static_cast<double>(most_parts), {}})) {
            return *bad;
        }
        for (std::size_t at = 0; at < parts.size(); ++at) {
            const auto part = parse_amount(parts[at], dimension, bare_unit);
            if (!part) {
                return named(part.error(), "parts", static_cast<int>(at) + 1);
            }
            column.parts_.push_back(*part);
            column.texts_.push_back(parts[at]);
        }
        const auto stated = parse_amount(figure, dimension, bare_unit);
        if (!stated) {
            return named(stated.error(), of == Of::total ? "total" : "mean", std::nullopt);
        }
        column.stated_ = *stated;
        column.stated_text_ = figure;
        return column;
    }

    StatedTotal judged() const {
        StatedTotal found;
        found.own = of_sum(sum());
        found.stated = middle(stated_);
        found.stated_more_by = found.stated - found.own;
        double half_steps = 0.0;
        for (const TypedAmount& part : parts_) {
            half_steps += half_step(part);
        }
        found.rounding = of_sum(half_steps) + half_step(stated_);
        const double apart = std::abs(found.stated_more_by);
        if (!all_plain()) {
            found.verdict = TotalVerdict::cannot_tell;
        } else if (apart <= half_step(stated_) + slack()) {
            found.verdict = TotalVerdict::adds_up;
        } else if (apart <= found.rounding + slack()) {
            found.verdict = TotalVerdict::rounding_explains;
        } else {
            found.verdict = TotalVerdict::not_theirs;
            found.slips = likely_slips();
        }
        return found;
    }

  private:
    Column(Of of, Dimension dimension, std::string_view bare_unit)
        : of_(of), dimension_(dimension), bare_unit_(bare_unit) {}

    static Error named(Error error, const char* field, std::optional<int> line) {
        error.field = field;
        error.line = line;
        return error;
    }

    [[nodiscard]] double sum() const {
        double sum = 0.0;
        for (const TypedAmount& part : parts_) {
            sum += middle(part);
        }
        return sum;
    }
    [[nodiscard]] double of_sum(double sum) const {
        return of_ == Of::total ? sum : sum / static_cast<double>(parts_.size());
    }
    /// What adding decimals in binary leaves over.
    [[nodiscard]] double slack() const {
        double size = std::abs(middle(stated_));
        for (const TypedAmount& part : parts_) {
            size += std::abs(middle(part));
        }
        return 1e-12 * size;
    }
    [[nodiscard]] bool all_plain() const {
        const auto plain = [](const TypedAmount& one) { return one.firmness == Firmness::plain; };
        return plain(stated_) && std::all_of(parts_.begin(), parts_.end(), plain);
    }

    /// Readings of all texts that one slip could have made into `typed`, each value once.
    [[nodiscard]] std::vector<std::pair<LikelySlip, TypedAmount>> meant(const std::string& typed,
                                                                        double typed_value) const {
        std::vector<std::pair<LikelySlip, TypedAmount>> found;
        std::set<double> values{typed_value};
        for (auto& [kind, text] : slips_of(typed)) {
            const auto amount = parse_amount(text, dimension_, bare_unit_);
            if (amount && values.insert(middle(*amount)).second) {
                found.push_back({{std::nullopt, kind, text, middle(*amount)}, *amount});
            }
        }
        return found;
    }

    /// Parts as far apart as they would stand with one of them put right.
    [[nodiscard]] double range_with(const LikelySlip& slip) const {
        double least = slip.value;
        double most = slip.value;
        for (std::size_t at = 0; at < parts_.size(); ++at) {
            if (slip.part != at) {
                least = std::min(least, middle(parts_[at]));
                most = std::max(most, middle(parts_[at]));
            }
        }
        return most - least;
    }

    [[nodiscard]] std::vector<LikelySlip> likely_slips() const {
        std::vector<LikelySlip> slips;
        const double whole = sum();
        for (std::size_t at = 0; at < parts_.size(); ++at) {
            const double others = whole - middle(parts_[at]);
            for (auto& [slip, amount] : meant(texts_[at], middle(parts_[at]))) {
                const double own = of_sum(others + slip.value);
                if (std::abs(own - middle(stated_)) <= half_step(stated_) + slack()) {
                    slips.push_back(slip);
                    slips.back().part = at;
                }
            }
        }
        if (of_ == Of::mean) {
            std::stable_sort(slips.begin(), slips.end(),
                             [&](const LikelySlip& one, const LikelySlip& other) {
                                 return range_with(one) < range_with(other);
                             });
        }
        for (auto& [slip, amount] : meant(stated_text_, middle(stated_))) {
            if (std::abs(of_sum(whole) - slip.value) <= half_step(amount) + slack()) {
                slips.push_back(slip);
            }
        }
        return slips;
    }

    Of of_;
    Dimension dimension_;
    std::string bare_unit_;
    std::vector<TypedAmount> parts_;
    std::vector<std::string> texts_;
    TypedAmount stated_;
    std::string stated_text_;
};

Result<StatedTotal> judged(const Result<Column>& column) {
    if (!column) {
        return column.error();
    }
    return column->judged();
}

} // namespace

Result<StatedTotal> check_total(const std::vector<std::string>& parts, const std::string& total,
                                Dimension dimension, std::string_view bare_unit) {
    RODWAY_ASSERT(dimension != Dimension::temperature);
    return judged(Column::read(parts, total, Column::Of::total, dimension, bare_unit));
}

Result<StatedTotal> check_mean(const std::vector<std::string>& parts, const std::string& mean,
                               Dimension dimension, std::string_view bare_unit) {
    return judged(Column::read(parts, mean, Column::Of::mean, dimension, bare_unit));
}

} // namespace rodway
