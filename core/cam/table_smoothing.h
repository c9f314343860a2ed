#pragma once

#include <optional>

#include "core/cam/lift_table.h"
#include "core/cam/lobe.h"
#include "core/cam/quintic_spline.h"

namespace rodway {

/// A table's curve by the table's own cam degrees; `report.worst_at` counts so too.
struct SmoothedTable {
    QuinticSpline spline;
    SmoothingReport report;
    double measured_from_deg = 0.0; ///< where a ramp is made up; otherwise the spline's ends
    double measured_to_deg = 0.0;
};

/// Penalised least squares: the sum of the squared residuals plus a weight times the integral of
/// the squared jerk, over quintic splines that are zero beyond their ends. The weight, where no
/// noise is told, is the likeliest one if the jerk is taken as random: restricted maximum
/// likelihood (Wahba, Spline Models for Observational Data, ch. 4, generalised maximum likelihood;
/// from memory).
///
/// Ramps that the table lacks: the spline reaches beyond the table's end by L, and of many L the
/// one of the least such sum is taken whose curve rises all the way. If none does,
/// not_zero_at_ends. `table` must have passed `read_lift_table_ends`, which gave `ends`.
Result<SmoothedTable> smooth_table(const LiftTable& table, const LiftTableEnds& ends,
                                   std::optional<double> noise_mm);

} // namespace rodway
