#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/sheets/kinds/pull_factors.h"
#include "core/sheets/kinds/pull_rows.h"

namespace rodway {

/// A pull's mean torque and power as they are compared with other pulls': corrected where it was
/// brought to a standard, else as read.
struct PullMeans {
    std::string standard; ///< "none": as read
    std::optional<Interval> torque_Nm;
    std::optional<Interval> power_kW;
};

/// Works out peaks and means of a pull ("pull 3"), raw and corrected. The means are of its rows
/// within the band written down, else of all; by area only from two rows on.
PullMeans work_out_averages(const SheetFacts& facts, const std::string& pull,
                            const std::vector<ReadRow>& rows,
                            const std::optional<PullCorrection>& correction, SheetOutcome& outcome);

/// Works out the mean over pulls, and points out one slip that would make a printed mean right. Two
/// pulls at least, all of one standard: others aren't to be thrown together.
void work_out_mean_of_pulls(const SheetFacts& facts, const std::vector<std::string>& pulls,
                            const std::vector<PullMeans>& means,
                            const std::optional<Interval>& displacement_cc, SheetOutcome& outcome);

} // namespace rodway
