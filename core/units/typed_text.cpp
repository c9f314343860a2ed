#include "core/units/typed_text.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>
#include <cmath>
#include <utility>

#include "core/units/length_reader.h"
#include "core/units/other_unit.h"
#include "core/units/plain_text.h"

namespace rodway {
namespace {

struct WrittenLength {
    LengthNumber number;
    std::optional<LengthUnit> unit;
};

enum class Sign { none, plus, minus };

double times(Sign sign) {
    return sign == Sign::minus ? -1.0 : 1.0;
}

/// Halves to sixty-fourths, as on rules and drills.
bool on_a_rule(const LengthNumber& number) {
    const double parts = 64.0 * number.step;
    return number.fraction && parts == std::floor(parts);
}

Length step_of(const WrittenLength& written) {
    const LengthNumber& number = written.number;
    if (written.unit == LengthUnit::inch && on_a_rule(number)) {
        return Length::inches(1.0 / 64.0);
    }
    return length_of(number.step, *written.unit);
}

/// Whether a unit is smaller than what sizes are given in.
bool is_small(LengthUnit unit) {
    return unit != LengthUnit::inch && unit != LengthUnit::mm && unit != LengthUnit::cm;
}

class LengthParser {
  public:
    LengthParser(std::string_view text, BareNumber bare)
        : original_(text), plain_(plain_text(text)), reader_(plain_), bare_(bare) {}

    Result<TypedLength> parse() {
        if (reader_.at_end()) {
            return fail(ErrorCode::empty_text);
        }
        if (metric_thread()) {
            return fail(ErrorCode::thread_not_length);
        }
        take_firmness();
        const Sign sign = take_sign();
        auto first = take_quantity();
        if (!first) {
            return fail(ErrorCode::not_a_length);
        }
        if (thread_ahead(*first)) {
            return fail(ErrorCode::thread_not_length);
        }
        reader_.skip_space();
        if (sign != Sign::none && reader_.take("/")) {
            return tolerance_pair(sign, *first);
        }
        if (const auto said = oversize(sign, *first)) {
            return *said;
        }
        if (const auto said = and_more(sign, *first)) {
            return *said;
        }
        if (reader_.take("+-")) {
            return plus_minus(sign, *first);
        }
        if (const auto nominal = nominal_with_pair(sign, *first)) {
            return *nominal;
        }
        const bool dash = reader_.take("-");
        if (dash && sign == Sign::plus) { // an interval, or a tolerance?
            return fail(ErrorCode::not_a_length);
        }
        if (dash || reader_.take_word("to") || reader_.take("..")) {
            return interval(sign, *first);
        }
        return single(sign, *first);
    }

  private:
    Error fail(ErrorCode code) {
        const bool mil = code == ErrorCode::not_a_length && mil_ahead();
        return {mil ? ErrorCode::ambiguous_unit : code, {}, original_, {}, {}, {}};
    }

    void take_firmness() {
        if (reader_.take("~")) {
            typed_.firmness = Firmness::about;
        } else if (reader_.take("<")) {
            typed_.firmness = Firmness::below;
        } else if (reader_.take(">")) {
            typed_.firmness = Firmness::above;
        }
    }
    Sign take_sign() {
        reader_.skip_space();
        if (reader_.take("-")) {
            return Sign::minus;
        }
        const std::size_t here = reader_.position();
        if (reader_.take("+")) {
            if (!reader_.take("-")) {
                return Sign::plus;
            }
            reader_.go_back(here); // plus or minus
        }
        return Sign::none;
    }
    bool mil_ahead() {
        const std::size_t here = reader_.position();
        const bool found = reader_.take_word("mil") || reader_.take_word("mils");
        reader_.go_back(here);
        return found;
    }
    /// m8x1.25
    [[nodiscard]] bool metric_thread() const {
        return plain_.size() > 1 && plain_[0] == 'm' &&
               std::isdigit(static_cast<unsigned char>(plain_[1])) != 0;
    }
    /// 7/16-14 and 3/8x2.5 are fasteners.
    bool thread_ahead(const WrittenLength& first) {
        if (!first.number.fraction || first.unit) {
            return false;
        }
        const std::size_t here = reader_.position();
        reader_.skip_space();
        bool thread = reader_.take("x");
        if (!thread && reader_.take("-")) {
            const auto pitch = reader_.take_number();
            thread = pitch && pitch->whole() && !pitch->spoken && pitch->value >= 4.0;
        }
        reader_.go_back(here);
        return thread;
    }
    std::optional<WrittenLength> take_quantity() {
        const auto number = reader_.take_number();
        if (!number) {
            return std::nullopt;
        }
        const WrittenLength written{*number, reader_.take_unit()};
        tenth_unclear_ |= written.unit == LengthUnit::tenth && bare_ != BareNumber::inches;
        return written;
    }

