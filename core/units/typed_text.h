#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/base/result.h"
#include "core/units/length.h"

namespace rodway {

/// What a number without a unit means in the box where it is typed.
enum class BareNumber {
    inches, ///< with a decimal point it is inches; a whole number or a comma must name its unit
    millimetres, ///< it is millimetres; a leading point (".010") must name its unit
    refused,     ///< every number must name its unit
};

/// How firmly a value was stated: "~.010", "<.002", ">.030".
enum class Firmness { plain, about, below, above };
/// The same of a number whose sign is turned round.
[[nodiscard]] constexpr Firmness turned_round(Firmness firmness) {
    return firmness == Firmness::below   ? Firmness::above
           : firmness == Firmness::above ? Firmness::below
                                         : firmness;
}

/// A length as a builder types it. `low` and `high` differ for an interval (".0015-.0030") and for
/// a tolerance ("10.2±.1"); otherwise they are equal.
struct TypedLength {
    Length low;
    Length high;
    Length resolution; ///< one step of the last digit typed: trailing zeros count; 0 of a bare "0"
    Length finest;     ///< step of which `low` and `high` are multiples: finer for "10±.5"
    Firmness firmness = Firmness::plain;
    bool inch = true; ///< typed in inches, thousandths or tenths; false: metric
    std::string text; ///< as typed

    [[nodiscard]] Length middle() const { return (low + high) / 2.0; }
    [[nodiscard]] bool is_interval() const { return low != high; }
};

/// Reads a length the way the trade writes and says it: .010, 0.010", 10 thou, 1/8, 1-1/2, 2-1/2",
/// 0,25 mm, 250 um, .0015-.0030, 10.2±.1 mm, +.003/-.001, 2.100 +.003/-.001, ~.010, half a thou,
/// two and a half thou, 14 thousandths and 5 tenths, forty over, .040 over, ten under.
/// Nothing is guessed: "26/28" is no fraction of an inch, 2.100 +3/-1 no tolerance, and a tenth is
/// one of a thousandth only where inches are typed.
/// Errors: empty_text, not_a_length, unit_needed, ambiguous_unit ('mil', 'tenth'),
/// thread_not_length.
Result<TypedLength> parse_length(std::string_view text, BareNumber bare);

/// Reads a plain number, with a decimal point or comma. Errors: empty_text, not_a_number.
Result<double> parse_number(std::string_view text);

/// The shortest text that reads back as exactly this number.
std::string exact_text(double value);

} // namespace rodway
