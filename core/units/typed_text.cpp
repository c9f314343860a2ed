#include "core/units/typed_text.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>
#include <cmath>
#include <utility>
#include <vector>

#include "core/units/plain_text.h"

namespace rodway {
namespace {

constexpr std::array<std::string_view, 20> small_words{
    "zero",     "one",     "two",     "three",     "four",     "five",    "six",
    "seven",    "eight",   "nine",    "ten",       "eleven",   "twelve",  "thirteen",
    "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"};
constexpr std::array<std::string_view, 10> tens_words{
    "", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"};

/// A number somebody typed, and how it was written.
struct Number {
    double value = 0.0;
    int decimals = 0;   ///< digits behind the point
    bool point = false; ///< had a decimal point
    bool comma = false; ///< had a decimal comma
    bool leading_point = false;
    bool fraction = false; ///< 1/8, 1-1/2
    bool spoken = false;   ///< in words
};

enum class Unit { none, inch, thou, tenth, mm, cm, um };

struct WrittenLength {
    Number number;
    Unit unit = Unit::none;
};

/// Walks over one typed text. Each `take_` moves past what it recognises, or stays where it was.
class Reader {
  public:
    explicit Reader(std::string text) : text_(std::move(text)) {}

    void skip_space() {
        while (at_ < text_.size() && text_[at_] == ' ') {
            ++at_;
        }
    }
    [[nodiscard]] bool at_end() {
        skip_space();
        return at_ >= text_.size();
    }
    [[nodiscard]] std::size_t position() const { return at_; }
    void go_back(std::size_t position) { at_ = position; }

    bool take(std::string_view token) {
        if (text_.compare(at_, token.size(), token) != 0) {
            return false;
        }
        at_ += token.size();
        return true;
    }
    bool take_word(std::string_view word) {
        const std::size_t start = at_;
        skip_space();
        if (take(word) &&
            (at_ >= text_.size() || !std::isalpha(static_cast<unsigned char>(text_[at_])))) {
            return true;
        }
        at_ = start;
        return false;
    }

    std::optional<Number> take_number() {
        skip_space();
        const auto whole = take_decimal();
        if (!whole) {
            return take_spoken();
        }
        if (whole->point || whole->comma) {
            return whole;
        }
        if (const auto fraction = take_fraction_after(*whole)) {
            return fraction;
        }
        return whole;
    }

    std::optional<Unit> take_unit() {
        const std::size_t start = at_;
        skip_space();
        if (take("\"")) {
            return Unit::inch;
        }
        static constexpr std::array<std::pair<std::string_view, Unit>, 18> names{{
            {"inches", Unit::inch},
            {"inch", Unit::inch},
            {"in", Unit::inch},
            {"thousandths", Unit::thou},
            {"thousandth", Unit::thou},
            {"thous", Unit::thou},
            {"thou", Unit::thou},
            {"tenths", Unit::tenth},
            {"tenth", Unit::tenth},
            {"millimetres", Unit::mm},
            {"millimeters", Unit::mm},
            {"mm", Unit::mm},
            {"cm", Unit::cm},
            {"microns", Unit::um},
            {"micron", Unit::um},
            {"um", Unit::um},
            {"millimetre", Unit::mm},
            {"millimeter", Unit::mm},
        }};
        for (const auto& [name, unit] : names) {
            if (take_word(name)) {
                take(".");
                return unit;
            }
        }
        at_ = start;
        return std::nullopt;
    }

  private:
    [[nodiscard]] bool digit_here() const {
        return at_ < text_.size() && std::isdigit(static_cast<unsigned char>(text_[at_]));
    }

    std::optional<Number> take_decimal() {
        const std::size_t start = at_;
        Number number;
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
                number.decimals = static_cast<int>(behind.size());
                digits += '.';
                digits += behind;
            }
        }
        if (digits.empty() || digits.size() > 30) {
            at_ = start;
            return std::nullopt;
        }
        std::from_chars(digits.data(), digits.data() + digits.size(), number.value);
        return number;
    }

    /// Accepts n/d, w-n/d and w n/d, the first number taken already.
    std::optional<Number> take_fraction_after(const Number& first) {
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
        Number number;
        number.fraction = true;
        number.value = whole + above / below->value;
        return number;
    }

