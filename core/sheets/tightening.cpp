#include "core/sheets/tightening.h"

#include <algorithm>
#include <cctype>
#include <string>

#include "core/units/plain_text.h"
#include "core/units/typed_amount.h"

namespace rodway {
namespace {

constexpr std::size_t most_steps = 20;
constexpr std::string_view stretch_word = "stretch";

bool is_digit(char c) {
    return std::isdigit(static_cast<unsigned char>(c)) != 0;
}
bool has_letter(std::string_view text) {
    return std::any_of(text.begin(), text.end(),
                       [](unsigned char c) { return std::isalpha(c) != 0; });
}

/// What is done at once, and whether it is added to what stands before it.
struct Piece {
    std::string text;
    bool added = false; ///< behind a plus
};

/// The stroke of "1/4 turn" parts no steps.
bool in_fraction_of_turn(std::string_view text, std::size_t stroke) {
    std::size_t at = stroke + 1;
    while (at < text.size() && is_digit(text[at])) {
        ++at;
    }
    const bool digits = at > stroke + 1 && stroke > 0 && is_digit(text[stroke - 1]);
    at = std::min(text.find_first_not_of(' ', at), text.size());
    return digits && text.substr(at).starts_with("turn");
}

std::vector<Piece> pieces_of(std::string_view plain) {
    constexpr std::string_view then = "then";
    std::vector<Piece> pieces(1);
    for (std::size_t at = 0; at < plain.size();) {
        const char c = plain[at];
        if (plain.substr(at).starts_with(then)) {
            pieces.push_back({});
            at += then.size();
            continue;
        }
        if (c == '+' || c == ';' || (c == '/' && !in_fraction_of_turn(plain, at))) {
            pieces.push_back({{}, c == '+'});
        } else {
            pieces.back().text += c;
        }
        ++at;
    }
    std::vector<Piece> kept;
    for (std::size_t which = 0; which < pieces.size(); ++which) {
        pieces[which].text = plain_text(pieces[which].text);
        // "+90" alone, or "20 then +90"
        const bool before_plus =
            pieces[which].text.empty() && which + 1 < pieces.size() && pieces[which + 1].added;
        if (!before_plus) {
            kept.push_back(pieces[which]);
        }
    }
    return kept;
}

class TighteningReader {
  public:
    TighteningReader(std::string_view text, std::string_view torque_unit, BareNumber bare)
        : original_(text), torque_unit_(torque_unit), bare_(bare) {}

    Result<std::vector<TighteningStep>> read() {
        const std::string plain = plain_text(original_);
        if (plain.empty()) {
            return fail(ErrorCode::empty_text);
        }
        pieces_ = pieces_of(plain);
        if (pieces_.size() > most_steps) {
            return fail();
        }
        for (std::size_t which = 0; which < pieces_.size(); ++which) {
            if (const auto wrong = read_piece(which)) {
                return *wrong;
            }
        }
        return steps_;
    }

  private:
    Error fail(ErrorCode code = ErrorCode::not_an_amount) const {
        return {code, {}, original_, unit_ids(Dimension::torque), {}, {}};
    }

    std::optional<Error> read_piece(std::size_t which) {
        const Piece& piece = pieces_[which];
        if (piece.text.starts_with(stretch_word)) {
            return read_stretch(piece.text.substr(stretch_word.size()));
        }
        if (piece.text.ends_with(stretch_word)) {
            return read_stretch(piece.text.substr(0, piece.text.size() - stretch_word.size()));
        }
        const auto turn = amount(piece.text, Dimension::angle, "deg");
        if (piece.added) {
            if (!turn) {
                return fail();
            }
            if (steps_.empty() || steps_.back().turn_deg || steps_.back().stretch_mm) {
                steps_.emplace_back();
            }
            steps_.back().turn_deg = turn;
            return std::nullopt;
        }
        TighteningStep step;
        step.torque_Nm = amount(piece.text, Dimension::torque, unit_for(which));
        if (!step.torque_Nm) {
            step.turn_deg = turn;
        }
        if (!step.torque_Nm && !step.turn_deg) {
            return fail();
        }
        steps_.push_back(step);
        return std::nullopt;
    }

    std::optional<Error> read_stretch(std::string_view length) {
        const auto typed = parse_length(length, bare_);
        if (!typed) {
            Error error = typed.error();
            error.value = original_;
            return error;
        }
        if (typed->is_interval() || typed->low.in_mm() <= 0.0) {
            return fail();
        }
        TighteningStep step;
        step.stretch_mm = typed->low.in_mm();
        steps_.push_back(step);
        return std::nullopt;
    }

    /// One number above nothing, or nothing.
    static std::optional<double> amount(std::string_view text, Dimension dimension,
                                        std::string_view unit) {
        const auto typed = parse_amount(text, dimension, unit);
        const bool one = typed && typed->low == typed->high && typed->low > 0.0 &&
                         typed->firmness == Firmness::plain;
        return one ? std::optional(typed->low) : std::nullopt;
    }

    /// The unit of a torque that names none.
    [[nodiscard]] std::string unit_for(std::size_t which) const {
        for (; which < pieces_.size(); ++which) {
            const Piece& piece = pieces_[which];
            const auto typed = parse_amount(piece.text, Dimension::torque, torque_unit_);
            if (!piece.added && typed && has_letter(piece.text)) {
                return typed->unit;
            }
        }
        return torque_unit_;
    }

    std::string original_;
    std::string torque_unit_;
    BareNumber bare_;
    std::vector<Piece> pieces_;
    std::vector<TighteningStep> steps_;
};

} // namespace

Result<std::vector<TighteningStep>> parse_tightening(std::string_view text,
                                                     std::string_view torque_unit,
                                                     BareNumber bare) {
    return TighteningReader(text, torque_unit, bare).read();
}

} // namespace rodway
