#include "core/engine/typed_field.h"

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "core/describe/typed_size.h"
#include "core/engine/field_reader.h"
#include "core/engine/set_up_fields.h"
#include "core/units/typed_text.h"

namespace rodway {
namespace {

/// A unit as a set-up has it, and how people write it: small, blanks and the sign of a degree left
/// out.
using Written = std::vector<std::pair<std::string_view, std::vector<std::string_view>>>;

/// The first is that of a bare number.
const Written& units_of(FieldKind kind) {
    static const Written none{{"", {""}}};
    static const Written temperature{{"degC", {"", "c", "degc"}}, {"degF", {"f", "degf"}}};
    static const Written modulus{{"GPa", {"", "gpa"}}, {"Mpsi", {"mpsi", "msi"}}};
    static const Written mass{{"g", {"", "g", "gr", "gram", "grams"}}, {"oz", {"oz", "ounces"}}};
    static const Written speed{{"rpm", {"", "rpm"}}};
    static const Written expansion{{"ppm_K", {"", "ppm/k", "ppm/c", "ppm_k"}},
                                   {"ppm_F", {"ppm/f", "ppm_f"}}};
    switch (kind) {
        case FieldKind::temperature:
            return temperature;
        case FieldKind::modulus:
            return modulus;
        case FieldKind::mass:
            return mass;
        case FieldKind::speed:
            return speed;
        case FieldKind::expansion:
            return expansion;
        default:
            return none;
    }
}

std::string plain(std::string_view text) {
    std::string small;
    for (std::size_t at = 0; at < text.size(); ++at) {
        if (text.substr(at, 2) == "\u00b0") {
            ++at;
        } else if (text[at] != ' ') {
            const bool capital = text[at] >= 'A' && text[at] <= 'Z';
            small += static_cast<char>(capital ? text[at] - 'A' + 'a' : text[at]);
        }
    }
    return small;
}

Result<TypedValue> typed_amount_field(std::string_view path, FieldKind kind,
                                      std::string_view text) {
    const std::size_t last = text.find_last_of("0123456789.,");
    const std::size_t end = last == std::string_view::npos ? 0 : last + 1;
    const std::size_t start = std::min(text.find_first_not_of(' '), end);
    const std::string number(text.substr(start, end - start));
    const std::string unit = plain(text.substr(end));
    std::string known;
    for (const auto& [stored, written] : units_of(kind)) {
        known += (known.empty() ? "" : " ") + std::string(stored);
        if (std::find(written.begin(), written.end(), unit) != written.end() &&
            parse_number(number)) {
            return TypedValue{number, std::string(stored)};
        }
    }
    return bad_field(ErrorCode::not_an_amount, path, text, known);
}

} // namespace

Result<TypedValue> typed_field(std::string_view path, std::string_view text) {
    const FieldSpec* spec = field_spec(path);
    RODWAY_ASSERT(spec != nullptr);
    if (is_amount(spec->kind)) {
        return typed_amount_field(path, spec->kind, text);
    }
    if (spec->kind == FieldKind::length) {
        return read_typed_length(path, text);
    }
    RODWAY_ASSERT(spec->kind == FieldKind::choice);
    const std::string choices = " " + std::string(spec->choices) + " ";
    if (text.empty() || text.find(' ') != std::string_view::npos ||
        choices.find(" " + std::string(text) + " ") == std::string::npos) {
        return bad_field(ErrorCode::not_a_choice, path, text, spec->choices);
    }
    return TypedValue{std::string(text), {}};
}

} // namespace rodway