    std::optional<int> take_word_below_hundred() {
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

    std::optional<Number> take_spoken() {
        const std::size_t start = at_;
        Number number;
        number.spoken = true;
        if (take_word("half")) {
            if (!take_word("a")) {
                take_word("an");
            }
            number.value = 0.5;
            number.decimals = 1;
            return number;
        }
        if (take_word("a")) {
            number.value = 1.0;
            return number;
        }
        if (const auto whole = take_word_below_hundred()) {
            number.value = *whole;
            const std::size_t after = at_;
            if (take_word("and") && take_word("a") && take_word("half")) {
                number.value += 0.5;
                number.decimals = 1;
            } else {
                at_ = after;
            }
            return number;
        }
        at_ = start;
        return std::nullopt;
    }

    std::string text_;
    std::size_t at_ = 0;
};

Length step_of(Unit unit) {
    switch (unit) {
        case Unit::inch:
            return Length::inches(1.0);
        case Unit::thou:
            return Length::thou(1.0);
        case Unit::tenth:
            return Length::thou(0.1);
        case Unit::mm:
            return Length::mm(1.0);
        case Unit::cm:
            return Length::mm(10.0);
        case Unit::um:
            return Length::mm(0.001);
        case Unit::none:
            break;
    }
    RODWAY_ASSERT(false);
    return {};
}

bool metric(Unit unit) {
    return unit == Unit::mm || unit == Unit::cm || unit == Unit::um;
}

/// Decimal inches times 25.4 as the shortest exact route, so that ".010" and "10 thou" are one
/// number.
Length length_of(double value, Unit unit) {
    switch (unit) {
        case Unit::thou:
            return Length::inches(value / 1000.0);
        case Unit::tenth:
            return Length::inches(value / 10000.0);
        case Unit::um:
            return Length::mm(value / 1000.0);
        default:
            return step_of(unit) * value;
    }
}

Length resolution_of(const Number& number, Unit unit) {
    if (number.fraction) {
        return Length::inches(1.0 / 64.0);
    }
    return length_of(std::pow(10.0, -number.decimals), unit);
}

std::optional<Unit> meaning_of_bare(const Number& number, BareNumber bare) {
    if (number.value == 0.0 && bare != BareNumber::refused) {
        return bare == BareNumber::inches ? Unit::inch : Unit::mm;
    }
    switch (bare) {
        case BareNumber::inches:
            return (number.point || number.fraction) ? std::optional(Unit::inch) : std::nullopt;
        case BareNumber::millimetres:
            if (number.fraction) {
                return Unit::inch;
            }
            return number.leading_point || number.spoken ? std::nullopt : std::optional(Unit::mm);
        case BareNumber::refused:
            return std::nullopt;
    }
    return std::nullopt;
}

class LengthParser {
  public:
    LengthParser(std::string_view text, BareNumber bare)
        : original_(text), reader_(plain_text(text)), bare_(bare) {}

    Result<TypedLength> parse() {
        if (reader_.at_end()) {
            return fail(ErrorCode::empty_text);
        }
        take_firmness();
        const bool signed_first = sign_ahead();
        const double sign = take_sign();
        auto first = take_quantity();
        if (!first) {
            return fail(looks_like_mil() ? ErrorCode::ambiguous_unit : ErrorCode::not_a_length);
        }
        if (thread_ahead(*first)) {
            return fail(ErrorCode::thread_not_length);
        }
        if (looks_like_mil()) {
            return fail(ErrorCode::ambiguous_unit);
        }
        if (signed_first && reader_.take("/")) {
            return tolerance_pair(sign, *first);
        }
        if (auto spoken = spoken_tail(*first, sign)) {
            return *spoken;
        }
        if (reader_.take("+-")) {
            return plus_minus(sign, *first);
        }
        if (reader_.take("-") || reader_.take_word("to") || reader_.take("..")) {
            return interval(sign, *first);
        }
        if (sign_ahead()) {
            return nominal_with_pair(sign, *first);
        }
        return finish(*first, sign * first->number.value, sign * first->number.value);
    }

  private:
    Error fail(ErrorCode code) const { return {code, {}, original_, {}, {}, {}}; }

    void take_firmness() {
        if (reader_.take("~")) {
            typed_.firmness = Firmness::about;
        } else if (reader_.take("<")) {
            typed_.firmness = Firmness::below;
        } else if (reader_.take(">")) {
            typed_.firmness = Firmness::above;
        }
    }
    bool sign_ahead() {
        reader_.skip_space();
        const std::size_t here = reader_.position();
        const bool found = (reader_.take("+") && !reader_.take("-")) || reader_.take("-");
        reader_.go_back(here);
        return found;
    }
    double take_sign() {
        reader_.skip_space();
        if (reader_.take("-")) {
            return -1.0;
        }
        reader_.take("+");
        return 1.0;
    }
    bool looks_like_mil() {
        const std::size_t here = reader_.position();
        const bool found = reader_.take_word("mil") || reader_.take_word("mils");
        reader_.go_back(here);
        return found;
    }
    /// 7/16-14 and 3/8x2.5 are fasteners.
    bool thread_ahead(const WrittenLength& first) {
        if (!first.number.fraction || first.unit != Unit::none) {
            return false;
        }
        const std::size_t here = reader_.position();
        bool thread = reader_.take("x");
        if (!thread && reader_.take("-")) {
            const auto pitch = reader_.take_number();
            thread = pitch && !pitch->fraction && !pitch->point && pitch->value >= 4.0;
        }
        reader_.go_back(here);
        return thread;
    }
    std::optional<WrittenLength> take_quantity() {
        const auto number = reader_.take_number();
        if (!number) {
            return std::nullopt;
        }
        return WrittenLength{*number, reader_.take_unit().value_or(Unit::none)};
    }

