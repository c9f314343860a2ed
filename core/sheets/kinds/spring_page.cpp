#include "core/sheets/kinds/spring_page.h"

#include "core/heads/unit_columns.h"
#include "core/sheets/kinds/work_out.h"
#include "core/units/force.h"

namespace rodway {
namespace {

/// A printed figure in its column's own unit, with one step of its last digit.
std::optional<PrintedValue> printed(const TakenReadings& readings, const std::string& quantity,
                                    double unit) {
    const Taken* there = readings.at(quantity, "");
    if (there == nullptr || !there->value.is_number() || there->value.low != there->value.high) {
        return std::nullopt;
    }
    return PrintedValue{there->value.low / unit, there->value.resolution / unit};
}

std::optional<PrintedRow> printed_row(const TakenReadings& readings, const std::string& quantity,
                                      ColumnDimension dimension) {
    const bool length = dimension == ColumnDimension::length;
    const auto metric = printed(readings, quantity + "_metric", 1.0);
    const auto inch = printed(readings, quantity + "_inch", length ? inch_mm : Force::N_per_lbf);
    if (!metric || !inch) {
        return std::nullopt;
    }
    return PrintedRow{dimension, *metric, *inch};
}

/// All that is known of the valves' lift; it decides nothing where valves differ much.
std::optional<Interval> measured_lift_mm(const TakenReadings& readings) {
    std::optional<Interval> lift_mm;
    for (const Taken& taken : readings.of("full_valve_lift")) {
        if (const auto range = taken.range()) {
            lift_mm = lift_mm ? hull(*lift_mm, *range) : *range;
        }
    }
    return lift_mm;
}

void point_out_row(WorkedFigures& figures, const std::string& quantity, const JudgedRow& row) {
    if (row.finding == ColumnFinding::agree) {
        return;
    }
    std::vector<double> numbers{row.comparison.metric.middle(), row.comparison.inch.middle()};
    if (row.finding == ColumnFinding::metric_stands) {
        numbers.push_back(numbers[0]);
    } else if (row.finding == ColumnFinding::inch_stands) {
        numbers.push_back(numbers[1]);
    }
    figures.point_out(PointedOut::columns_contradict, quantity + "_metric", {""}, numbers);
}

} // namespace

void judge_page(WorkedFigures& figures, const SheetFacts& facts) {
    const auto row = [&](const char* quantity, ColumnDimension dimension) {
        return printed_row(facts.readings, quantity, dimension);
    };
    const auto closed_height = row("page_closed_height", ColumnDimension::length);
    const auto closed_load = row("page_closed_load", ColumnDimension::force);
    const auto open_height = row("page_open_height", ColumnDimension::length);
    const auto open_load = row("page_open_load", ColumnDimension::force);
    if (!closed_height || !closed_load || !open_height || !open_load) {
        return;
    }
    const auto found = judge_spring_page({*closed_height, *closed_load, *open_height, *open_load},
                                         {{}, measured_lift_mm(facts.readings)});
    if (!found) {
        return;
    }
    figures.add("page_rate_metric", "", found->metric_rate_N_per_mm);
    figures.add("page_rate_inch", "", found->inch_rate_N_per_mm);
    point_out_row(figures, "page_closed_height", found->closed_height);
    point_out_row(figures, "page_closed_load", found->closed_load);
    point_out_row(figures, "page_open_height", found->open_height);
    point_out_row(figures, "page_open_load", found->open_load);
}

} // namespace rodway
