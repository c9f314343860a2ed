#include "core/describe/typed_size.h"

#include <array>

#include "core/describe/description.h"
#include "core/engine/field_reader.h"
#include "core/units/typed_text.h"

namespace rodway {
namespace {

constexpr std::array<std::string_view, 3> doubt_signs{"±", "+/-", "+-"};
constexpr std::array<std::pair<std::string_view, DoubtSource>, 6> endings{{
    {"?", DoubtSource::assumed},
    {"guess", DoubtSource::assumed},
    {"assumed", DoubtSource::assumed},
    {"box", DoubtSource::from_the_box},
    {"card", DoubtSource::from_the_box},
    {"usual", DoubtSource::common_practice},
}};

std::string_view trimmed(std::string_view text) {
    while (!text.empty() && (text.front() == ' ' || text.front() == '\t')) {
        text.remove_prefix(1);
    }
    while (!text.empty() && (text.back() == ' ' || text.back() == '\t')) {
        text.remove_suffix(1);
    }
    return text;
}

/// What stands behind the number takes it away, and says where it comes from.
DoubtSource take_source(std::string_view& text) {
    for (const auto& [word, source] : endings) {
        if (text.size() > word.size() && text.substr(text.size() - word.size()) == word) {
            text = trimmed(text.substr(0, text.size() - word.size()));
            return source;
        }
    }
    if (!text.empty() && text.front() == '~') {
        text = trimmed(text.substr(1));
        return DoubtSource::assumed;
    }
    return DoubtSource::measured;
}

struct WithDoubt {
    std::string_view value;
    std::optional<std::string_view> doubt;
};
WithDoubt split(std::string_view text) {
    for (const std::string_view sign : doubt_signs) {
        const auto at = text.find(sign);
        if (at != std::string_view::npos) {
            return {trimmed(text.substr(0, at)), trimmed(text.substr(at + sign.size()))};
        }
    }
    return {text, std::nullopt};
}

Result<TypedValue> typed_angle(std::string_view field, std::string_view text) {
    for (const std::string_view sign : {"°", "degrees", "deg"}) {
        if (text.size() > sign.size() && text.substr(text.size() - sign.size()) == sign) {
            text = trimmed(text.substr(0, text.size() - sign.size()));
            break;
        }
    }
    if (!parse_number(text)) {
        return bad_field(text.empty() ? ErrorCode::empty_text : ErrorCode::not_an_angle, field,
                         text);
    }
    return TypedValue{std::string(text), "deg"};
}

Result<TypedValue> typed_length(std::string_view field, std::string_view text, BareNumber bare) {
    const auto length = parse_length(text, bare);
    if (!length) {
        Error error = length.error();
        error.field = std::string(field);
        return error;
    }
    if (length->is_interval() || length->firmness != Firmness::plain) {
        return bad_field(ErrorCode::two_values, field, text);
    }
    const std::string unit = length->inch ? "in" : "mm";
    const auto says_the_same = [&](std::string_view digits) {
        const auto again = parse_length(std::string(digits) + " " + unit, BareNumber::refused);
        return again && !again->is_interval() && again->low == length->low;
    };
    // The digits as typed, without a unit that stands behind them.
    std::string_view digits = text;
    while (!digits.empty() && !says_the_same(digits)) {
        digits.remove_suffix(1);
        digits = trimmed(digits);
    }
    if (!digits.empty()) {
        return TypedValue{std::string(digits), unit};
    }
    // Said in words, or in thousandths.
    return TypedValue{
        exact_text(length->inch ? length->low.in_mm() / Length::mm_per_inch : length->low.in_mm()),
        unit};
}

} // namespace

Result<TypedValue> read_typed_length(std::string_view field, std::string_view text) {
    return typed_length(field, trimmed(text), BareNumber::inches);
}

Result<TypedSize> read_typed_size(const EngineDimension& dimension, std::string_view text) {
    std::string_view left = trimmed(text);
    TypedSize size;
    size.source = take_source(left);
    const WithDoubt parts = split(left);
    const auto value = dimension.angle
                           ? typed_angle(dimension.name, parts.value)
                           : typed_length(dimension.name, parts.value, BareNumber::inches);
    if (!value) {
        return value.error();
    }
    size.value = *value;
    if (const auto checked = dimension_value(dimension, dimension.name, size.value); !checked) {
        return checked.error();
    }
    if (!parts.doubt) {
        return size;
    }
    const auto doubt =
        dimension.angle
            ? typed_angle(dimension.name, *parts.doubt)
            : typed_length(dimension.name, *parts.doubt,
                           size.value.unit == "in" ? BareNumber::inches : BareNumber::millimetres);
    if (!doubt) {
        return doubt.error();
    }
    EngineDimension of_doubt = dimension;
    of_doubt.low = 0.0;
    of_doubt.high = dimension.high - dimension.low;
    if (const auto checked = dimension_value(of_doubt, dimension.name, *doubt); !checked) {
        return checked.error();
    }
    size.doubt = *doubt;
    return size;
}

std::string size_text(const TypedSize& size) {
    const auto with_unit = [](const TypedValue& value) {
        return value.unit == "mm" ? value.text + " mm" : value.text;
    };
    std::string text = with_unit(size.value);
    if (size.doubt) {
        text += " ±" + with_unit(*size.doubt);
    }
    switch (size.source) {
        case DoubtSource::measured:
            return text;
        case DoubtSource::from_the_box:
            return text + " box";
        case DoubtSource::assumed:
            return text + " ?";
        case DoubtSource::common_practice:
            return text + " usual";
    }
    return text;
}

} // namespace rodway
