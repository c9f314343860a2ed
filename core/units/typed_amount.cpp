#include "core/units/typed_amount.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>
#include <cmath>
#include <optional>

#include "core/base/assert.h"
#include "core/units/other_unit.h"
#include "core/units/plain_text.h"

namespace rodway {
namespace {

bool is_digit(char c) {
    return std::isdigit(static_cast<unsigned char>(c)) != 0;
}
bool is_letter(char c) {
    return std::isalpha(static_cast<unsigned char>(c)) != 0;
}

struct WrittenNumber {
    double value = 0.0;
    double step = 1.0; ///< of the last digit
    bool minus = false;
};

class AmountParser {
  public:
    AmountParser(std::string_view text, Dimension dimension, std::string_view bare_unit)
        : original_(text),
          text_(plain_text(text)),
          dimension_(dimension),
          bare_(find_unit(dimension, bare_unit)) {
        RODWAY_ASSERT(bare_ || dimension == Dimension::none);
    }

    Result<TypedAmount> parse() {
        if (text_.empty()) {
            return fail(ErrorCode::empty_text);
        }
        if (const auto centre = dead_centre()) {
            return *centre;
        }
        take_firmness();
        const auto first = take_number();
        if (!first) {
            return fail();
        }
        const MeasureUnit* unit = take_unit();
        if (take("+-")) {
            return plus_minus(*first, unit);
        }
        if (const auto nominal = nominal_with_pair(*first, unit)) {
            return *nominal;
        }
        if (take("-") || take("..") || take("to ")) {
            return interval(*first, unit);
        }
        return finish(first->value, first->value, {first->step, first->step, first->minus}, unit);
    }

  private:
    Error fail(ErrorCode code = ErrorCode::not_an_amount) const {
        return {code, {}, original_, unit_ids(dimension_), {}, {}};
    }

    /// "TDC", "BDC": an angle without a number.
    std::optional<TypedAmount> dead_centre() const {
        if (dimension_ != Dimension::crank_angle || (text_ != "tdc" && text_ != "bdc")) {
            return std::nullopt;
        }
        TypedAmount typed;
        typed.low = typed.high = text_ == "bdc" ? 180.0 : 0.0;
        typed.unit = "deg";
        return typed;
    }

    void skip_space() {
        while (at_ < text_.size() && text_[at_] == ' ') {
            ++at_;
        }
    }
    bool take(std::string_view token) {
        skip_space();
        if (text_.compare(at_, token.size(), token) != 0) {
            return false;
        }
        at_ += token.size();
        return true;
    }
    void take_firmness() {
        if (take("~")) {
            typed_.firmness = Firmness::about;
        } else if (take("<")) {
            typed_.firmness = Firmness::below;
        } else if (take(">")) {
            typed_.firmness = Firmness::above;
        }
    }

    std::string take_digits() {
        const std::size_t start = at_;
        while (at_ < text_.size() && is_digit(text_[at_])) {
            ++at_;
        }
        return text_.substr(start, at_ - start);
    }

    /// 45, .5, 64,5, 1/4, 1-1/2, 1 1/2, with a sign before it.
    std::optional<WrittenNumber> take_number() {
        WrittenNumber number;
        number.minus = take("-");
        if (!number.minus) {
            take("+");
        }
        skip_space();
        std::string digits = take_digits();
        std::size_t decimals = 0;
        if (at_ + 1 < text_.size() && (text_[at_] == '.' || text_[at_] == ',') &&
            is_digit(text_[at_ + 1])) {
            const bool comma = text_[at_++] == ',';
            const std::string behind = take_digits();
            if (comma && behind.size() == 3 && digits.find_first_not_of('0') == 0) {
                return std::nullopt;
            }
            decimals = behind.size();
            digits += '.';
            digits += behind;
        }
        if (digits.empty() || digits.size() > 30) {
            return std::nullopt;
        }
        std::from_chars(digits.data(), digits.data() + digits.size(), number.value);
        number.step = std::pow(10.0, -static_cast<double>(decimals));
        if (decimals == 0) {
            take_fraction(number);
        }
        if (number.minus) {
            number.value = -number.value;
        }
        return number;
    }