    [[nodiscard]] std::optional<LengthUnit> meaning_of_bare(const LengthNumber& number) const {
        if (bare_ == BareNumber::refused) {
            return std::nullopt;
        }
        const bool inches = bare_ == BareNumber::inches;
        if (number.fraction) { // "26/28" is two settings
            return number.proper && on_a_rule(number) ? std::optional(LengthUnit::inch)
                                                      : std::nullopt;
        }
        if (number.value == 0.0) {
            return inches ? LengthUnit::inch : LengthUnit::mm;
        }
        if (inches) {
            return number.point ? std::optional(LengthUnit::inch) : std::nullopt;
        }
        return number.leading_point || number.spoken ? std::nullopt : std::optional(LengthUnit::mm);
    }
    /// A unit behind either of two holds for both; without any, both must mean the same. Once the
    /// first is millimetres, a leading point behind it is no inch.
    bool share_unit(WrittenLength& first, WrittenLength& second) const {
        if (!first.unit && !second.unit) {
            first.unit = meaning_of_bare(first.number);
            const bool like_first = first.unit == LengthUnit::mm && second.number.leading_point;
            second.unit = like_first ? first.unit : meaning_of_bare(second.number);
            return first.unit && first.unit == second.unit;
        }
        first.unit = first.unit ? first.unit : second.unit;
        second.unit = second.unit ? second.unit : first.unit;
        return true;
    }
    /// As `share_unit`, but sizes are seldom in what their tolerances are: not in 4.030±1 thou, nor
    /// in 4.030 in ±1.
    bool settle_tolerance(WrittenLength& size, WrittenLength& tolerance) const {
        if (!size.unit && tolerance.unit && is_small(*tolerance.unit) && !size.number.whole()) {
            return false;
        }
        if (size.unit == LengthUnit::inch && !tolerance.unit && tolerance.number.whole() &&
            tolerance.number.value != 0.0) {
            return false;
        }
        return share_unit(size, tolerance);
    }

    /// 'forty over', '.040 over', '10 thou under'. Among inches a whole number is thousandths.
    std::optional<Result<TypedLength>> oversize(Sign sign, WrittenLength size) {
        const bool over = reader_.take_word("over");
        if (!over && !reader_.take_word("under")) {
            return std::nullopt;
        }
        if (sign != Sign::none) {
            return fail(ErrorCode::not_a_length);
        }
        if (!size.unit && size.number.whole()) {
            if (bare_ != BareNumber::inches) {
                return fail(ErrorCode::unit_needed);
            }
            size.unit = LengthUnit::thou;
        }
        return single(over ? Sign::plus : Sign::minus, size);
    }

    /// '14 thousandths and 5 tenths', 'a thou and a half'.
    std::optional<Result<TypedLength>> and_more(Sign sign, WrittenLength size) {
        if (size.unit != LengthUnit::thou || !reader_.take_word("and")) {
            return std::nullopt;
        }
        const std::size_t here = reader_.position();
        if (reader_.take_word("a") && reader_.take_word("half")) {
            size.number.value += 0.5;
            size.number.step = 0.5;
            return single(sign, size);
        }
        reader_.go_back(here);
        const bool unclear_before = tenth_unclear_;
        const auto tenths = take_quantity();
        if (!tenths || tenths->unit != LengthUnit::tenth || tenths->number.value >= 10.0) {
            return fail(ErrorCode::not_a_length);
        }
        tenth_unclear_ = unclear_before; // of the thousandth before it
        size.number.value += tenths->number.value / 10.0;
        size.number.step = tenths->number.step / 10.0;
        return single(sign, size);
    }

    Result<TypedLength> single(Sign sign, WrittenLength size) {
        if (!reader_.at_end()) {
            return fail(ErrorCode::not_a_length);
        }
        const bool bare = !size.unit;
        size.unit = bare ? meaning_of_bare(size.number) : size.unit;
        if (!size.unit) {
            return fail(ErrorCode::unit_needed);
        }
        const Length length = length_of(times(sign) * size.number.value, *size.unit);
        const bool no_digits = bare && size.number.value == 0.0 && size.number.whole();
        return finish(size, length, length, no_digits ? Length() : step_of(size));
    }

