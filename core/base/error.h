#pragma once

#include <optional>
#include <string>

namespace rodway {

/// What is wrong with an input. A code is a fact; the sentence a person reads is made in
/// `app/words`.
enum class ErrorCode {
    // what people type
    empty_text,         ///< nothing was typed where a value is needed
    not_a_number,       ///< `value` can't be read as a number
    not_a_length,       ///< `value` can't be read as a length
    not_an_angle,       ///< `value` can't be read as an angle
    unit_needed,        ///< a bare number that could be inches, thousandths or millimetres
    ambiguous_unit,     ///< a word such as 'mil' that means different lengths to different people
    sign_needed,        ///< a number that could lie on either of the two sides in `expected`
    gauge_needed,       ///< what a gauge did ("no go"), but not how thick it is
    two_values,         ///< two numbers ("26/28") where there is room for one
    thread_not_length,  ///< a thread designation such as 7/16-14 where a length is needed
    not_an_amount,      ///< `value` can't be read as a number in one of the units in `expected`
    not_a_date,         ///< `value` is no day written as year-month-day
    not_a_position,     ///< `value` names no cylinder and valve
    not_a_place,        ///< `value` names no place on this sheet; `expected` is one
    not_a_firing_order, ///< `value` can't be read as cylinder numbers
    // fields of a record or a file
    missing_field,    ///< a needed field is absent
    unknown_field,    ///< a field nobody asked for
    duplicate_field,  ///< the same field twice
    wrong_type,       ///< e.g. text where a number is needed
    out_of_range,     ///< outside `limits`
    not_a_choice,     ///< not one of the words listed in `expected`
    not_a_direction,  ///< an axis of no length
    not_of_this_kind, ///< a field that what `expected` names doesn't have
    // the engine as a whole
    cylinder_twice,        ///< a firing order that names a cylinder twice
    cylinder_missing,      ///< a firing order that leaves a cylinder out
    cylinder_unknown,      ///< a number that is no cylinder of this engine
    valve_unknown,         ///< a train for a valve that the layout doesn't have
    bore_smaller_than_rod, ///< the tube's bore is not larger than the rod
    passage_swapped,       ///< a tube whose axis runs from the rocker end to the lifter end
    valve_swapped, ///< a valve that would be pushed out of its seat backwards: its axis points down
    contradicts_header, ///< an option that says other than the file's own header; `expected` is the
                        ///< header's
    valve_lift_table,   ///< a table of valve lift where lobe lift is needed
    banks_parallel,     ///< two intake flanges whose normals don't fix the manifold
    rod_too_short,      ///< at set lash the adjuster can't reach the rod
    rod_too_long,       ///< at set lash the rod is longer than lifter and adjuster allow
    adjuster_out_of_thread, ///< the adjuster would have to stand outside its travel
    // files
    cannot_read,        ///< the file can't be opened or read
    cannot_write,       ///< the file or folder can't be written
    not_utf8,           ///< the text is in another encoding
    not_json,           ///< not JSON, or cut off
    wrong_format,       ///< JSON, but not a Rodway set-up
    newer_version,      ///< made by a newer program
    empty_file,         ///< no rows at all
    too_few_rows,       ///< fewer rows than the work needs
    order_wrong,        ///< rows out of order
    column_count,       ///< a row with another number of columns
    separator_unclear,  ///< column separator and decimal mark can't be told apart
    unit_unclear,       ///< nothing says inch or millimetre
    angle_kind_unclear, ///< nothing says crank or cam degrees
    not_zero_at_ends,   ///< a lift table that doesn't begin and end on the heel
    not_single_peak,    ///< a lift table without one clear peak
    not_a_lobe,         ///< durations and peak that no lobe can have together
    // the shop file
    foreign_file,  ///< not a Rodway shop file
    damaged_file,  ///< a shop file whose contents don't hold together
    locked_file,   ///< another program holds the file
    changed_since, ///< what is stored no longer equals `before`; `value` is what is stored
    no_such_record,
    erased_text, ///< personal text that was erased on purpose and can't be brought back
    // pictures
    no_graphics, ///< no OpenGL, with or without a display
};

/// Limits that a value missed, in the unit named.
struct Limits {
    double low = 0.0;
    double high = 0.0;
    std::string unit;
};

/// Bad input: which field, what was found, what would be accepted.
struct Error {
    ErrorCode code;
    std::string field;    ///< path of the field, column name or file name
    std::string value;    ///< as found
    std::string expected; ///< a token, list of tokens or second value, never a sentence
    std::optional<int> line;
    std::optional<Limits> limits;
};

} // namespace rodway
