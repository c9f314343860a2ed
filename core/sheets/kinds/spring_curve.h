#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/loads/valve_spring.h"
#include "core/sheets/sheet_outcome.h"

namespace rodway {

/// One valve's spring by its loads at two heights or more, each load with its doubt.
struct SpringCurve {
    struct Row {
        double height_mm = 0.0;
        Interval load_N;
    };
    std::vector<Row> rows; ///< heights falling

    /// Load at a height, N, in a straight line between two rows, and on beyond them.
    [[nodiscard]] Interval load_N(const Interval& height_mm) const;
    [[nodiscard]] std::vector<SpringLoad> middle_loads() const;
};

/// From the rows of the valve's own load table, else from the set-up's spring; nothing if neither
/// makes a curve that a spring can have (`check_spring`).
[[nodiscard]] std::optional<SpringCurve> spring_curve(const SheetFacts& facts,
                                                      const std::string& valve);
/// The same, else from the loads read on the seat and open.
[[nodiscard]] std::optional<SpringCurve> spring_curve_or_loads(const SheetFacts& facts,
                                                               const std::string& valve,
                                                               const Interval& installed_height_mm,
                                                               const Interval& full_valve_lift_mm);

} // namespace rodway