    /// What stands behind a fraction's stroke, or nothing: "45/65" is two steps, and no fraction.
    std::optional<double> take_parts(double above) {
        static constexpr std::array<double, 9> usual{2.0,  3.0,  4.0,  6.0, 8.0,
                                                     12.0, 16.0, 32.0, 64.0};
        const std::string digits = take_digits();
        double below = 0.0;
        std::from_chars(digits.data(), digits.data() + digits.size(), below);
        const bool known = std::find(usual.begin(), usual.end(), below) != usual.end();
        return known && above > 0.0 && above < below ? std::optional(below) : std::nullopt;
    }

    void take_fraction(WrittenNumber& number) {
        const std::size_t start = at_;
        double whole = 0.0;
        double above = number.value;
        if (at_ < text_.size() && (text_[at_] == ' ' || text_[at_] == '-')) {
            ++at_;
            const std::string digits = take_digits();
            whole = number.value;
            above = 0.0;
            std::from_chars(digits.data(), digits.data() + digits.size(), above);
        }
        if (at_ < text_.size() && text_[at_] == '/') {
            ++at_;
            if (const auto below = take_parts(above)) {
                number.value = whole + above / *below;
                number.step = 1.0 / *below;
                return;
            }
        }
        at_ = start;
    }

    /// Where `word` ends if it stands here, blanks, points and hyphens between its letters passed
    /// over; nothing if another letter follows.
    [[nodiscard]] std::optional<std::size_t> end_of(std::string_view word) const {
        std::size_t at = at_;
        for (const char wanted : word) {
            while (at > at_ && at < text_.size() &&
                   (text_[at] == ' ' || text_[at] == '.' || text_[at] == '-')) {
                ++at;
            }
            if (at >= text_.size() || text_[at] != wanted) {
                return std::nullopt;
            }
            ++at;
        }
        const bool goes_on = at < text_.size() && is_letter(text_[at]) && is_letter(word.back());
        return goes_on ? std::nullopt : std::optional(at);
    }

    /// The unit that takes most of what stands here, or nullptr.
    const MeasureUnit* take_unit() {
        skip_space();
        const MeasureUnit* found = nullptr;
        std::size_t end = at_;
        for (const MeasureUnit& unit : units_of(dimension_)) {
            for (std::size_t from = 0; from < unit.words.size();) {
                const std::size_t to = std::min(unit.words.find(' ', from), unit.words.size());
                const auto word_end = end_of(unit.words.substr(from, to - from));
                if (word_end && *word_end > end) {
                    found = &unit;
                    end = *word_end;
                }
                from = to + 1;
            }
        }
        if (!found && dimension_ == Dimension::temperature) {
            end = bare_degrees().value_or(end);
        }
        at_ = end;
        if (found) {
            take(".");
        }
        return found;
    }
    /// "180 degrees": of those that a bare number counts.
    [[nodiscard]] std::optional<std::size_t> bare_degrees() const {
        for (const char* word : {"degrees", "degree", "degs", "deg"}) {
            if (const auto end = end_of(word)) {
                return end;
            }
        }
        return std::nullopt;
    }

    /// What is said behind a spring's load: where, and at which height.
    void pass_over_where() {
        for (const char* word : {"onseat", "ontheseat", "seat", "open", "overthenose"}) {
            skip_space();
            if (const auto end = end_of(word)) {
                at_ = *end;
                break;
            }
        }
        skip_space();
        const auto end = end_of("at") ? end_of("at") : end_of("@");
        if (end && parse_length(std::string_view(text_).substr(*end), BareNumber::inches)) {
            at_ = text_.size();
        }
    }

    /// How finely two ends were typed.
    struct Steps {
        double last = 1.0; ///< of the last digit
        double finest = 1.0;
        bool minus = false; ///< before either
    };

