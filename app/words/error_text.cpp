#include "app/words/error_text.h"

#include <QCoreApplication>
#include <QFileInfo>

#include "app/words/field_words.h"
#include "app/words/lengths.h"
#include "core/cam/lift_table.h"

namespace rodway::words {
namespace {

struct Errors {
    Q_DECLARE_TR_FUNCTIONS(Errors)
};

QString limits_text(const Limits& limits) {
    // 20000, not 2e+04.
    const auto number = [](double value) {
        return QString::number(value, 'g', value < 1e4 ? 4 : 8);
    };
    const QString range = Errors::tr("%1 to %2").arg(number(limits.low), number(limits.high));
    // A component of an axis, or a count, has no unit.
    return limits.unit.empty()
               ? range
               : Errors::tr("%1 %2").arg(range, QString::fromStdString(limits.unit));
}

/// A length that would fit if it had been meant in the other unit is worth a hint.
QString wrong_unit_hint(const Error& error) {
    bool number = false;
    const double value = QString::fromStdString(error.value).toDouble(&number);
    const Limits& limits = *error.limits;
    const bool inches = limits.unit == "in";
    if (!number || !(inches || limits.unit == "mm") || value == 0.0) {
        return {};
    }
    const double other = inches ? value / 25.4 : value * 25.4;
    if (other < limits.low || other > limits.high) {
        return {};
    }
    return inches ? Errors::tr(" It would fit if it were millimetres: check the unit.")
                  : Errors::tr(" It would fit if it were inches: check the unit.");
}

/// What a file's reader wanted, from its token.
QString wanted(const QString& token) {
    if (token == "number") {
        return Errors::tr("a number");
    }
    if (token == "text") {
        return Errors::tr("plain text in quotation marks");
    }
    if (token == "list") {
        return Errors::tr("a list in brackets");
    }
    if (token == "object") {
        return Errors::tr("a group in braces");
    }
    if (token == "true") {
        return Errors::tr("true, or nothing at all");
    }
    if (token == "three_numbers") {
        return Errors::tr("three numbers in brackets");
    }
    if (token == "pairs") {
        return Errors::tr("pairs of numbers in brackets");
    }
    if (token == "object") {
        return Errors::tr("keys and values in braces");
    }
    if (token == "list") {
        return Errors::tr("a list in brackets");
    }
    if (token == "unit") {
        return Errors::tr("a key that ends in its unit");
    }
    if (token == "spring_band") {
        return Errors::tr("a band with its unit, such as 118-124 lbf, 525-550 N or 1.875-1.885 in");
    }
    if (token == "one_size") {
        return Errors::tr("one size, such as +.015, not a range");
    }
    if (token == "clock") {
        return Errors::tr("a clock direction such as 3 or 3:30, or “tightest”");
    }
    if (token == "gap_position") {
        return Errors::tr("a place such as 3I/tube/rocker/3:30/full_lift");
    }
    if (token == "turn_place") {
        return Errors::tr("heel, full, or a crank angle");
    }
    if (token == "thread") {
        return Errors::tr("a thread such as 7/16-20 or M10x1.5");
    }
    if (token == "tightening_steps") {
        return Errors::tr("steps such as 45/65/65+90, 20 then 1/4 turn, stretch .006");
    }
    return token;
}

/// Why a field can't stand there, by what it stands with.
QString other_kind_text(const QString& with) {
    if (with == "solid") {
        return Errors::tr(
            "A solid lifter has no plunger: leave it out, or make the lifter "
            "hydraulic.");
    }
    if (with == "hydraulic") {
        return Errors::tr("A hydraulic lifter runs without lash: set it to 0.");
    }
    if (with == "no_adjuster") {
        return Errors::tr(
            "No adjuster sets the lash of this valve, so it can't be tried further in or out.");
    }
    if (with == "gasket_not_stated") {
        return Errors::tr(
            "The set-up doesn't say how thick this gasket is: put that down first, then change "
            "it.");
    }
    if (with == "profile_thickness") {
        return Errors::tr(
            "This rod's thickness is given along its length: change that profile in the set-up.");
    }
    if (with == "lash_as_found") {
        return Errors::tr(
            "The set-up holds rockers as they were found at their lash: set the lash on the "
            "engine, and take the set-up again.");
    }
    if (with == "lobe_as_measured") {
        return Errors::tr("A lobe stays as it was measured: take in the other lobe's own table.");
    }
    if (with == "profile") {
        return Errors::tr("Give a rod either one diameter or a profile, not both.");
    }
    if (with == "ball_pivot") {
        return Errors::tr(
            "A ball-pivot rocker has no axis of its own: it follows from what guides "
            "it. Leave the axis out.");
    }
    if (with == "rod_length") {
        return Errors::tr(
            "Give a rod one length: between centres, overall, effective or gauge. Leave the "
            "others out.");
    }
    if (with == "ball_end") {
        return Errors::tr(
            "A rod that ends in a ball has no cup: leave the depth out, or make its top end a "
            "cup.");
    }
    if (with == "shaft") {
        return Errors::tr("A nut needs a stud: a rocker on a shaft has a screw, or nothing.");
    }
    if (with == "angle" || with == "size") {
        return with == "angle"
                   ? Errors::tr("This is a lean: say by what angle (angle_deg), not by what size.")
                   : Errors::tr("This is a length: say its size (size_in, size_mm), not an angle.");
    }
    if (with == "gasket_state") {
        return Errors::tr(
            "Give a gasket either one thickness, or new and crushed and which of them is in, not "
            "both.");
    }
    if (with == "gasket_volume") {
        return Errors::tr("The gasket's volume is given: leave its bore out, or the volume.");
    }
    if (with == "chamber_cc_per_mm") {
        return Errors::tr(
            "What milling takes of the chamber is given twice: by its opening and by volume. Leave "
            "one out.");
    }
    if (with == "relative_humidity") {
        return Errors::tr("Humidity and wet bulb say the same: leave one of them out.");
    }
    if (with == "fuel") {
        return Errors::tr(
            "This standard's factor wants the fuel burnt for each cycle and litre: it is for "
            "compression ignition.");
    }
    if (with.isEmpty()) {
        return Errors::tr("This doesn't go with the rest: leave it out.");
    }
    if (with == "one_new_size") {
        return Errors::tr(
            "The engine hasn't one size of this, or the set-up doesn't say it, so no new size can "
            "be meant: give the change with its sign, such as +.015.");
    }
    if (with == "contact") {
        return Errors::tr(
            "Contact is never waived. Cure it, measure again, and it is gone by itself.");
    }
    if (with == "held_up") {
        return Errors::tr("The stage is still held up: clear these, or waive each with a reason.");
    }
    if (with == "ended") {
        return Errors::tr("It was ended before; what was written then stands.");
    }
    if (with == "closed") {
        return Errors::tr("It was closed before; what was written then stands.");
    }
    return Errors::tr("This doesn't go with the kind “%1”: leave it out.").arg(with);
}

/// The unit goes before what is said of a lash: "18 thou hot".
QString unit_needed_text(const QString& value) {
    QString number = value;
    QString heat;
    for (const QString& word : {QStringLiteral("hot"), QStringLiteral("cold")}) {
        if (number.endsWith(word)) {
            number.chop(word.size());
            number = number.trimmed();
            heat = ' ' + word;
        }
    }
    return Errors::tr(
               "“%1” could be inches, thousandths or millimetres: type it with its unit, "
               "such as %2 thou%3 or %2 mm%3.")
        .arg(value, number, heat);
}

/// "a, b, c" of a list of words with blanks between.
QString listed(const QString& words) {
    return QString(words).replace(' ', ", ");
}

QString missing_text(const Error& e) {
    if (e.field == "set_up") {
        return Errors::tr("This build has no set-up yet: import one.");
    }
    if (e.field == "plan") {
        return Errors::tr("This build began without a stage plan: there is nothing to compare.");
    }
    const QString field = QString::fromStdString(e.field);
    if (!e.value.empty() && field.section('/', -1) == "needs") {
        return Errors::tr("“%1” must say what it is about, such as “sheet lash” or “parts piston”.")
            .arg(QString::fromStdString(e.value));
    }
    if (e.field == "torque") {
        return Errors::tr(
            "No column has the torque or power as the brake read it; corrected ones alone are no "
            "pull.");
    }
    if (e.field == "dry_clearance_limits") {
        return Errors::tr("They are missing: set-limit dry_clearance with --low and --high.");
    }
    return e.expected.empty() ? Errors::tr("It is missing.")
                              : Errors::tr("It is missing: say %1.")
                                    .arg(listed(QString::fromStdString(e.expected)));
}

QString twice_text(const Error& e) {
    const QString value = QString::fromStdString(e.value);
    const QString expected = QString::fromStdString(e.expected);
    if (e.field == "pull") {
        return Errors::tr("Number %1 is on the sheet already: the next free one is %2.")
            .arg(value, expected);
    }
    return expected.isEmpty() ? Errors::tr("It stands there twice; only one can be meant.")
                              : Errors::tr("“%1” and “%2” say the same; only one can be meant.")
                                    .arg(expected, value);
}

QString order_text(const Error& e) {
    const QString value = QString::fromStdString(e.value);
    if (e.field == "speed") {
        return Errors::tr(
                   "“%1” is out of order: speeds must rise from row to row, by one rpm at least.")
            .arg(value);
    }
    if (e.field == "lift_table" || e.field == "angle" || e.field == "drops") {
        return Errors::tr("“%1” is out of order: angles must rise from row to row.").arg(value);
    }
    return Errors::tr(
               "“%1” is out of order: of two ends the lower stands first, and a row goes one way.")
        .arg(value);
}

QString columns_text(const Error& e) {
    const QString value = QString::fromStdString(e.value);
    if (e.field == "cell") {
        return Errors::tr("A quotation mark is opened here and never closed.");
    }
    return e.field == "columns"
               ? Errors::tr("This row has %1 cells; the headings have %2.")
                     .arg(value, QString::fromStdString(e.expected))
               : Errors::tr("“%1” doesn't have two columns, angle and lift.").arg(value);
}

QString unclear_text(const Error& e) {
    const QString value = QString::fromStdString(e.value);
    if (e.code == ErrorCode::unit_unclear) {
        return e.expected.empty()
                   ? Errors::tr(
                         "Nothing says whether the lift of %1 is inches or millimetres: say which.")
                         .arg(value)
                   : Errors::tr(
                         "Nothing says in which unit “%1” is. Put one of these behind it: %2.")
                         .arg(value, listed(QString::fromStdString(e.expected)));
    }
    return e.field == "decimal_mark"
               ? Errors::tr(
                     "A number here has a comma or point that may part thousands or decimals: say "
                     "which is the decimal mark.")
               : Errors::tr(
                     "“%1” can be read in several ways: say which sign separates columns and "
                     "which is the decimal mark.")
                     .arg(value);
}

/// A file of another kind than the one wanted.
QString other_format_text(const QString& wanted) {
    if (wanted == "rodway-build") {
        return Errors::tr("This is not a build that Rodway exported (wanted is “format”: “%1”).")
            .arg(wanted);
    }
    if (wanted == "rodway-stage-plan") {
        return Errors::tr("This is not a stage plan of Rodway (wanted is “format”: “%1”).")
            .arg(wanted);
    }
    return Errors::tr("This is not a Rodway set-up file (wanted is “format”: “%1”).").arg(wanted);
}

QString sentence(const Error& e) {
    const QString value = QString::fromStdString(e.value);
    const QString expected = QString::fromStdString(e.expected);
    switch (e.code) {
        case ErrorCode::empty_text:
            return Errors::tr("Nothing is typed here.");
        case ErrorCode::not_a_number:
            return Errors::tr("“%1” is not a number.").arg(value);
        case ErrorCode::not_a_length:
            return Errors::tr(
                       "“%1” is not a length. Accepted are .010, 10 thou, 1/8, 1-1/2, 0,25 mm.")
                .arg(value);
        case ErrorCode::not_an_angle:
            return Errors::tr("“%1” is not an angle in degrees.").arg(value);
        case ErrorCode::unit_needed:
            return unit_needed_text(value);
        case ErrorCode::ambiguous_unit:
            if (value.contains("tenth", Qt::CaseInsensitive)) {
                return Errors::tr(
                    "A tenth is 0.0001 in to some and 0.1 mm to others: type “tenth of a thou” or "
                    "“tenth of a mm”.");
            }
            return Errors::tr(
                "“mil” means a thousandth of an inch to some and a millimetre to others: type thou "
                "or mm.");
        case ErrorCode::sign_needed:
            return expected == "dome dish"
                       ? Errors::tr("“%1” could be a dome or a dish: type “dome %1” or “dish %1”.")
                             .arg(value)
                       : Errors::tr(
                             "“%1” could be in the hole or out of it: type “in the hole %1” or "
                             "“out %1”.")
                             .arg(value);
        case ErrorCode::gauge_needed:
            return Errors::tr(
                       "“%1” says what a gauge did, not how thick it is: type it with its size, "
                       "such as .010 no go or .010 light drag.")
                .arg(value);
        case ErrorCode::two_values:
            return Errors::tr("“%1” is two values: type each at its own place.").arg(value);
        case ErrorCode::thread_not_length:
            return Errors::tr("“%1” is a thread, not a length.").arg(value);
        case ErrorCode::not_an_amount:
            return expected.isEmpty()
                       ? Errors::tr("“%1” is not a number. Accepted are 12, 12.5, 12-15, ~12.")
                             .arg(value)
                       : Errors::tr(
                             "“%1” can't be read here. Type a number, and behind it one of "
                             "these units if it isn't the usual one: %2.")
                             .arg(value, QString(expected).replace(' ', ", "));
        case ErrorCode::not_a_date:
            return Errors::tr("“%1” is not a date. Type 2026-03-01 or 1 March 2026.").arg(value);
        case ErrorCode::not_a_place:
            return expected.isEmpty()
                       ? Errors::tr("This is read once on the whole engine: leave “%1” out.")
                             .arg(value)
                       : Errors::tr("“%1” is no place on this sheet. Write it like %2.")
                             .arg(value, expected);
        case ErrorCode::not_a_position:
            return Errors::tr("“%1” is no valve. Valves are named like 3I or 3E.").arg(value);
        case ErrorCode::not_a_firing_order:
            return Errors::tr(
                       "“%1” is not a firing order. Type the cylinders like 1-8-4-3-6-5-7-2.")
                .arg(value);
        case ErrorCode::missing_field:
            return missing_text(e);
        case ErrorCode::unknown_field:
            return Errors::tr("Rodway knows no field of this name.");
        case ErrorCode::duplicate_field:
            return twice_text(e);
        case ErrorCode::wrong_type:
            return Errors::tr("“%1” doesn't fit here; wanted is %2.").arg(value, wanted(expected));
        case ErrorCode::out_of_range:
            return e.limits ? Errors::tr("%1 is outside %2.").arg(value, limits_text(*e.limits)) +
                                  wrong_unit_hint(e)
                            : Errors::tr("%1 is outside what is allowed.").arg(value);
        case ErrorCode::not_a_choice:
            if (expected.isEmpty()) {
                return Errors::tr("There is no “%1”.").arg(value);
            }
            if (expected == "one_word") {
                return Errors::tr(
                           "“%1” must be one word of small letters, digits and underlines, a "
                           "letter first.")
                    .arg(value);
            }
            if (expected == "IE EI") {
                return Errors::tr(
                           "“%1” isn't one intake (I) and one exhaust (E) for every cylinder of "
                           "the bank: such as I E E I for two.")
                    .arg(value);
            }
            return Errors::tr("“%1” is not one of: %2.")
                .arg(value, QString(expected).replace(' ', ", "));
        case ErrorCode::not_a_direction:
            return Errors::tr("An axis must have length 1; this one has %1.").arg(value);
        case ErrorCode::not_of_this_kind:
            return other_kind_text(expected);
        case ErrorCode::cylinder_twice:
            return Errors::
                tr("The firing order %1 names cylinder %2 twice. Each cylinder stands there once.")
                    .arg(value, expected);
        case ErrorCode::cylinder_missing:
            return Errors::tr("The firing order %1 leaves out cylinder %2.").arg(value, expected);
        case ErrorCode::cylinder_unknown:
            if (expected.isEmpty()) {
                return Errors::tr("Cylinder %1 is none of those tested.").arg(value);
            }
            return Errors::tr(
                       "The firing order %1 names cylinder %2, which this engine doesn't have.")
                .arg(value, expected);
        case ErrorCode::valve_unknown:
            return Errors::tr("This engine has no valve %1.").arg(value);
        case ErrorCode::bore_smaller_than_rod:
            return Errors::tr("The tube's bore (%1 mm) is not larger than its rod (%2 mm).")
                .arg(value, expected);
        case ErrorCode::passage_swapped:
            return Errors::tr(
                "The tube's axis runs from the rocker end to the lifter end. Turn its three "
                "numbers' signs round.");
        case ErrorCode::valve_swapped:
            return Errors::tr(
                "The valve would be pushed shut, not open: its axis runs from the head to the tip. "
                "Turn its "
                "three numbers' signs round.");
        case ErrorCode::contradicts_header:
            return Errors::tr(
                       "The file's own header says %1. Leave the option out, or mend the header.")
                .arg(expected);
        case ErrorCode::valve_lift_table:
            return Errors::tr(
                "The header speaks of valve lift; a lobe's lift, measured at the lifter, is "
                "needed.");
        case ErrorCode::banks_parallel:
            return Errors::tr(
                "The two intake faces are parallel, so gaskets can't fix where the intake sits. "
                "Check the flange "
                "normals.");
        case ErrorCode::rod_too_short:
            return Errors::tr("The rod is too short.");
        case ErrorCode::rod_too_long:
            return Errors::tr("The rod is too long.");
        case ErrorCode::adjuster_out_of_thread:
            return Errors::tr("The adjuster runs out of thread.");
        case ErrorCode::cannot_read:
            if (value == "gone") {
                return Errors::tr(
                    "The file is no longer where it was. Put it back, or connect its disk again.");
            }
            if (value == "replaced") {
                return Errors::tr(
                    "Another file stands where the shop file was. Put the shop file back.");
            }
            return Errors::tr("The file can't be read. Check that it is there and may be opened.");
        case ErrorCode::cannot_write:
            if (value == "exists") {
                return Errors::tr(
                    "Something of that name stands there already, and is left alone.");
            }
            if (value == "database") {
                return Errors::tr(
                    "A database stands there, perhaps a shop file; it is left alone. Choose "
                    "another name.");
            }
            if (value == "same_file") {
                return Errors::tr("Backup and shop file are one and the same file.");
            }
            if (value == "disk_full") {
                return Errors::tr(
                    "The disk is full. Make room on it, or choose another. What was saved before "
                    "is kept.");
            }
            if (value == "disk_error") {
                return Errors::tr(
                    "The disk doesn't take it: it may be full, taken out or failing. What was "
                    "saved before is kept. Make room or look at the disk, and try again.");
            }
            if (value == "read_only") {
                return Errors::tr(
                    "It may be read but not written: its disk, its folder or the file itself is "
                    "read-only. Nothing was changed.");
            }
            return Errors::tr(
                "It can't be written. Check that the folder is there and may be written to.");
        case ErrorCode::not_utf8:
            return expected == "utf-16"
                       ? Errors::tr(
                             "The text is UTF-16. Save it as UTF-8 (in a spreadsheet: “CSV UTF-8”) "
                             "and try again.")
                       : Errors::tr(
                             "The file is not plain UTF-8 text. Save it as UTF-8 and try again.");
        case ErrorCode::not_json:
            return Errors::tr("This is not JSON, or it is cut off here.");
        case ErrorCode::wrong_format:
            return other_format_text(expected);
        case ErrorCode::newer_version:
            return Errors::tr(
                       "It was made by a newer Rodway (version %1; this one knows %2). Update "
                       "Rodway to open it.")
                .arg(value, expected);
        case ErrorCode::empty_file:
            return Errors::tr("The file is empty.");
        case ErrorCode::too_few_rows:
            if (QString::fromStdString(e.field).endsWith("card/durations")) {
                return Errors::tr(
                    "One lift with its duration isn't enough to draw a lobe: give at least two, "
                    "such as .050 236; .006 264.");
            }
            return Errors::tr("There are only %1 rows; at least %2 are needed.")
                .arg(value, expected);
        case ErrorCode::order_wrong:
            return order_text(e);
        case ErrorCode::column_count:
            return columns_text(e);
        case ErrorCode::separator_unclear:
            return unclear_text(e);
        case ErrorCode::unit_unclear:
            return unclear_text(e);
        case ErrorCode::angle_kind_unclear:
            if (!expected.isEmpty()) {
                return Errors::tr(
                           "“%1” could be crank or cam degrees: type “crank” or “cam” "
                           "behind it.")
                    .arg(value);
            }
            return Errors::tr(
                       "Nothing says whether the angles are crank or cam degrees (the lift lasts "
                       "%1 of them): say which.")
                .arg(value);
        case ErrorCode::not_zero_at_ends:
            return Errors::tr(
                       "Each end of the table must stand on the heel, both heels reading alike to "
                       "0.0012 in, or on the rising ramp, no higher than %1. This end reads %2.")
                .arg(both_units(greatest_cut_lift_mm), both_units(value.toDouble()));
        case ErrorCode::not_single_peak:
            return Errors::tr("“%1” drops back before full lift: a lobe has one peak.").arg(value);
        case ErrorCode::not_a_lobe:
            return Errors::tr("No lobe can have these durations and this peak together.");
        case ErrorCode::foreign_file:
            return Errors::tr("This is not a Rodway shop file. Choose another one.");
        case ErrorCode::damaged_file:
            if (value == "unreadable") {
                return Errors::tr(
                    "Nothing can be read from it. Keep it, and go back to a backup copy.");
            }
            return Errors::tr(
                "The shop file is damaged. Keep it, and go back to a backup copy, or save what is "
                "readable with: rodway check SHOP --rescue NEW");
        case ErrorCode::locked_file:
            return Errors::tr(
                "Another program is writing to the shop file. Try again in a moment.");
        case ErrorCode::changed_since:
            return Errors::tr(
                       "It was changed meanwhile: it now reads “%1”, not “%2”. Look at it and "
                       "decide again.")
                .arg(value, expected);
        case ErrorCode::no_such_record:
            return Errors::tr("There is none of that name or number (%1).").arg(value);
        case ErrorCode::erased_text:
            return Errors::tr(
                "This wrote personal details that have been erased since, so it "
                "can't be taken back.");
        case ErrorCode::no_graphics:
            return Errors::tr(
                "This machine gives no OpenGL 3.3, with or without a display, so no 3D picture can "
                "be drawn. All "
                "figures stay usable.");
    }
    return {};
}

} // namespace

QString error_text(const Error& error) {
    if (error.expected == "waiting") {
        // Which file it is goes without saying; that nothing is lost doesn't.
        Error cause = error;
        cause.expected.clear();
        return Errors::tr("%1 What you typed is kept and saved as soon as it can be.")
            .arg(sentence(cause));
    }
    QStringList parts;
    if (error.line) {
        parts << Errors::tr("line %1").arg(*error.line);
    }
    if (!error.field.empty()) {
        const QString title = field_title(error.field);
        parts << (title.isEmpty() ? QString::fromStdString(error.field) : title);
    }
    const QString where = parts.join(", ");
    return where.isEmpty() ? sentence(error) : Errors::tr("%1: %2").arg(where, sentence(error));
}

QString error_in_file(const QString& file, const Error& error) {
    if (error.field == file.toStdString() ||
        error.field == QFileInfo(file).absoluteFilePath().toStdString()) {
        return error_text(error);
    }
    return Errors::tr("%1: %2").arg(file, error_text(error));
}

} // namespace rodway::words
