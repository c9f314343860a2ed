#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/sheets/place.h"
#include "core/units/measure_unit.h"

namespace rodway {

/// What the text of a reading says.
enum class Form {
    length,
    clearance, ///< a length of 0 or more, also by gauges tried: see `parse_rod_clearance`
    lash,      ///< a clearance, "hot" or "cold" behind it; `choices` holds which may stand there
    deck,      ///< how far below the block's face: see `parse_sided`
    angle,
    crank_angle,
    advance, ///< how far ahead, crank degrees: see `parse_sided`
    cam_angle,
    force,
    mass,
    volume,
    dome, ///< a volume taken from the chamber: see `parse_sided`
    pressure,
    temperature,
    torque,
    power,
    speed,
    time,
    percent,
    altitude,
    spring_rate,
    ratio,  ///< "10.2:1", "1.6"
    count,  ///< a whole number, 0 or more
    number, ///< any number; `unit` only says what it is counted in
    words,
    day, ///< "2026-03-01"
    yes_no,
    choice, ///< one of `choices`
};

/// Where a value comes from.
enum class Origin {
    read,       ///< measured, looked at, or taken from a card or box
    worked_out, ///< computed from other quantities; a reading of it is a figure given by others
};

/// One thing that is read on an engine: a line of a sheet.
struct Quantity {
    std::string id; ///< small letters, digits and "_"; never changes: shop files have it
    Form form = Form::length;
    Place place = Place::engine;
    std::string unit =
        {}; ///< of a bare number, unless the reading says; empty for ratios and words
    std::string choices = {}; ///< the words that may be chosen, or said of a lash, blanks between
    Origin origin = Origin::read;

    bool operator==(const Quantity&) const = default;
};

/// What a form's numbers measure; `none` for ratios, counts, plain numbers and words.
[[nodiscard]] Dimension dimension_of(Form form);
/// Whether a reading of this form is a number.
[[nodiscard]] bool is_numeric(Form form);

/// The form's name, for a shop's own sheets. It never changes.
[[nodiscard]] std::string_view form_name(Form form);
[[nodiscard]] std::optional<Form> form_called(std::string_view name);

} // namespace rodway
