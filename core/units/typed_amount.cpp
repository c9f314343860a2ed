#include "core/units/typed_amount.h"

#include <algorithm>
#include <cctype>
#include <charconv>
#include <cmath>
#include <optional>

#include "core/base/assert.h"
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
        take_firmness();
        const auto first = take_number();
        if (!first) {
            return fail();
        }
        const MeasureUnit* unit = take_unit();
        if (take("+-")) {
            return plus_minus(*first, unit);
        }
        if (take("-") || take("..") || take("to ")) {
            return interval(*first, unit);
        }
        return finish(first->value, first->value, first->step, first->minus, unit);
    }

  private:
    Error fail(ErrorCode code = ErrorCode::not_an_amount) const {
        return {code, {}, original_, unit_ids(dimension_), {}, {}};
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

    void take_fraction(WrittenNumber& number) {
        const std::size_t start = at_;
        double whole = 0.0;
        double above = number.value;
        if (at_ < text_.size() && (text_[at_] == ' ' || text_[at_] == '-')) {
            ++at_;
            whole = number.value;
            above = std::atof(take_digits().c_str());
        }
        if (at_ < text_.size() && text_[at_] == '/') {
            ++at_;
            const double below = std::atof(take_digits().c_str());
            if (below > 0.0 && above > 0.0) {
                number.value = whole + above / below;
                number.step = 1.0 / below;
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
        at_ = end;
        if (found) {
            take(".");
        }
        return found;
    }

    Result<TypedAmount> interval(const WrittenNumber& first, const MeasureUnit* unit) {
        const auto second = take_number();
        if (!second) {
            return fail();
        }
        const MeasureUnit* second_unit = take_unit();
        if (unit && second_unit && unit != second_unit) {
            return fail();
        }
        if (second->value < first.value) {
            return fail();
        }
        return finish(first.value, second->value, std::min(first.step, second->step),
                      first.minus || second->minus, second_unit ? second_unit : unit);
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
        return finish(middle.value - spread->value, middle.value + spread->value, middle.step,
                      middle.minus, second_unit ? second_unit : unit);
    }

    Result<TypedAmount> finish(double low, double high, double step, bool minus,
                               const MeasureUnit* unit) {
        skip_space();
        if (at_ < text_.size() || (unit && unit->from_dead_centre && minus)) {
            return fail();
        }
        if (!unit) {
            unit = bare_;
        }
        if (!unit) {
            typed_.low = low;
            typed_.high = high;
            typed_.resolution = step;
            return typed_;
        }
        const double one_end = low * unit->factor + unit->offset;
        const double other_end = high * unit->factor + unit->offset;
        typed_.low = std::min(one_end, other_end);
        typed_.high = std::max(one_end, other_end);
        typed_.resolution = step * std::abs(unit->factor);
        typed_.unit = unit->id;
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
    return TypedAmount{typed->low.in_mm(), typed->high.in_mm(), typed->resolution.in_mm(),
                       typed->firmness, typed->inch ? "in" : "mm"};
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