    Result<TypedAmount> interval(const WrittenNumber& first, const MeasureUnit* unit) {
        const auto second = take_number();
        if (!second) {
            return fail();
        }
        const MeasureUnit* second_unit = take_unit();
        if (unit && second_unit && unit != second_unit) {
            return fail();
        }
        const bool angle =
            dimension_ == Dimension::crank_angle || dimension_ == Dimension::cam_angle;
        const bool unclear = angle && unit && !second_unit; // 53 cam - 106: what of the second?
        if (second->value < first.value || unclear) {
            return fail();
        }
        const Steps steps{std::min(first.step, second->step), common_step(first.step, second->step),
                          first.minus || second->minus};
        return finish(first.value, second->value, steps, second_unit ? second_unit : unit);
    }

    Result<TypedAmount> plus_minus(const WrittenNumber& middle, const MeasureUnit* unit) {
        const auto spread = take_number();
        if (!spread || spread->minus) {
            return fail();
        }
        const MeasureUnit* second_unit = take_unit();
        if (unit && second_unit && unit != second_unit) {
            return fail();
        }
        const Steps steps{middle.step, common_step(middle.step, spread->step), middle.minus};
        return finish(middle.value - spread->value, middle.value + spread->value, steps,
                      second_unit ? second_unit : unit);
    }

    /// "110 +5/-0", "64 +.5/-1 cc"; nothing if that isn't what stands here.
    std::optional<Result<TypedAmount>> nominal_with_pair(const WrittenNumber& size,
                                                         const MeasureUnit* unit) {
        const std::size_t start = at_;
        const auto first = sign_ahead() ? take_number() : std::nullopt;
        const bool slash = first && take("/");
        const auto second = slash && sign_ahead() ? take_number() : std::nullopt;
        if (!second) {
            at_ = start;
            return std::nullopt;
        }
        const MeasureUnit* second_unit = take_unit();
        if (unit && second_unit && unit != second_unit) {
            return fail();
        }
        const double a = size.value + first->value;
        const double b = size.value + second->value;
        const Steps steps{size.step, common_step(size.step, common_step(first->step, second->step)),
                          size.minus};
        return finish(std::min(a, b), std::max(a, b), steps, second_unit ? second_unit : unit);
    }
    bool sign_ahead() {
        skip_space();
        return at_ < text_.size() && (text_[at_] == '+' || text_[at_] == '-');
    }

    Result<TypedAmount> finish(double low, double high, const Steps& steps,
                               const MeasureUnit* unit) {
        if (dimension_ == Dimension::force) {
            pass_over_where();
        }
        skip_space();
        const bool one_sided =
            typed_.firmness == Firmness::below || typed_.firmness == Firmness::above;
        if (at_ < text_.size() || (unit && unit->from_dead_centre && steps.minus) ||
            (one_sided && low != high)) {
            return fail();
        }
        if (!unit) {
            unit = bare_;
        }
        const double factor = unit ? unit->factor : 1.0;
        const double offset = unit ? unit->offset : 0.0;
        const double one_end = low * factor + offset + 0.0; // no negative zero
        const double other_end = high * factor + offset + 0.0;
        typed_.low = std::min(one_end, other_end);
        typed_.high = std::max(one_end, other_end);
        if (factor < 0.0) { // less than 20 before is later
            typed_.firmness = turned_round(typed_.firmness);
        }
        typed_.resolution = steps.last * std::abs(factor);
        typed_.finest = steps.finest * std::abs(factor);
        typed_.unit = unit ? unit->id : "";
        return typed_;
    }

    std::string original_;
    std::string text_;
    Dimension dimension_;
    const MeasureUnit* bare_;
    std::size_t at_ = 0;
    TypedAmount typed_;
};

Result<TypedAmount> parse_length_amount(std::string_view text, std::string_view bare_unit) {
    const auto typed =
        parse_length(text, bare_unit == "in" ? BareNumber::inches : BareNumber::millimetres);
    if (!typed) {
        return typed.error();
    }
    return TypedAmount{typed->low.in_mm(), typed->high.in_mm(),       typed->resolution.in_mm(),
                       typed->firmness,    typed->inch ? "in" : "mm", typed->finest.in_mm()};
}

} // namespace

Result<TypedAmount> parse_amount(std::string_view text, Dimension dimension,
                                 std::string_view bare_unit) {
    if (dimension == Dimension::length) {
        return parse_length_amount(text, bare_unit);
    }
    return AmountParser(text, dimension, bare_unit).parse();
}

} // namespace rodway
