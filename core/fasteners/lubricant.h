#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/units/figure_band.h"
#include "core/units/force.h"
#include "core/units/torque.h"

namespace rodway {

/// Nut factor K between torque and preload, T = K·F·d (Shigley, eq. 8-27), and how far it scatters:
/// about 95 of a hundred bolts lie between `low` and `high`. A plain number.
struct NutFactor {
    double low = 0.0;
    double likely = 0.0;
    double high = 0.0;
};

/// What is on the threads and under the head.
struct Lubricant {
    std::string id; ///< small letters and "_", or the shop's own name; never changes
    double factor = 0.0;
    /// Standard deviation of the preload at one torque, as a share of its mean.
    double scatter = 0.0;
    FigureSource source = FigureSource::published;         ///< of the factor
    FigureSource scatter_source = FigureSource::published; ///< of the scatter

    /// Preload scatters by two standard deviations either side, so K from K/(1 + 2s) to K/(1 - 2s).
    [[nodiscard]] NutFactor nut_factor() const;
};

/// Factors by Shigley, table 8-15: plain black .30, zinc .20, lubricated .18, cadmium .16. Scatter
/// by table 8-14 for the lubricated (8.4 %, ten bolts) and by table 8-13 for the others (34.3 kN ±
/// 4.91, twenty dry bolts; from memory).
[[nodiscard]] const std::vector<Lubricant>& lubricants();

/// Error: not_a_choice, field "lubricant"; `expected` holds the identities.
Result<Lubricant> lubricant_called(std::string_view id);

/// The shop's own factor, 0.03 to 0.6, and scatter, 0 to 0.4.
/// Errors: not_a_number, out_of_range; fields "factor", "scatter".
Result<Lubricant> own_lubricant(std::string name, double factor, double scatter);

/// A factor from preloads measured at one torque on bolts of one diameter (2 to 60 mm): its mean
/// and scatter. Errors: too_few_rows (three), out_of_range, not_a_number; fields "preload" (0.1 to
/// 1000 kN, `line` counted from 1), "torque" (0.1 to 5000 N m), "diameter", and those of
/// `own_lubricant`.
Result<Lubricant> lubricant_from_trials(std::string name, Torque torque, double diameter_mm,
                                        const std::vector<Force>& preloads);

} // namespace rodway
