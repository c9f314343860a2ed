#include "core/engine/bolt_end_fields.h"

#include <array>
#include <cmath>

#include "core/engine/set_up_fields.h"
#include "core/units/typed_text.h"

namespace rodway {
namespace {

constexpr std::string_view obstacles = "obstacles/";

std::string path_of(const std::string& name) {
    return std::string(obstacles) + name;
}

bool is_bolt_end(const SetUpFields& fields, const std::string& name) {
    const auto kind = fields.find(path_of(name) + "/kind");
    return kind != fields.end() && kind->second.text == "bolt_end";
}

Error missing(const std::string& path) {
    return Error{ErrorCode::missing_field, path, {}, {}, {}, {}};
}

Result<Length> length_at(const SetUpFields& fields, const std::string& path) {
    const auto value = fields.find(path);
    if (value == fields.end()) {
        return missing(path);
    }
    const auto length =
        parse_length(value->second.text + " " + value->second.unit, BareNumber::refused);
    if (!length) {
        Error error = length.error();
        error.field = path;
        return error;
    }
    return length->middle();
}

/// The number in the field's own unit, to what its unit is ever typed to: a hundredth of a
/// thousandth of an inch, a tenth of a micron.
void put(TypedValue& value, Length length) {
    const bool mm = value.unit == "mm";
    const double steps = mm ? 1e4 : value.unit == "thou" ? 1e2 : 1e5;
    const double number = mm                     ? length.in_mm()
                          : value.unit == "thou" ? length.in_thou()
                                                 : length.in_inches();
    const double rounded = std::round(number * steps) / steps;
    value.text = exact_text(rounded == 0.0 ? 0.0 : rounded);
}

} // namespace

std::vector<std::string> bolt_ends_of(const SetUpFields& fields) {
    std::vector<std::string> names;
    for (auto field = fields.lower_bound(std::string(obstacles)); field != fields.end(); ++field) {
        const std::vector<std::string> parts = path_parts(field->first);
        if (!field->first.starts_with(obstacles)) {
            break;
        }
        if (parts.size() == 3 && parts[2] == "kind" && is_bolt_end(fields, parts[1])) {
            names.push_back(parts[1]);
        }
    }
    return names;
}

Result<Length> bolt_end_length(const SetUpFields& fields, const std::string& name) {
    return length_at(fields, path_of(name) + "/length");
}

Result<SetUpFields> with_bolt_longer(const SetUpFields& fields, const std::string& name,
                                     Length by) {
    const std::string path = path_of(name);
    if (!is_bolt_end(fields, name)) {
        return Error{ErrorCode::no_such_record, path, name, {}, {}, {}};
    }
    std::array<Length, 3> point;
    std::array<double, 3> axis{};
    static constexpr std::array<const char*, 3> components{"/x", "/y", "/z"};
    for (std::size_t at = 0; at < components.size(); ++at) {
        const auto length = length_at(fields, path + "/point" + components[at]);
        const std::string along = path + "/axis" + components[at];
        const auto direction = fields.find(along);
        if (!length || direction == fields.end()) {
            return length ? missing(along) : length.error();
        }
        const auto number = parse_number(direction->second.text);
        if (!number) {
            Error error = number.error();
            error.field = along;
            return error;
        }
        point[at] = *length;
        axis[at] = *number;
    }
    const double size = std::hypot(axis[0], axis[1], axis[2]);
    if (!(std::abs(size - 1.0) < 0.01)) {
        return Error{ErrorCode::not_a_direction, path + "/axis", exact_text(size), "1", {}, {}};
    }
    const auto length = bolt_end_length(fields, name);
    if (!length) {
        return length.error();
    }
    SetUpFields longer = fields;
    for (std::size_t at = 0; at < components.size(); ++at) {
        put(longer.at(path + "/point" + components[at]), point[at] + by * (axis[at] / size));
    }
    put(longer.at(path + "/length"), *length + by);
    return longer;
}

} // namespace rodway
