#include "core/sheets/sided_reading.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <optional>
#include <string>

#include "core/base/assert.h"
#include "core/units/plain_text.h"

namespace rodway {
namespace {

/// A word that says on which side a number lies. One that is also a unit stands in front only.
struct SideWord {
    Form form;
    std::string_view word;
    int sign; ///< 0: the number is zero
    bool in_front_only = false;
};

// The longer before those they begin or end with.
constexpr std::array side_words{
    SideWord{Form::deck, "out of the hole", -1},
    SideWord{Form::deck, "out of hole", -1},
    SideWord{Form::deck, "down in the hole", 1},
    SideWord{Form::deck, "in the hole", 1},
    SideWord{Form::deck, "in hole", 1},
    SideWord{Form::deck, "below deck", 1},
    SideWord{Form::deck, "above deck", -1},
    SideWord{Form::deck, "zero deck", 0},
    SideWord{Form::deck, "zero", 0},
    SideWord{Form::deck, "below", 1},
    SideWord{Form::deck, "above", -1},
    SideWord{Form::deck, "down", 1},
    SideWord{Form::deck, "proud", -1},
    SideWord{Form::deck, "out", -1},
    SideWord{Form::deck, "up", -1},
    SideWord{Form::deck, "in", 1, true},
    SideWord{Form::deck, "flush", 0},
    SideWord{Form::deck, "level", 0},
    SideWord{Form::dome, "domed", 1},
    SideWord{Form::dome, "dome", 1},
    SideWord{Form::dome, "dished", -1},
    SideWord{Form::dome, "dish", -1},
    SideWord{Form::dome, "zero", 0},
    SideWord{Form::dome, "flat top", 0},
    SideWord{Form::dome, "flat", 0},
    SideWord{Form::advance, "advanced", 1},
    SideWord{Form::advance, "advance", 1},
    SideWord{Form::advance, "adv", 1},
    SideWord{Form::advance, "ahead", 1},
    SideWord{Form::advance, "retarded", -1},
    SideWord{Form::advance, "retard", -1},
    SideWord{Form::advance, "ret", -1},
    SideWord{Form::advance, "zero", 0},
    SideWord{Form::advance, "straight up", 0},
};

bool is_letter(char c) {
    return std::isalpha(static_cast<unsigned char>(c)) != 0;
}

bool stands_in_front(std::string_view text, std::string_view word) {
    return text.starts_with(word) && (text.size() == word.size() || !is_letter(text[word.size()]));
}
bool stands_behind(std::string_view text, std::string_view word) {
    return text.ends_with(word) && text.size() > word.size() &&
           !is_letter(text[text.size() - word.size() - 1]);
}

/// Takes a side's word off either end of a text.
const SideWord* take_side(std::string& text, Form form) {
    for (const SideWord& side : side_words) {
        if (side.form != form) {
            continue;
        }
        if (stands_in_front(text, side.word)) {
            text.erase(0, side.word.size());
            return &side;
        }
        if (!side.in_front_only && stands_behind(text, side.word)) {
            text.resize(text.size() - side.word.size());
            return &side;
        }
    }
    return nullptr;
}

/// Whether a sign stands before the number.
bool has_sign(std::string_view plain) {
    const std::size_t at = plain.find_first_not_of(" ~<>");
    return at != std::string_view::npos && (plain[at] == '-' || plain[at] == '+');
}

std::string_view sides_of(Form form) {
    return form == Form::deck ? "in_the_hole out" : form == Form::dome ? "dome dish" : "";
}

Error not_read(std::string_view text, Form form) {
    const Dimension dimension = dimension_of(form);
    if (dimension == Dimension::length) {
        return {ErrorCode::not_a_length, {}, std::string(text), {}, {}, {}};
    }
    return {ErrorCode::not_an_amount, {}, std::string(text), unit_ids(dimension), {}, {}};
}

TypedAmount mirrored(TypedAmount amount) {
    const double low = amount.low;
    amount.low = -amount.high + 0.0;
    amount.high = -low + 0.0;
    amount.firmness = turned_round(amount.firmness);
    return amount;
}

/// An advance isn't counted from a dead centre.
bool from_dead_centre(const std::string& plain, const TypedAmount& amount, Dimension dimension) {
    const MeasureUnit* unit = find_unit(dimension, amount.unit);
    return (unit && unit->from_dead_centre) || plain == "tdc" || plain == "bdc";
}

} // namespace

Result<TypedAmount> parse_sided(std::string_view text, Form form, std::string_view unit) {
    const Dimension dimension = dimension_of(form);
    std::string plain = plain_text(text);
    const SideWord* side = take_side(plain, form);
    const bool word_alone = side && plain.find_first_not_of(' ') == std::string::npos;
    if (side && word_alone != (side->sign == 0)) {
        return not_read(text, form);
    }
    if (word_alone) {
        TypedAmount zero;
        zero.unit = unit;
        return zero;
    }
    auto amount = parse_amount(plain, dimension, unit);
    if (!amount) {
        Error error = amount.error();
        error.value = text;
        return error;
    }
    if (form == Form::advance && from_dead_centre(plain, *amount, dimension)) {
        return not_read(text, form);
    }
    if (side) {
        if (has_sign(plain)) {
            return not_read(text, form);
        }
        return side->sign < 0 ? mirrored(*amount) : *amount;
    }
    const bool zero = amount->low == 0.0 && amount->high == 0.0;
    if (form != Form::advance && !has_sign(plain) && !zero) {
        return Error{ErrorCode::sign_needed,      {}, std::string(text),
                     std::string(sides_of(form)), {}, {}};
    }
    return amount;
}

} // namespace rodway
