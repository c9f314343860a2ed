#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/units/length.h"

namespace rodway {

/// A number somebody typed, and how it was written.
struct LengthNumber {
    double value = 0.0;
    double step = 1.0;  ///< of the last digit, or one part of a fraction
    bool point = false; ///< had a decimal point
    bool comma = false; ///< had a decimal comma
    bool leading_point = false;
    bool fraction = false; ///< 1/8, 1-1/2
    bool proper = false;   ///< its fraction is less than one
    bool spoken = false;   ///< in words

    /// Digits or a word alone, such as 10: could be thousandths.
    [[nodiscard]] bool whole() const { return !point && !comma && !fraction; }
};

/// A unit behind a length. A tenth is of a thousandth to some and of a millimetre to others, unless
/// it is said.
enum class LengthUnit { inch, thou, tenth, tenth_of_thou, tenth_of_mm, mm, cm, um };

[[nodiscard]] bool is_metric(LengthUnit unit);
/// Decimal inches times 25.4 by the shortest exact route, so that ".010" and "10 thou" are one.
[[nodiscard]] Length length_of(double value, LengthUnit unit);

/// Walks over one text (`plain_text` of it). Each `take_` moves past what it recognises, or stays
/// where it was.
class LengthReader {
  public:
    explicit LengthReader(std::string text) : text_(std::move(text)) {}

    void skip_space();
    [[nodiscard]] bool at_end();
    [[nodiscard]] std::size_t position() const { return at_; }
    void go_back(std::size_t position) { at_ = position; }

    bool take(std::string_view token);
    /// A word that no letter follows, blanks before it passed.
    bool take_word(std::string_view word);
    /// .010, 0,25, 1/8, 1-1/2, 2 1/2, twenty-five, half a, 2 and a half; without a sign.
    std::optional<LengthNumber> take_number();
    std::optional<LengthUnit> take_unit();

  private:
    [[nodiscard]] bool digit_here() const;
    std::optional<LengthNumber> take_decimal();
    std::optional<LengthNumber> take_fraction_after(const LengthNumber& first);
    std::optional<int> take_word_below_hundred();
    std::optional<LengthNumber> take_spoken();
    void take_and_a_half(LengthNumber& number);
    LengthUnit take_of_what(LengthUnit unit);

    std::string text_;
    std::size_t at_ = 0;
};

} // namespace rodway
