#include "core/files/pull_header.h"

#include <algorithm>
#include <array>
#include <vector>

#include "core/base/assert.h"
#include "core/dyno/fuel_power.h"
#include "core/units/plain_text.h"

namespace rodway {
namespace {

using Words = std::vector<std::string>;

/// How a quantity is called, alternatives between bars, words as `usual_word` leaves them.
struct Naming {
    PullQuantity quantity;
    std::string_view name;
    Dimension dimension; ///< none: of this file's own, or a ratio
    std::string_view called;
};

constexpr std::array namings{
    Naming{PullQuantity::speed, "speed", Dimension::speed, "speed|rpm|revs|speed rpm"},
    Naming{PullQuantity::torque, "torque", Dimension::torque, "torque"},
    Naming{PullQuantity::power, "power", Dimension::power, "power|hp|bhp|horsepower"},
    Naming{PullQuantity::corrected_torque, "corrected_torque", Dimension::torque, ""},
    Naming{PullQuantity::corrected_power, "corrected_power", Dimension::power, ""},
    Naming{PullQuantity::air_pressure, "air_pressure", Dimension::pressure,
           "air pressure|barometer|barometer pressure|barometric pressure|ambient pressure|"
           "atmospheric pressure"},
    Naming{PullQuantity::vapour_pressure, "vapour_pressure", Dimension::pressure,
           "vapour pressure"},
    Naming{PullQuantity::dry_bulb, "dry_bulb", Dimension::temperature,
           "air temperature|inlet air temperature|intake air temperature|inlet temperature|"
           "dry bulb|dry bulb temperature|iat"},
    Naming{PullQuantity::wet_bulb, "wet_bulb", Dimension::temperature,
           "wet bulb|wet bulb temperature"},
    Naming{PullQuantity::relative_humidity, "relative_humidity", Dimension::percent,
           "humidity|relative humidity|rh"},
    Naming{PullQuantity::oil_pressure, "oil_pressure", Dimension::pressure, "oil pressure"},
    Naming{PullQuantity::oil_temperature, "oil_temperature", Dimension::temperature,
           "oil temperature"},
    Naming{PullQuantity::water_temperature, "water_temperature", Dimension::temperature,
           "water temperature"},
    Naming{PullQuantity::fuel_flow, "fuel_flow", Dimension::none, "fuel flow|fuel|fuel rate"},
    Naming{PullQuantity::specific_consumption, "specific_consumption", Dimension::none,
           "bsfc|specific consumption|specific fuel consumption|brake specific fuel consumption"},
    Naming{PullQuantity::air_fuel_ratio, "air_fuel_ratio", Dimension::none,
           "afr|a/f|air fuel ratio|air/fuel ratio|air/fuel"},
};

/// A unit that no dimension of `measure_unit.h` has.
struct OwnUnit {
    PullQuantity quantity;
    std::string_view id;
    double factor;
    std::string_view words;
};
constexpr double kg_per_h_per_g_per_s = 3.6;
constexpr std::array own_units{
    OwnUnit{PullQuantity::fuel_flow, "kg/h", 1.0, "kg/h kg/hr kgh kgph"},
    OwnUnit{PullQuantity::fuel_flow, "lb/h", kg_per_h_per_lb_per_h,
            "lb/h lb/hr lbs/h lbs/hr lbh pph"},
    OwnUnit{PullQuantity::fuel_flow, "g/s", kg_per_h_per_g_per_s, "g/s"},
    OwnUnit{PullQuantity::specific_consumption, "g/kWh", 1.0, "g/kwh g/kwhr"},
    OwnUnit{PullQuantity::specific_consumption, "lb/hp-h", g_per_kWh_per_lb_per_hp_h,
            "lb/hph lb/hphr lbs/hph lbs/hphr lb/hp/h lb/hp/hr lb/bhph lb/bhphr"},
};

const Naming& naming_of(PullQuantity quantity) {
    const auto found = std::find_if(namings.begin(), namings.end(), [&](const Naming& naming) {
        return naming.quantity == quantity;
    });
    RODWAY_ASSERT(found != namings.end());
    return *found;
}

/// Whether a list has the text as one of its entries.
bool lists(std::string_view list, char between, std::string_view text) {
    for (std::size_t from = 0; from <= list.size();) {
        const std::size_t to = std::min(list.find(between, from), list.size());
        if (to > from && list.substr(from, to - from) == text) {
            return true;
        }
        from = to + 1;
    }
    return false;
}

/// Units are known without the blanks, points and hyphens that people put into them.
std::string bare_unit(std::string_view text) {
    std::string bare;
    std::copy_if(text.begin(), text.end(), std::back_inserter(bare),
                 [](char c) { return c != ' ' && c != '.' && c != '-' && c != '*' && c != '_'; });
    return bare;
}

std::optional<PullUnit> unit_of(PullQuantity quantity, std::string_view text) {
    const std::string bare = bare_unit(text);
    if (bare.empty()) {
        return std::nullopt;
    }
    for (const MeasureUnit& unit : units_of(naming_of(quantity).dimension)) {
        if (lists(unit.words, ' ', bare)) {
            return PullUnit{std::string(unit.id), unit.factor, unit.offset};
        }
    }
    for (const OwnUnit& unit : own_units) {
        if (unit.quantity == quantity && lists(unit.words, ' ', bare)) {
            return PullUnit{std::string(unit.id), unit.factor, 0.0};
        }
    }
    return std::nullopt;
}

std::string unit_names(PullQuantity quantity) {
    std::string names = unit_ids(naming_of(quantity).dimension);
    for (const OwnUnit& unit : own_units) {
        if (unit.quantity == quantity) {
            names += names.empty() ? "" : " ";
            names += unit.id;
        }
    }
    return names;
}

/// The quantity that a unit names when it stands alone.
std::optional<PullQuantity> quantity_of_unit(std::string_view text) {
    for (const PullQuantity quantity :
         {PullQuantity::speed, PullQuantity::torque, PullQuantity::power}) {
        if (unit_of(quantity, text)) {
            return quantity;
        }
    }
    return std::nullopt;
}

std::string usual_word(std::string word) {
    if (!word.empty() && word.back() == '.') { // "temp."
        word.pop_back();
    }
    constexpr std::array<std::pair<std::string_view, std::string_view>, 14> short_for{{
        {"temp", "temperature"},
        {"press", "pressure"},
        {"pres", "pressure"},
        {"vapor", "vapour"},
        {"vap", "vapour"},
        {"trq", "torque"},
        {"tq", "torque"},
        {"pwr", "power"},
        {"baro", "barometer"},
        {"coolant", "water"},
        {"cons", "consumption"},
        {"rel", "relative"},
        {"humid", "humidity"},
        {"carb", "inlet"},
    }};
    for (const auto& [written, usual] : short_for) {
        if (word == written) {
            return std::string(usual);
        }
    }
    return word;
}

/// A heading taken apart: words outside and inside brackets.
struct Heading {
    Words words;
    std::vector<std::string> bracketed;
};

Heading taken_apart(const std::string& heading) {
    Heading found;
    std::string word;
    std::string inside;
    int depth = 0; // "[lb/(hp h)]" is one unit
    const auto end_word = [&] {
        if (!word.empty()) {
            found.words.push_back(usual_word(word));
        }
        word.clear();
    };
    for (const char c : plain_text(heading)) {
        if (c == '(' || c == '[') {
            end_word();
            ++depth;
        } else if (c == ')' || c == ']') {
            depth = std::max(0, depth - 1);
            if (depth == 0) {
                found.bracketed.push_back(inside);
                inside.clear();
            }
        } else if (depth > 0) {
            inside += c;
        } else if (c == ' ' || c == '_' || c == ',' || c == ':' || c == '\t' || c == '\n') {
            end_word();
        } else {
            word += c;
        }
    }
    end_word();
    return found;
}

/// What the words name, and whether they say that it is corrected.
std::optional<PullQuantity> quantity_called(const Words& words,
                                            std::optional<PullQuantity> by_unit) {
    constexpr std::string_view corrected_words =
        "corrected corr cor stp std sae j607 j1349 iso 1585 iso1585 din 70020";
    constexpr std::string_view plain_words =
        "engine brake flywheel average avg mean raw observed obs uncorrected uncorr measured "
        "actual";
    std::string name;
    bool corrected = false;
    for (const std::string& word : words) {
        if (lists(corrected_words, ' ', word)) {
            corrected = true;
        } else if (!lists(plain_words, ' ', word)) {
            name += (name.empty() ? "" : " ") + word;
        }
    }
    std::optional<PullQuantity> found = name.empty() ? by_unit : std::nullopt;
    for (const Naming& naming : namings) {
        if (lists(naming.called, '|', name)) {
            found = naming.quantity;
        }
    }
    if (found && corrected) {
        return *found == PullQuantity::torque  ? std::optional(PullQuantity::corrected_torque)
               : *found == PullQuantity::power ? std::optional(PullQuantity::corrected_power)
                                               : std::nullopt;
    }
    return found;
}

std::string joined(Words::const_iterator from, Words::const_iterator to) {
    std::string text;
    for (; from != to; ++from) {
        text += *from;
    }
    return text;
}

/// A quantity by its words, its unit by the last of them: the most words that make a unit.
std::optional<PullHeading> unbracketed(const Words& words) {
    for (std::size_t name_words = 0; name_words < words.size(); ++name_words) {
        const auto middle = words.begin() + static_cast<long>(name_words);
        const std::string unit_text = joined(middle, words.end());
        const auto quantity = quantity_called({words.begin(), middle}, quantity_of_unit(unit_text));
        if (!quantity) {
            continue;
        }
        if (const auto unit = unit_of(*quantity, unit_text)) {
            return PullHeading{*quantity, *unit};
        }
    }
    return std::nullopt;
}

/// The unit of a quantity that needs none written.
std::optional<PullUnit> only_unit(PullQuantity quantity) {
    if (quantity == PullQuantity::speed) {
        return PullUnit{"rpm", 1.0, 0.0};
    }
    if (quantity == PullQuantity::relative_humidity) {
        return PullUnit{"%", 1.0, 0.0};
    }
    if (quantity == PullQuantity::air_fuel_ratio) {
        return PullUnit{};
    }
    return std::nullopt;
}

} // namespace

std::string_view pull_quantity_name(PullQuantity quantity) {
    return naming_of(quantity).name;
}

Result<std::optional<PullHeading>> pull_heading(const std::string& heading) {
    const Heading parts = taken_apart(heading);
    Words words = parts.words;
    std::vector<std::string> units;
    // What stands in brackets is a unit, or more words: "Power (corrected) [hp]".
    for (const std::string& inside : parts.bracketed) {
        const Words more = taken_apart(inside).words;
        const bool says_more = quantity_called(more, PullQuantity::torque).has_value();
        if (says_more && !is_pull_unit(inside)) {
            words.insert(words.end(), more.begin(), more.end());
        } else {
            units.push_back(inside);
        }
    }
    if (units.empty()) {
        if (const auto found = unbracketed(words)) {
            return std::optional(*found);
        }
    }
    const auto by_unit = units.empty() ? std::nullopt : quantity_of_unit(units.front());
    const auto quantity = quantity_called(words, by_unit);
    if (!quantity) {
        return std::optional<PullHeading>();
    }
    for (const std::string& unit_text : units) {
        if (const auto unit = unit_of(*quantity, unit_text)) {
            return std::optional(PullHeading{*quantity, *unit});
        }
    }
    const auto unit = only_unit(*quantity);
    if (units.empty() && unit) {
        return std::optional(PullHeading{*quantity, *unit});
    }
    return Error{ErrorCode::unit_unclear,
                 std::string(pull_quantity_name(*quantity)),
                 heading,
                 unit_names(*quantity),
                 {},
                 {}};
}

bool is_pull_unit(const std::string& cell) {
    const Heading parts = taken_apart(cell);
    const std::string text = parts.bracketed.empty()
                                 ? joined(parts.words.begin(), parts.words.end())
                                 : parts.bracketed.front();
    return std::any_of(namings.begin(), namings.end(), [&](const Naming& naming) {
        return unit_of(naming.quantity, text).has_value();
    });
}

} // namespace rodway
