#include "core/engine/field_value.h"

#include <cmath>
#include <optional>

#include "core/engine/set_up_fields.h"
#include "core/units/typed_text.h"

namespace rodway {
namespace {

/// A number as typed, in millimetres if it has a length unit; nothing if it is none.
std::optional<double> number_of(const TypedValue& value) {
    if (value.unit == "in" || value.unit == "mm" || value.unit == "thou") {
        const auto length = parse_length(value.text + " " + value.unit, BareNumber::refused);
        return length && !length->is_interval() && length->firmness == Firmness::plain
                   ? std::optional(length->low.in_mm())
                   : std::nullopt;
    }
    const auto number = parse_number(value.text);
    return number ? std::optional(*number) : std::nullopt;
}

/// A thousandth of a micron and less is how a value was typed, not another value.
constexpr double same_within_mm = 1e-6;

} // namespace

bool same_field_value(std::string_view path, const TypedValue& before, const TypedValue& after) {
    if (before == after) {
        return true;
    }
    const FieldSpec* spec = field_spec(path);
    const bool one_number =
        spec && (spec->kind == FieldKind::length || spec->kind == FieldKind::direction ||
                 spec->kind == FieldKind::angle || spec->kind == FieldKind::crank_angle ||
                 is_amount(spec->kind));
    if (!one_number || (spec->kind != FieldKind::length && before.unit != after.unit)) {
        return false;
    }
    const auto a = number_of(before);
    const auto b = number_of(after);
    return a && b && std::abs(*a - *b) < same_within_mm;
}

} // namespace rodway
