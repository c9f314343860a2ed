#include "core/engine/field_reader.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/engine/set_up.h"
#include "core/engine/set_up_fields.h"
#include "core/units/angle.h"
#include "core/units/force.h"
#include "core/units/mass.h"
#include "core/units/pressure.h"
#include "core/units/temperature.h"
#include "core/units/typed_text.h"

namespace rodway {
namespace {

/// Millimetres, degrees or newtons in one of a unit.
double unit_factor(std::string_view unit) {
    if (unit == "in") {
        return Length::mm_per_inch;
    }
    return unit == "lbf" ? Force::lbf(1.0).in_N() : 1.0;
}

/// A unit as number · factor + offset in the unit in which its kind of field is held.
struct LinearUnit {
    double factor = 1.0;
    double offset = 0.0;
};

LinearUnit linear_unit(std::string_view unit) {
    if (unit == "degF") {
        return {1.0 / Temperature::degF_per_degC,
                -Temperature::degF_at_freezing / Temperature::degF_per_degC};
    }
    if (unit == "Mpsi") {
        return {Pressure::kPa_per_psi, 0.0}; // a million psi in a million kPa
    }
    if (unit == "oz") {
        return {Mass::g_per_oz, 0.0};
    }
    // A millionth for each degree Fahrenheit is 1.8 for each kelvin.
    return {unit == "ppm_F" ? Temperature::degF_per_degC : 1.0, 0.0};
}

} // namespace

Error bad_field(ErrorCode code, std::string_view path, std::string_view value,
                std::string_view expected) {
    return {code, std::string(path), std::string(value), std::string(expected), {}, {}};
}

Result<Pairs> pairs_from_text(std::string_view path, std::string_view text) {
    Pairs pairs;
    while (!text.empty()) {
        const auto end = text.find(';');
        std::string_view row = text.substr(0, end);
        text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
        while (!row.empty() && row.front() == ' ') {
            row.remove_prefix(1);
        }
        const auto gap = row.find(' ');
        const auto first = parse_number(row.substr(0, gap));
        const auto second =
            gap == std::string_view::npos ? first : parse_number(row.substr(gap + 1));
        if (!first || !second || gap == std::string_view::npos) {
            Error error = bad_field(ErrorCode::not_a_number, path, row);
            error.line = static_cast<int>(pairs.rows.size()) + 1;
            return error;
        }
        pairs.rows.emplace_back(*first, *second);
        const auto point = row.find('.', gap);
        if (point != std::string_view::npos) {
            pairs.decimals = std::max(pairs.decimals, static_cast<int>(row.size() - point - 1));
        }
    }
    return pairs;
}

bool FieldReader::has_any_under(const std::string& path) const {
    const auto next = fields_.lower_bound(path + "/");
    return next != fields_.end() && next->first.compare(0, path.size() + 1, path + "/") == 0;
}

void FieldReader::refuse(Error error) {
    if (!error_) {
        error_ = std::move(error);
    }
}

std::string FieldReader::words(const std::string& path) {
    const TypedValue* value = find(path);
    if (value && value->text.empty()) {
        refuse(bad_field(ErrorCode::empty_text, path, {}));
    }
    return value ? value->text : std::string();
}

double FieldReader::length_mm(const std::string& path) {
    const TypedValue* value = find(path);
    if (!value) {
        return 0.0;
    }
    const auto read = length_field_mm(path, *value);
    if (!read) {
        refuse(read.error());
        return 0.0;
    }
    return *read;
}

double FieldReader::plain_number(const std::string& path, ErrorCode if_not) {
    const TypedValue* value = find(path);
    if (!value) {
        return 0.0;
    }
    const auto number = parse_number(value->text);
    if (!number) {
        refuse(bad_field(if_not, path, value->text));
        return 0.0;
    }
    const FieldSpec* spec = field_spec(path);
    if (*number < spec->low || *number > spec->high) {
        Error error = bad_field(ErrorCode::out_of_range, path, value->text);
        error.limits = Limits{spec->low, spec->high, value->unit};
        refuse(error);
    }
    return *number;
}

double FieldReader::angle_deg(const std::string& path) {
    return plain_number(path, ErrorCode::not_an_angle);
}

double FieldReader::amount(const std::string& path) {
    const TypedValue* value = find(path);
    if (!value) {
        return 0.0;
    }
    const auto number = parse_number(value->text);
    if (!number) {
        refuse(bad_field(ErrorCode::not_a_number, path, value->text));
        return 0.0;
    }
    const FieldSpec* spec = field_spec(path);
    const LinearUnit unit = linear_unit(value->unit);
    const double held = unit.factor * *number + unit.offset;
    if (!(held >= spec->low && held <= spec->high)) {
        Error error = bad_field(ErrorCode::out_of_range, path, value->text);
        error.limits = Limits{(spec->low - unit.offset) / unit.factor,
                              (spec->high - unit.offset) / unit.factor, value->unit};
        refuse(error);
    }
    return held;
}

std::optional<double> FieldReader::amount_if_any(const std::string& path) {
    return has(path) ? std::optional(amount(path)) : std::nullopt;
}

double FieldReader::length_mm_or(const std::string& path, double otherwise_mm) {
    return has(path) ? length_mm(path) : otherwise_mm;
}

std::optional<double> FieldReader::length_mm_if_any(const std::string& path) {
    return has(path) ? std::optional(length_mm(path)) : std::nullopt;
}

std::size_t FieldReader::choice_or_first(const std::string& path) {
    return has(path) ? choice(path) : 0;
}

std::vector<std::pair<double, double>> FieldReader::pairs(const std::string& path) {
    const TypedValue* value = find(path);
    if (!value) {
        return {};
    }
    const auto read = pairs_from_text(path, value->text);
    if (!read) {
        refuse(read.error());
        return {};
    }
    const auto slash = value->unit.find('/');
    const std::string first = value->unit.substr(0, slash);
    const std::string second = slash == std::string::npos ? first : value->unit.substr(slash + 1);
    std::vector<std::pair<double, double>> rows = read->rows;
    for (auto& [one, other] : rows) {
        one *= unit_factor(first);
        other *= unit_factor(second);
    }
    return rows;
}

Vec3 FieldReader::point_mm(const std::string& path) {
    const double x = length_mm(path + "/x");
    const double y = length_mm(path + "/y");
    return {x, y, length_mm(path + "/z")};
}

Vec3 FieldReader::direction(const std::string& path) {
    Vec3 axis = Vec3::Zero();
    static constexpr std::array<const char*, 3> names{"/x", "/y", "/z"};
    for (int at = 0; at < 3; ++at) {
        const std::string component = path + names[static_cast<std::size_t>(at)];
        const TypedValue* value = find(component);
        if (!value) {
            return Vec3::UnitZ();
        }
        const auto number = parse_number(value->text);
        if (!number || std::abs(*number) > 1.0 + 1e-6) {
            Error error = bad_field(number ? ErrorCode::out_of_range : ErrorCode::not_a_number,
                                    component, value->text);
            error.limits = Limits{-1.0, 1.0, {}};
            refuse(error);
            return Vec3::UnitZ();
        }
        axis[at] = *number;
    }
    if (std::abs(axis.norm() - 1.0) > 0.01) {
        refuse(bad_field(ErrorCode::not_a_direction, path, exact_text(axis.norm()), "1"));
        return Vec3::UnitZ();
    }
    return axis.normalized();
}

std::size_t FieldReader::choice(const std::string& path) {
    const TypedValue* value = find(path);
    if (!value) {
        return 0;
    }
    const std::string_view choices = field_spec(path)->choices;
    std::size_t place = 0;
    for (std::size_t start = 0; start < choices.size(); ++place) {
        const std::size_t end = std::min(choices.find(' ', start), choices.size());
        if (choices.substr(start, end - start) == value->text) {
            return place;
        }
        start = end + 1;
    }
    refuse(bad_field(ErrorCode::not_a_choice, path, value->text, choices));
    return 0;
}

Vec3 FieldReader::direction_across(const std::string& path, const Vec3& axis_K) {
    constexpr double least_deg = 45.0;
    const Vec3 direction_K = this->direction(path);
    if (error_) {
        return direction_K;
    }
    const double along = direction_K.dot(axis_K);
    const double apart_deg = degrees(std::acos(std::clamp(along, -1.0, 1.0)));
    if (apart_deg < least_deg || apart_deg > 180.0 - least_deg) {
        Error error = bad_field(ErrorCode::out_of_range, path, exact_text(apart_deg));
        error.limits = Limits{least_deg, 180.0 - least_deg, "deg"};
        refuse(error);
        return direction_K;
    }
    return (direction_K - along * axis_K).normalized();
}

void FieldReader::refuse_length(const std::string& path, double low_mm,
                                std::optional<double> high_mm) {
    const TypedValue* value = find(path);
    if (!value) {
        return;
    }
    const std::string unit = value->unit == "mm" ? "mm" : "in";
    const double mm = unit == "mm" ? 1.0 : Length::mm_per_inch;
    Error error = bad_field(ErrorCode::out_of_range, path, value->text);
    error.limits = Limits{low_mm / mm, high_mm.value_or(field_spec(path)->high) / mm, unit};
    refuse(error);
}

void FieldReader::refuse_beside(const std::string& with, const std::vector<std::string>& paths) {
    for (const std::string& path : paths) {
        if (has(path)) {
            refuse(bad_field(ErrorCode::not_of_this_kind, path, find(path)->text, with));
        }
    }
}

std::vector<std::string> FieldReader::names_under(const std::string& root) const {
    std::vector<std::string> names;
    const std::string start = root + "/";
    for (auto at = fields_.lower_bound(start); at != fields_.end(); ++at) {
        if (at->first.compare(0, start.size(), start) != 0) {
            break;
        }
        const auto end = at->first.find('/', start.size());
        names.push_back(at->first.substr(start.size(), end - start.size()));
    }
    // Fields of one name needn't stand together: "3I" and "3I wide" share a beginning.
    std::sort(names.begin(), names.end());
    names.erase(std::unique(names.begin(), names.end()), names.end());
    return names;
}

const TypedValue* FieldReader::find(const std::string& path) {
    const auto found = fields_.find(path);
    if (found == fields_.end()) {
        refuse(bad_field(ErrorCode::missing_field, path, {}));
        return nullptr;
    }
    return &found->second;
}

} // namespace rodway
