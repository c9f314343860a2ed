#pragma once

#include <QString>
#include <map>
#include <string>

#include "core/sheets/sheet_outcome.h"
#include "render/check_state.h"

namespace rodway::words {

/// What one line of a sheet is called, what it means, and how it is measured (may be empty).
struct QuantityText {
    QString title;
    QString meaning;
    QString measured;
};

/// The words of one built-in kind of sheet, from `resources/sheets`.
struct SheetText {
    QString title;
    QString about;
    std::map<std::string, QuantityText> quantities;
};
[[nodiscard]] const SheetText& sheet_text(const std::string& kind);

/// A shop's own words for its own sheets and quantities, by their identity.
using OwnTitles = std::map<std::string, std::string>;

/// Of a kind of sheet or a quantity; the id itself if nobody has given it one.
[[nodiscard]] QString sheet_title(const std::string& id, const OwnTitles& own = {});

/// "Each valve", "Each main journal", "Once".
[[nodiscard]] QString place_heading(Place place);
/// A position as kept, readable by itself: "3I", "cylinder 3", "cylinder 3 top thrust", "engine".
[[nodiscard]] QString sheet_position(const std::string& position, Place place);

/// "0.0025 in ± 0.0001": as many digits as its doubt leaves standing.
[[nodiscard]] QString amount(const Interval& value, const Quantity& quantity);
/// One number in a quantity's unit, without its doubt.
[[nodiscard]] QString amount(double value, const Quantity& quantity);

/// What was read, in the other unit than its quantity is shown in, with as many digits as keep all
/// that was typed: "62.18 mm", "0.25 to 0.30 mm". Empty where there is no other unit, or no number
/// with a last digit.
[[nodiscard]] QString in_other_unit(const ReadingValue& value, const Quantity& quantity);

[[nodiscard]] QString sheet_verdict(SheetVerdict verdict);
[[nodiscard]] CheckState check_state(SheetVerdict verdict);
/// What a sign of a sheet's box says, for those who don't see it; empty where nothing is judged.
[[nodiscard]] QString check_state_text(CheckState state);
/// "0.0020 in to 0.0030 in", "0.0030 in or less".
[[nodiscard]] QString limit_range(const SheetLimit& limit, const Quantity& quantity);
/// The same with who says so, and that it is for used parts where it is.
[[nodiscard]] QString limit(const SheetLimit& limit, const Quantity& quantity);
/// One thing pointed out, in a sentence or two, with what to do.
[[nodiscard]] QString finding(const SheetFinding& finding, const Quantity& quantity,
                              const OwnTitles& own = {});

// The words of `--json`: never translated.
[[nodiscard]] QString token(SheetVerdict verdict);
[[nodiscard]] QString token(PointedOut what);

} // namespace rodway::words
