#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/words/sheet_words.h"
#include "core/build/records.h"
#include "core/sheets/quantity.h"
#include "core/units/interval.h"
#include "db/shop_file.h"

namespace rodway {

/// How what one build says stands to what the other says.
enum class Difference {
    none,         ///< the same
    within_doubt, ///< the numbers differ by no more than their last digits leave open
    more,         ///< the second is greater
    less,         ///< the second is smaller
    other,        ///< the words differ
    first_only,   ///< the second says nothing
    second_only
};

enum class ComparedPart { readings, set_up, parts };

/// One thing that both builds, or one of them, say something of.
struct ComparedLine {
    ComparedPart part = ComparedPart::readings;
    std::string sheet; ///< of a reading, its kind of sheet
    std::string what;  ///< a quantity, a path of the set-up, a part's role or item
    std::string position;
    std::optional<std::string> first; ///< as typed, with its unit
    std::optional<std::string> second;
    Difference difference = Difference::none;
    /// The second less the first, from both numbers, in the unit in which the dimension is held.
    std::optional<Interval> by;
    std::optional<Quantity> quantity; ///< of a reading
};

struct BuildComparison {
    Build first;
    Build second;
    std::vector<ComparedLine> lines; ///< readings sheet by sheet, then set-up, then parts
    words::OwnTitles own_titles;
};

/// Puts two builds of a shop side by side: of retakes the last, the set-up in hand, parts by their
/// role or item. Errors: no_such_record; those of reading the file.
Result<BuildComparison> compare_builds(ShopFile& shop, std::int64_t first, std::int64_t second);

/// As a spreadsheet takes it, see `write_readings_csv`.
[[nodiscard]] std::string comparison_csv(const BuildComparison& comparison);

/// The sign for a difference, and its word: never by the sign alone.
[[nodiscard]] QString difference_sign(Difference difference);
[[nodiscard]] QString difference_text(const ComparedLine& line);
/// The word of `--json` and of CSV; never translated.
[[nodiscard]] const char* difference_token(Difference difference);
/// "Main bearings", "Set-up", "Parts".
[[nodiscard]] QString compared_heading(const ComparedLine& line, const words::OwnTitles& own);
[[nodiscard]] QString compared_what(const ComparedLine& line, const words::OwnTitles& own);

} // namespace rodway