    /// '14 thousandths and 5 tenths', 'forty over', 'ten under'.
    std::optional<Result<TypedLength>> spoken_tail(WrittenLength& first, double sign) {
        if (first.unit == Unit::none && reader_.take_word("over")) {
            first.unit = Unit::thou;
            return finish(first, first.number.value, first.number.value);
        }
        if (first.unit == Unit::none && reader_.take_word("under")) {
            first.unit = Unit::thou;
            return finish(first, -first.number.value, -first.number.value);
        }
        if (first.unit == Unit::thou && reader_.take_word("and")) {
            const auto tenths = take_quantity();
            if (!tenths || tenths->unit != Unit::tenth) {
                return fail(ErrorCode::not_a_length);
            }
            first.number.decimals = 1;
            const double value = sign * (first.number.value + tenths->number.value / 10.0);
            return finish(first, value, value);
        }
        return std::nullopt;
    }

    Result<TypedLength> interval(double sign, WrittenLength first) {
        const double second_sign = take_sign();
        auto second = take_quantity();
        if (!second) {
            return fail(ErrorCode::not_a_length);
        }
        if (first.unit == Unit::none) {
            first.unit = second->unit;
        }
        if (second->unit == Unit::none) {
            second->unit = first.unit;
        }
        if (first.unit != second->unit) {
            return fail(ErrorCode::not_a_length);
        }
        const double low = sign * first.number.value;
        const double high = second_sign * second->number.value;
        if (high < low) {
            return fail(ErrorCode::not_a_length);
        }
        first.number.point = first.number.point && second->number.point;
        return finish(first, low, high);
    }

    Result<TypedLength> plus_minus(double sign, WrittenLength first) {
        const auto spread = take_quantity();
        if (!spread) {
            return fail(ErrorCode::not_a_length);
        }
        if (first.unit == Unit::none) {
            first.unit = spread->unit;
        }
        const double middle = sign * first.number.value;
        return finish(first, middle - spread->number.value, middle + spread->number.value);
    }

    /// +.003/-.001 with no nominal before it.
    Result<TypedLength> tolerance_pair(double sign, WrittenLength first) {
        const double second_sign = take_sign();
        const auto second = take_quantity();
        if (!second) {
            return fail(ErrorCode::not_a_length);
        }
        if (first.unit == Unit::none) {
            first.unit = second->unit;
        }
        const double a = sign * first.number.value;
        const double b = second_sign * second->number.value;
        return finish(first, std::min(a, b), std::max(a, b));
    }

    /// 2.100 +.003/-.001
    Result<TypedLength> nominal_with_pair(double sign, WrittenLength nominal) {
        const double first_sign = take_sign();
        const auto first = take_quantity();
        if (!first || !reader_.take("/")) {
            return fail(ErrorCode::not_a_length);
        }
        const double second_sign = take_sign();
        const auto second = take_quantity();
        if (!second) {
            return fail(ErrorCode::not_a_length);
        }
        if (nominal.unit == Unit::none) {
            nominal.unit = second->unit;
        }
        const double middle = sign * nominal.number.value;
        const double a = middle + first_sign * first->number.value;
        const double b = middle + second_sign * second->number.value;
        return finish(nominal, std::min(a, b), std::max(a, b));
    }

    Result<TypedLength> finish(const WrittenLength& quantity, double low, double high) {
        if (!reader_.at_end()) {
            return fail(looks_like_mil() ? ErrorCode::ambiguous_unit : ErrorCode::not_a_length);
        }
        Unit unit = quantity.unit;
        if (unit == Unit::none) {
            const auto meant = meaning_of_bare(quantity.number, bare_);
            if (!meant) {
                return fail(ErrorCode::unit_needed);
            }
            unit = *meant;
        }
        typed_.low = length_of(low, unit);
        typed_.high = length_of(high, unit);
        typed_.resolution = resolution_of(quantity.number, unit);
        typed_.inch = !metric(unit);
        typed_.text = original_;
        return typed_;
    }

    std::string original_;
    Reader reader_;
    BareNumber bare_;
    TypedLength typed_;
};

} // namespace

Result<TypedLength> parse_length(std::string_view text, BareNumber bare) {
    return LengthParser(text, bare).parse();
}

Result<double> parse_number(std::string_view text) {
    std::string plain = plain_text(text);
    if (plain.empty()) {
        return Error{ErrorCode::empty_text, {}, std::string(text), {}, {}, {}};
    }
    std::replace(plain.begin(), plain.end(), ',', '.');
    const char* begin = plain.data();
    const char* const end = begin + plain.size();
    if (*begin == '+') {
        ++begin;
    }
    double value = 0.0;
    const auto [stopped, failure] = std::from_chars(begin, end, value);
    if (failure != std::errc() || stopped != end || !std::isfinite(value)) {
        return Error{ErrorCode::not_a_number, {}, std::string(text), {}, {}, {}};
    }
    return value;
}

std::string exact_text(double value) {
    std::array<char, 32> buffer{};
    const auto written = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value);
    return {buffer.data(), written.ptr};
}

} // namespace rodway
