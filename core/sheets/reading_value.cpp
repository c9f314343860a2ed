#include "core/sheets/reading_value.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "core/sheets/day.h"
#include "core/sheets/rod_clearance_reading.h"
#include "core/sheets/sided_reading.h"
#include "core/sheets/typed_pair.h"
#include "core/units/plain_text.h"
#include "core/units/typed_amount.h"

namespace rodway {
namespace {

template <std::size_t count>
bool among(const std::string& word, const std::array<std::string_view, count>& words) {
    return std::find(words.begin(), words.end(), word) != words.end();
}

constexpr std::array<std::string_view, 8> same_words{"same", "do",       "do.",  "ditto",
                                                     "\"",   "as above", "\"\"", "\" \""};
constexpr std::array<std::string_view, 4> photo_words{"see photo", "photo", "see picture",
                                                      "see pic"};
constexpr std::array<std::string_view, 4> unmeasured_words{"n/m", "n.m.", "not measured",
                                                           "not taken"};
constexpr std::array<std::string_view, 5> fine_words{"ok", "okay", "o.k.", "good", "fine"};

/// What is said without a value, by status or in words. Inches' mark alone is a ditto.
std::optional<Said> said_without_value(const Reading& reading, const std::string& plain,
                                       bool numeric) {
    switch (reading.status) {
        case ReadingStatus::not_measured:
            return Said::not_measured;
        case ReadingStatus::same:
            return Said::same;
        case ReadingStatus::see_photo:
            return Said::see_photo;
        default:
            break;
    }
    if (plain.empty() || plain == "-" || plain == "--") {
        return Said::blank;
    }
    if (among(plain, same_words)) {
        return Said::same;
    }
    if (among(plain, photo_words)) {
        return Said::see_photo;
    }
    if (among(plain, unmeasured_words)) {
        return Said::not_measured;
    }
    return numeric && among(plain, fine_words) ? std::optional(Said::fine) : std::nullopt;
}

/// Names the whole text, whichever piece of it is at fault.
Error in_text(Error error, const std::string& text) {
    error.field = "text";
    error.value = text;
    return error;
}

ReadingValue number_value(const TypedAmount& amount) {
    return {Said::number,    amount.low, amount.high,  amount.resolution,
            amount.firmness, {},         amount.finest};
}

Result<ReadingValue> amount_value(const std::string& text, Dimension dimension,
                                  const std::string& unit) {
    const auto amount = parse_amount(text, dimension, unit);
    if (!amount) {
        return in_text(amount.error(), text);
    }
    return number_value(*amount);
}

Result<ReadingValue> sided_value(const std::string& text, Form form, const std::string& unit) {
    const auto amount = parse_sided(text, form, unit);
    if (!amount) {
        return in_text(amount.error(), text);
    }
    return number_value(*amount);
}

/// "touch" and gauges tried have no last digit; else it is a length, which can't be negative.
Result<ReadingValue> clearance_value(const std::string& text, const std::string& unit) {
    if (is_spoken_pair(text)) {
        return Error{ErrorCode::two_values, "text", text, {}, {}, {}};
    }
    const auto felt = parse_rod_clearance(text, unit == "in");
    if (!felt) {
        return in_text(felt.error(), text);
    }
    if (const auto amount = parse_amount(without_drag(text), Dimension::length, unit)) {
        return number_value(*amount);
    }
    ReadingValue value;
    value.said = Said::number;
    value.low = felt->low_mm;
    value.high = felt->high_mm;
    value.finest = felt->finest_mm;
    if (!felt->has_high_limit()) {
        value.high = value.low;
        value.firmness = Firmness::above;
    }
    return value;
}

/// A clearance set hot or cold; "18/20" is never a fraction here.
Result<ReadingValue> lash_value(const std::string& text, const std::string& unit,
                                const std::string& choices) {
    std::string plain = plain_text(text);
    std::string heat;
    for (const std::string_view word : {"hot", "cold"}) {
        if (plain.ends_with(word)) {
            heat = word;
            plain.erase(plain.size() - word.size());
            break;
        }
    }
    if (!heat.empty() && !choices.empty() && choices.find(heat) == std::string::npos) {
        return Error{ErrorCode::not_a_choice, "text", text, choices, {}, {}};
    }
    if (!heat.empty() && plain_text(plain).empty()) {
        return Error{ErrorCode::not_a_length, "text", text, {}, {}, {}};
    }
    if (split_pair(plain)) {
        return Error{ErrorCode::two_values, "text", text, {}, {}, {}};
    }
    const auto clearance = clearance_value(plain, unit);
    if (!clearance) {
        return in_text(clearance.error(), text);
    }
    ReadingValue value = *clearance;
    value.words = heat;
    return value;
}

/// "10.2:1" is 10.2.
Result<ReadingValue> ratio_value(const std::string& text) {
    std::string plain = plain_text(text);
    if (const auto colon = plain.find(':'); colon != std::string::npos) {
        const std::size_t one = plain.find_first_not_of(' ', colon + 1);
        if (colon == 0 || one == std::string::npos || plain.substr(one) != "1") {
            return Error{ErrorCode::not_an_amount, "text", text, {}, {}, {}};
        }
        plain.resize(colon);
    }
    const auto value = amount_value(plain, Dimension::none, {});
    return value ? value : in_text(value.error(), text);
}

Result<ReadingValue> count_value(const std::string& text) {
    auto value = amount_value(text, Dimension::none, {});
    if (value && (value->low < 0.0 || value->low != std::floor(value->low) ||
                  value->high != std::floor(value->high))) {
        return Error{ErrorCode::not_an_amount, "text", text, {}, {}, {}};
    }
    return value;
}

Result<ReadingValue> choice_value(const std::string& text, const std::string& choices) {
    std::string wanted = plain_text(text);
    std::replace(wanted.begin(), wanted.end(), ' ', '_');
    std::replace(wanted.begin(), wanted.end(), '-', '_');
    for (std::size_t from = 0; from < choices.size();) {
        const std::size_t to = std::min(choices.find(' ', from), choices.size());
        if (choices.compare(from, to - from, wanted) == 0) {
            ReadingValue value;
            value.said = Said::words;
            value.words = wanted;
            return value;
        }
        from = to + 1;
    }
    return Error{ErrorCode::not_a_choice, "text", text, choices, {}, {}};
}

Result<ReadingValue> yes_no_value(const std::string& text) {
    static constexpr std::array<std::string_view, 3> yes{"yes", "y", "true"};
    static constexpr std::array<std::string_view, 3> no{"no", "n", "false"};
    const std::string plain = plain_text(text);
    if (!among(plain, yes) && !among(plain, no)) {
        return Error{ErrorCode::not_a_choice, "text", text, "yes no", {}, {}};
    }
    ReadingValue value;
    value.said = Said::words;
    value.words = among(plain, yes) ? "yes" : "no";
    return value;
}

Result<ReadingValue> day_value(const std::string& text) {
    const auto day = parse_day(plain_text(text));
    if (!day) {
        return Error{ErrorCode::not_a_date, "text", text, {}, {}, {}};
    }
    ReadingValue value;
    value.said = Said::words;
    value.words = *day;
    return value;
}

ReadingValue words_value(const std::string& text) {
    ReadingValue value;
    value.said = Said::words;
    value.words = text;
    return value;
}

/// The unit of a bare number. Error: not_a_choice.
Result<std::string> unit_of(const Reading& reading, const Quantity& quantity) {
    const Dimension dimension = dimension_of(quantity.form);
    if (dimension == Dimension::none || reading.unit.empty()) {
        return quantity.unit;
    }
    if (!find_unit(dimension, reading.unit)) {
        return Error{ErrorCode::not_a_choice, "unit", reading.unit, unit_ids(dimension), {}, {}};
    }
    return reading.unit;
}

/// What nothing on an engine reaches, whatever was meant: a slip of the keys or a pasted number.
/// In the unit in which the dimension is held.
Limits reach_of(Dimension dimension) {
    const auto within = [](double most, const char* unit) { return Limits{-most, most, unit}; };
    switch (dimension) {
        case Dimension::none:
            return within(1e9, "");
        case Dimension::length:
            return within(1e4, "mm");
        case Dimension::angle:
            return within(36000.0, "deg");
        case Dimension::crank_angle:
        case Dimension::cam_angle:
            return within(1440.0, "deg");
        case Dimension::force:
            return within(1e6, "N");
        case Dimension::mass:
            return within(1e7, "g");
        case Dimension::volume:
            return within(1e6, "cc");
        case Dimension::pressure:
            return within(1e6, "kPa");
        case Dimension::temperature:
            return {-273.15, 3000.0, "degC"};
        case Dimension::torque:
            return within(1e5, "N m");
        case Dimension::power:
            return within(1e5, "kW");
        case Dimension::speed:
            return {0.0, 1e5, "rpm"};
        case Dimension::time:
            return {0.0, 1e9, "s"};
        case Dimension::percent:
            return {0.0, 1000.0, "%"};
        case Dimension::altitude:
            return {-1000.0, 1e4, "m"};
        case Dimension::spring_rate:
            return within(1e6, "N/mm");
    }
    return {};
}

Result<ReadingValue> within_reach(Result<ReadingValue> value, const std::string& text, Form form) {
    if (!value || value->said != Said::number) {
        return value;
    }
    const Limits reach = reach_of(dimension_of(form));
    if (value->low >= reach.low && value->high <= reach.high) {
        return value;
    }
    Error error{ErrorCode::out_of_range, "text", text, {}, {}, {}};
    error.limits = reach;
    return error;
}

Result<ReadingValue> typed_value(const Reading& reading, const Quantity& quantity,
                                 const std::string& unit) {
    switch (quantity.form) {
        case Form::clearance:
            return clearance_value(reading.text, unit);
        case Form::lash:
            return lash_value(reading.text, unit, quantity.choices);
        case Form::deck:
        case Form::dome:
        case Form::advance:
            return sided_value(reading.text, quantity.form, unit);
        case Form::ratio:
            return ratio_value(reading.text);
        case Form::count:
            return count_value(reading.text);
        case Form::day:
            return day_value(reading.text);
        case Form::yes_no:
            return yes_no_value(reading.text);
        case Form::choice:
            return choice_value(reading.text, quantity.choices);
        case Form::number:
            return amount_value(reading.text, Dimension::none, {});
        default:
            return amount_value(reading.text, dimension_of(quantity.form), unit);
    }
}

} // namespace

Result<ReadingValue> read_value(const Reading& reading, const Quantity& quantity) {
    if (const auto said =
            said_without_value(reading, plain_text(reading.text), is_numeric(quantity.form))) {
        ReadingValue value;
        value.said = *said;
        value.words = reading.text;
        return value;
    }
    if (quantity.form == Form::words) {
        return words_value(reading.text);
    }
    const auto unit = unit_of(reading, quantity);
    if (!unit) {
        return unit.error();
    }
    return within_reach(typed_value(reading, quantity, *unit), reading.text, quantity.form);
}

} // namespace rodway
