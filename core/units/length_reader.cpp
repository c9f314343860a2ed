#include "core/units/length_reader.h"

#include <array>
#include <cctype>
#include <charconv>
#include <cmath>
#include <utility>

namespace rodway {
namespace {

constexpr std::array<std::string_view, 20> small_words{
    "zero",     "one",     "two",     "three",     "four",     "five",    "six",
    "seven",    "eight",   "nine",    "ten",       "eleven",   "twelve",  "thirteen",
    "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"};
constexpr std::array<std::string_view, 10> tens_words{
    "", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"};

} // namespace

bool is_metric(LengthUnit unit) {
    return unit == LengthUnit::mm || unit == LengthUnit::cm || unit == LengthUnit::um ||
           unit == LengthUnit::tenth_of_mm;
}

Length length_of(double value, LengthUnit unit) {
    switch (unit) {
        case LengthUnit::inch:
            return Length::inches(value);
        case LengthUnit::thou:
            return Length::inches(value / 1000.0);
        case LengthUnit::tenth:
        case LengthUnit::tenth_of_thou:
            return Length::inches(value / 10000.0);
        case LengthUnit::tenth_of_mm:
            return Length::mm(value / 10.0);
        case LengthUnit::mm:
            return Length::mm(value);
        case LengthUnit::cm:
            return Length::mm(10.0 * value);
        case LengthUnit::um:
            return Length::mm(value / 1000.0);
    }
    return {};
}

void LengthReader::skip_space() {
    while (at_ < text_.size() && text_[at_] == ' ') {
        ++at_;
    }
}

bool LengthReader::at_end() {
    skip_space();
    return at_ >= text_.size();
}

bool LengthReader::take(std::string_view token) {
    if (text_.compare(at_, token.size(), token) != 0) {
        return false;
    }
    at_ += token.size();
    return true;
}

bool LengthReader::take_word(std::string_view word) {
    const std::size_t start = at_;
    skip_space();
    if (take(word) &&
        (at_ >= text_.size() || !std::isalpha(static_cast<unsigned char>(text_[at_])))) {
        return true;
    }
    at_ = start;
    return false;
}

std::optional<LengthNumber> LengthReader::take_number() {
    skip_space();
    auto whole = take_decimal();
    if (!whole) {
        return take_spoken();
    }
    if (whole->point || whole->comma) {
        return whole;
    }
    if (const auto fraction = take_fraction_after(*whole)) {
        return fraction;
    }
    take_and_a_half(*whole);
    return whole;
}

std::optional<LengthUnit> LengthReader::take_unit() {
    const std::size_t start = at_;
    skip_space();
    if (take("\"")) {
        return LengthUnit::inch;
    }
    using U = LengthUnit;
    static constexpr std::array<std::pair<std::string_view, U>, 18> names{{
        {"inches", U::inch},
        {"inch", U::inch},
        {"in", U::inch},
        {"thousandths", U::thou},
        {"thousandth", U::thou},
        {"thous", U::thou},
        {"thou", U::thou},
        {"tenths", U::tenth},
        {"tenth", U::tenth},
        {"millimetres", U::mm},
        {"millimeters", U::mm},
        {"mm", U::mm},
        {"cm", U::cm},
        {"microns", U::um},
        {"micron", U::um},
        {"um", U::um},
        {"millimetre", U::mm},
        {"millimeter", U::mm},
    }};
    for (const auto& [name, unit] : names) {
        if (take_word(name)) {
            take(".");
            return take_of_what(unit);
        }
    }
    at_ = start;
    return std::nullopt;
}

/// "thousandths of an inch", "a tenth of a thou", "two tenths of a millimetre".
LengthUnit LengthReader::take_of_what(LengthUnit unit) {
    const std::size_t start = at_;
    const bool part = unit == LengthUnit::thou || unit == LengthUnit::tenth;
    if (part && take_word("of") && (take_word("an") || take_word("a"))) {
        if (unit == LengthUnit::thou && take_word("inch")) {
            return unit;
        }
        if (unit == LengthUnit::tenth && (take_word("thou") || take_word("thousandth"))) {
            return LengthUnit::tenth_of_thou;
        }
        if (unit == LengthUnit::tenth &&
            (take_word("mm") || take_word("millimetre") || take_word("millimeter"))) {
            return LengthUnit::tenth_of_mm;
        }
    }
    at_ = start;
    return unit;
}

bool LengthReader::digit_here() const {
    return at_ < text_.size() && std::isdigit(static_cast<unsigned char>(text_[at_]));
}

std::optional<LengthNumber> LengthReader::take_decimal() {
    const std::size_t start = at_;
    LengthNumber number;
    std::string digits;
    while (digit_here()) {
        digits += text_[at_++];
    }
    const bool whole_digits = !digits.empty();
    if (at_ < text_.size() && (text_[at_] == '.' || text_[at_] == ',')) {
        const bool comma = text_[at_] == ',';
        const std::size_t mark = at_++;
        std::string behind;
        while (digit_here()) {
            behind += text_[at_++];
        }
        if (behind.empty()) {
            at_ = mark;
        } else {
            number.comma = comma;
            number.point = !comma;
            number.leading_point = !whole_digits && !comma;
            number.step = std::pow(10.0, -static_cast<double>(behind.size()));
            digits += '.';
            digits += behind;
        }
    }
    constexpr std::size_t longest = 30;
    if (digits.empty() || digits.size() > longest) {
        at_ = start;
        return std::nullopt;
    }
    std::from_chars(digits.data(), digits.data() + digits.size(), number.value);
    return number;
}

/// Accepts n/d, w-n/d and w n/d, the first number taken already.
std::optional<LengthNumber> LengthReader::take_fraction_after(const LengthNumber& first) {
    const std::size_t after_first = at_;
    double whole = 0.0;
    double above = first.value;
    if (!take("/")) {
        if (!(take("-") || take(" "))) {
            return std::nullopt;
        }
        skip_space();
        const auto second = take_decimal();
        if (!second || second->point || second->comma || !take("/")) {
            at_ = after_first;
            return std::nullopt;
        }
        whole = first.value;
        above = second->value;
    }
    const auto below = take_decimal();
    if (!below || below->point || below->comma || below->value == 0.0 ||
        (whole > 0.0 && above >= below->value)) {
        at_ = after_first;
        return std::nullopt;
    }
    LengthNumber number;
    number.fraction = true;
    number.proper = above < below->value;
    number.value = whole + above / below->value;
    number.step = 1.0 / below->value;
    return number;
}

std::optional<int> LengthReader::take_word_below_hundred() {
    for (std::size_t tens = 2; tens < tens_words.size(); ++tens) {
        if (take_word(tens_words[tens])) {
            take("-");
            for (std::size_t ones = 1; ones < 10; ++ones) {
                if (take_word(small_words[ones])) {
                    return static_cast<int>(10 * tens + ones);
                }
            }
            return static_cast<int>(10 * tens);
        }
    }
    for (std::size_t word = 0; word < small_words.size(); ++word) {
        if (take_word(small_words[word])) {
            return static_cast<int>(word);
        }
    }
    return std::nullopt;
}

std::optional<LengthNumber> LengthReader::take_spoken() {
    LengthNumber number;
    number.spoken = true;
    if (take_word("half")) {
        if (!take_word("a")) {
            take_word("an");
        }
        number.value = 0.5;
        number.step = 0.5;
        return number;
    }
    if (take_word("a")) {
        number.value = 1.0;
        return number;
    }
    if (const auto whole = take_word_below_hundred()) {
        number.value = *whole;
        take_and_a_half(number);
        return number;
    }
    return std::nullopt;
}

void LengthReader::take_and_a_half(LengthNumber& number) {
    const std::size_t start = at_;
    if (take_word("and") && take_word("a") && take_word("half")) {
        number.value += 0.5;
        number.step = 0.5;
    } else {
        at_ = start;
    }
}

} // namespace rodway
