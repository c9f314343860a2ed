#include "core/sheets/quantity.h"

#include <algorithm>
#include <array>

namespace rodway {
namespace {

struct FormTraits {
    Form form;
    std::string_view name;
    Dimension dimension;
    bool numeric;
};

// In the order of `Form`.
constexpr std::array forms{
    FormTraits{Form::length, "length", Dimension::length, true},
    FormTraits{Form::clearance, "clearance", Dimension::length, true},
    FormTraits{Form::lash, "lash", Dimension::length, true},
    FormTraits{Form::deck, "deck", Dimension::length, true},
    FormTraits{Form::angle, "angle", Dimension::angle, true},
    FormTraits{Form::crank_angle, "crank_angle", Dimension::crank_angle, true},
    FormTraits{Form::advance, "advance", Dimension::crank_angle, true},
    FormTraits{Form::cam_angle, "cam_angle", Dimension::cam_angle, true},
    FormTraits{Form::force, "force", Dimension::force, true},
    FormTraits{Form::mass, "mass", Dimension::mass, true},
    FormTraits{Form::volume, "volume", Dimension::volume, true},
    FormTraits{Form::dome, "dome", Dimension::volume, true},
    FormTraits{Form::pressure, "pressure", Dimension::pressure, true},
    FormTraits{Form::temperature, "temperature", Dimension::temperature, true},
    FormTraits{Form::torque, "torque", Dimension::torque, true},
    FormTraits{Form::power, "power", Dimension::power, true},
    FormTraits{Form::speed, "speed", Dimension::speed, true},
    FormTraits{Form::time, "time", Dimension::time, true},
    FormTraits{Form::percent, "percent", Dimension::percent, true},
    FormTraits{Form::altitude, "altitude", Dimension::altitude, true},
    FormTraits{Form::spring_rate, "spring_rate", Dimension::spring_rate, true},
    FormTraits{Form::ratio, "ratio", Dimension::none, true},
    FormTraits{Form::count, "count", Dimension::none, true},
    FormTraits{Form::number, "number", Dimension::none, true},
    FormTraits{Form::words, "words", Dimension::none, false},
    FormTraits{Form::day, "day", Dimension::none, false},
    FormTraits{Form::yes_no, "yes_no", Dimension::none, false},
    FormTraits{Form::choice, "choice", Dimension::none, false},
};

const FormTraits& traits_of(Form form) {
    return forms[static_cast<std::size_t>(form)];
}

} // namespace

Dimension dimension_of(Form form) {
    return traits_of(form).dimension;
}

bool is_numeric(Form form) {
    return traits_of(form).numeric;
}

std::string_view form_name(Form form) {
    return traits_of(form).name;
}

std::optional<Form> form_called(std::string_view name) {
    const auto found = std::find_if(forms.begin(), forms.end(),
                                    [&](const FormTraits& traits) { return traits.name == name; });
    return found == forms.end() ? std::nullopt : std::optional(found->form);
}

} // namespace rodway
