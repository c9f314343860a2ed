#pragma once

#include <optional>

#include "core/base/result.h"
#include "core/loads/spring_card.h"
#include "core/units/interval.h"

namespace rodway {

/// Pages print the same figure in two columns, metric and inch, and now and then the two
/// contradict each other by more than rounding. Two columns alone can't say which is wrong; a third
/// figure may.

enum class ColumnDimension {
    length,      ///< mm and in
    force,       ///< N and lbf
    spring_rate, ///< N/mm and lbf/in
};

/// One figure as it is printed twice, each in its own column's unit, with one step of its last
/// printed digit.
struct PrintedRow {
    ColumnDimension dimension = ColumnDimension::length;
    PrintedValue metric;
    PrintedValue inch;
};

/// What the two make of each other. In the metric column's unit, but for `inch_for_metric`.
struct RowComparison {
    TwinComparison twins;
    Interval metric; ///< what the metric print may stand for
    Interval inch;   ///< what the inch print may stand for, converted
    /// The metric figure as it would stand in the inch column, rounded to that column's step, and
    /// the inch figure in the metric column: a slip of one digit shows here.
    double inch_for_metric = 0.0;
    double metric_for_inch = 0.0;
};

/// Errors: not_a_number and out_of_range ("metric", "inch": above 0, up to 1e6; a step above 0, no
/// larger than the figure).
Result<RowComparison> compare_row(const PrintedRow& row);

/// A spring's figures at two heights, in two columns.
struct SpringPage {
    PrintedRow closed_height;
    PrintedRow closed_load;
    PrintedRow open_height;
    PrintedRow open_load;
};

/// What is known of that spring from elsewhere.
struct ThirdFigures {
    std::optional<Interval> rate_N_per_mm;
    std::optional<Interval> valve_lift_mm; ///< closed height less open height
};

enum class ColumnFinding {
    agree,         ///< the two columns are one figure, rounded
    metric_stands, ///< they contradict each other; only the metric one goes with the rest
    inch_stands,   ///< only the inch one does
    undecided,     ///< either could be right
    neither,       ///< no choice among the columns goes with the rest
};

struct JudgedRow {
    RowComparison comparison;
    ColumnFinding finding = ColumnFinding::agree;
};

struct SpringPageFinding {
    JudgedRow closed_height;
    JudgedRow closed_load;
    JudgedRow open_height;
    JudgedRow open_load;
    Interval metric_rate_N_per_mm; ///< by the metric column alone
    Interval inch_rate_N_per_mm;   ///< by the inch column alone
};

/// Which of the rows contradict themselves, and which column each is contradicted in. Every choice
/// of columns for the contradicting rows is tried; one goes with the rest if its rate may be above
/// zero and may be the third figures. A row's column stands if every choice that goes takes it.
/// Errors: those of `compare_row`, with the row in front ("open_height/inch"); not_a_choice
/// ("closed_load/dimension": heights are lengths, loads forces); order_wrong ("open_height",
/// "open_load": in either column the open height must be the lower, its load the higher);
/// out_of_range ("rate", above 0 to 2000 N/mm; "valve_lift", above 0 to 50 mm).
Result<SpringPageFinding> judge_spring_page(const SpringPage& page, const ThirdFigures& third = {});

} // namespace rodway