    Result<TypedLength> interval(Sign sign, WrittenLength first) {
        const Sign second_sign = take_sign();
        auto second = take_quantity();
        if (!second || !reader_.at_end()) {
            return fail(ErrorCode::not_a_length);
        }
        if (!share_unit(first, *second)) {
            return fail(ErrorCode::unit_needed);
        }
        const Length low = length_of(times(sign) * first.number.value, *first.unit);
        const Length high = length_of(times(second_sign) * second->number.value, *second->unit);
        if (first.unit != second->unit || high < low) {
            return fail(ErrorCode::not_a_length);
        }
        return finish(first, low, high, std::min(step_of(first), step_of(*second)),
                      step_of(*second));
    }

    Result<TypedLength> plus_minus(Sign sign, WrittenLength size) {
        auto spread = take_quantity();
        if (!spread || !reader_.at_end()) {
            return fail(ErrorCode::not_a_length);
        }
        if (!settle_tolerance(size, *spread)) {
            return fail(ErrorCode::unit_needed);
        }
        const Length middle = length_of(times(sign) * size.number.value, *size.unit);
        const Length half = length_of(spread->number.value, *spread->unit);
        return finish(size, middle - half, middle + half, step_of(size), step_of(*spread));
    }

    /// +.003/-.001 with no size before it.
    Result<TypedLength> tolerance_pair(Sign sign, WrittenLength first) {
        const Sign second_sign = take_sign();
        auto second = take_quantity();
        if (!second || !reader_.at_end()) {
            return fail(ErrorCode::not_a_length);
        }
        if (!share_unit(first, *second)) {
            return fail(ErrorCode::unit_needed);
        }
        const Length a = length_of(times(sign) * first.number.value, *first.unit);
        const Length b = length_of(times(second_sign) * second->number.value, *second->unit);
        return finish(first, std::min(a, b), std::max(a, b),
                      std::min(step_of(first), step_of(*second)), step_of(*second));
    }

    /// 2.100 +.003/-.001, 2.100 +.003 -.001; nothing if that isn't what stands here. Without stroke
    /// and blank (10+8-4) it is a sum.
    std::optional<Result<TypedLength>> nominal_with_pair(Sign sign, WrittenLength size) {
        const std::size_t here = reader_.position();
        const bool unclear_before = tenth_unclear_;
        const Sign first_sign = take_sign();
        auto first = first_sign == Sign::none ? std::nullopt : take_quantity();
        const std::size_t behind_first = reader_.position();
        reader_.skip_space();
        const bool blank = reader_.position() > behind_first;
        const bool slash = first && reader_.take("/");
        const Sign second_sign = take_sign();
        auto second = first ? take_quantity() : std::nullopt;
        const bool pair =
            second && (second_sign != Sign::none ? slash || (blank && second_sign != first_sign)
                                                 : slash && second->number.value == 0.0);
        if (!pair || !reader_.at_end()) {
            reader_.go_back(here);
            tenth_unclear_ = unclear_before;
            return std::nullopt;
        }
        first->unit = first->unit ? first->unit : second->unit;
        if (!settle_tolerance(size, *first) || !settle_tolerance(size, *second)) {
            return fail(ErrorCode::unit_needed);
        }
        const Length middle = length_of(times(sign) * size.number.value, *size.unit);
        const Length a = middle + length_of(times(first_sign) * first->number.value, *first->unit);
        const Length b =
            middle + length_of(times(second_sign) * second->number.value, *second->unit);
        return finish(size, std::min(a, b), std::max(a, b), step_of(size),
                      std::min(step_of(*first), step_of(*second)));
    }

    Result<TypedLength> finish(const WrittenLength& size, Length low, Length high,
                               Length resolution, std::optional<Length> other_step = {}) {
        if (tenth_unclear_) {
            return fail(ErrorCode::ambiguous_unit);
        }
        const bool one_sided =
            typed_.firmness == Firmness::below || typed_.firmness == Firmness::above;
        if (one_sided && low != high) {
            return fail(ErrorCode::not_a_length);
        }
        typed_.low = low + Length(); // no negative zero
        typed_.high = high + Length();
        typed_.resolution = resolution;
        typed_.finest = other_step
                            ? Length::mm(common_step(step_of(size).in_mm(), other_step->in_mm()))
                            : resolution;
        typed_.inch = !is_metric(*size.unit);
        typed_.text = original_;
        return typed_;
    }

    std::string original_;
    std::string plain_;
    LengthReader reader_;
    BareNumber bare_;
    bool tenth_unclear_ = false;
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
