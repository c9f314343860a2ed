#include "core/heads/unit_columns.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include "core/units/force.h"
#include "core/units/length.h"
#include "core/units/typed_text.h"
#include "core/units/within.h"

namespace rodway {
namespace {

double metric_per_inch_unit(ColumnDimension dimension) {
    switch (dimension) {
        case ColumnDimension::length:
            return Length::mm_per_inch;
        case ColumnDimension::force:
            return Force::N_per_lbf;
        case ColumnDimension::spring_rate:
            break;
    }
    return spring_rate_N_per_mm(1.0);
}

std::optional<Error> wrong_print(const char* field, const PrintedValue& print) {
    constexpr double least = 1e-6;
    if (auto bad = outside(field, print.value, {least, 1e6, {}})) {
        return bad;
    }
    return outside(field, print.step, {least, print.value, {}});
}

double rounded(double value, double step) {
    return std::round(value / step) * step;
}

Interval printed(const PrintedValue& print) {
    return Interval::read(print.value, print.value, print.step);
}

constexpr std::size_t row_count = 4;
enum Row : std::size_t { closed_height, closed_load, open_height, open_load };
constexpr std::array<const char*, row_count> row_names{"closed_height", "closed_load",
                                                       "open_height", "open_load"};

/// What each row may be, one column or the other being taken.
using Figures = std::array<Interval, row_count>;

std::optional<Interval> rate_of(const Figures& figures) {
    return quotient(figures[open_load] - figures[closed_load],
                    figures[closed_height] - figures[open_height]);
}

bool goes_with(const Figures& figures, const ThirdFigures& third) {
    const auto rate = rate_of(figures);
    if (!rate || !(rate->high > 0.0)) {
        return false;
    }
    if (third.rate_N_per_mm && !rate->meets(*third.rate_N_per_mm)) {
        return false;
    }
    return !third.valve_lift_mm ||
           (figures[closed_height] - figures[open_height]).meets(*third.valve_lift_mm);
}

using Comparisons = std::array<RowComparison, row_count>;

/// Bit n of `choice`: row n is taken from the inch column. A row whose columns agree is both.
Figures figures_of(const Comparisons& rows, unsigned choice) {
    Figures figures;
    for (std::size_t row = 0; row < row_count; ++row) {
        const RowComparison& both = rows[row];
        const bool inch = (choice >> row & 1U) != 0U;
        if (both.twins.contradict) {
            figures[row] = inch ? both.inch : both.metric;
        } else {
            const double low = std::max(both.metric.low, both.inch.low);
            figures[row] = {low, std::max(low, std::min(both.metric.high, both.inch.high))};
        }
    }
    return figures;
}

std::array<ColumnFinding, row_count> findings(const Comparisons& rows, const ThirdFigures& third) {
    std::array<bool, row_count> metric_goes{};
    std::array<bool, row_count> inch_goes{};
    for (unsigned choice = 0; choice < 1U << row_count; ++choice) {
        if (!goes_with(figures_of(rows, choice), third)) {
            continue;
        }
        for (std::size_t row = 0; row < row_count; ++row) {
            ((choice >> row & 1U) != 0U ? inch_goes : metric_goes)[row] = true;
        }
    }
    std::array<ColumnFinding, row_count> found{};
    for (std::size_t row = 0; row < row_count; ++row) {
        if (!rows[row].twins.contradict) {
            found[row] = ColumnFinding::agree;
        } else if (metric_goes[row] && inch_goes[row]) {
            found[row] = ColumnFinding::undecided;
        } else if (metric_goes[row] || inch_goes[row]) {
            found[row] =
                metric_goes[row] ? ColumnFinding::metric_stands : ColumnFinding::inch_stands;
        } else {
            found[row] = ColumnFinding::neither;
        }
    }
    return found;
}

std::optional<Error> wrong_order(const Figures& figures) {
    if (!(figures[open_height].high < figures[closed_height].low)) {
        return Error{ErrorCode::order_wrong,
                     row_names[open_height],
                     exact_text(figures[open_height].middle()),
                     {},
                     {},
                     {}};
    }
    if (!(figures[open_load].low > figures[closed_load].high)) {
        return Error{ErrorCode::order_wrong,
                     row_names[open_load],
                     exact_text(figures[open_load].middle()),
                     {},
                     {},
                     {}};
    }
    return std::nullopt;
}

std::optional<Error> wrong_third(const ThirdFigures& third) {
    constexpr double least = 1e-6;
    if (third.rate_N_per_mm) {
        if (auto bad = first_outside({{"rate", *third.rate_N_per_mm, {least, 2000.0, "N/mm"}}})) {
            return bad;
        }
    }
    return third.valve_lift_mm
               ? first_outside({{"valve_lift", *third.valve_lift_mm, {least, 50.0, "mm"}}})
               : std::nullopt;
}

Result<Comparisons> compare_rows(const SpringPage& page) {
    const std::array<const PrintedRow*, row_count> printed_rows{
        &page.closed_height, &page.closed_load, &page.open_height, &page.open_load};
    Comparisons rows;
    for (std::size_t row = 0; row < row_count; ++row) {
        const bool height = row == closed_height || row == open_height;
        const std::string name = row_names[row];
        if (printed_rows[row]->dimension !=
            (height ? ColumnDimension::length : ColumnDimension::force)) {
            return Error{ErrorCode::not_a_choice,
                         name + "/dimension",
                         {},
                         height ? "length" : "force",
                         {},
                         {}};
        }
        const auto compared = compare_row(*printed_rows[row]);
        if (!compared) {
            Error error = compared.error();
            error.field = name + "/" + error.field;
            return error;
        }
        rows[row] = *compared;
    }
    return rows;
}

} // namespace

Result<RowComparison> compare_row(const PrintedRow& row) {
    if (const auto bad = wrong_print("metric", row.metric)) {
        return *bad;
    }
    if (const auto bad = wrong_print("inch", row.inch)) {
        return *bad;
    }
    const double factor = metric_per_inch_unit(row.dimension);
    RowComparison compared;
    const auto twins = compare_twins(row.metric, {row.inch.value * factor, row.inch.step * factor});
    RODWAY_ASSERT(twins.has_value());
    compared.twins = *twins;
    compared.metric = printed(row.metric);
    compared.inch = printed(row.inch) * factor;
    compared.inch_for_metric = rounded(row.metric.value / factor, row.inch.step);
    compared.metric_for_inch = rounded(row.inch.value * factor, row.metric.step);
    return compared;
}

Result<SpringPageFinding> judge_spring_page(const SpringPage& page, const ThirdFigures& third) {
    const auto rows = compare_rows(page);
    if (!rows) {
        return rows.error();
    }
    if (const auto bad = wrong_third(third)) {
        return *bad;
    }
    Figures metric;
    Figures inch;
    for (std::size_t row = 0; row < row_count; ++row) {
        metric[row] = (*rows)[row].metric;
        inch[row] = (*rows)[row].inch;
    }
    for (const Figures* column : {&metric, &inch}) {
        if (const auto bad = wrong_order(*column)) {
            return *bad;
        }
    }
    const auto found = findings(*rows, third);
    SpringPageFinding finding;
    const std::array<JudgedRow*, row_count> judged{&finding.closed_height, &finding.closed_load,
                                                   &finding.open_height, &finding.open_load};
    for (std::size_t row = 0; row < row_count; ++row) {
        *judged[row] = {(*rows)[row], found[row]};
    }
    finding.metric_rate_N_per_mm = *rate_of(metric);
    finding.inch_rate_N_per_mm = *rate_of(inch);
    return finding;
}

} // namespace rodway
