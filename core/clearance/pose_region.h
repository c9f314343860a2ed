#pragma once

#include <vector>

#include "core/clearance/interval_posterior.h"
#include "core/clearance/pose_search.h"

namespace rodway {

/// Poses that fit and hang together: minima of one line, the best first, and others that continue
/// it.
using PoseFamily = std::vector<Candidate>;

/// A family and its spread, widened until it holds every pose known to fit as well. In stated
/// standard deviations.
struct PoseRegion {
    PoseFamily family; ///< not empty
    Spread spread;
    bool one_of_a_line = false; ///< holds more than one minimum's slopes would

    [[nodiscard]] double squared_distance(const PoseVector& in_stated_u) const;
    /// Within 99.9 %, taken as normal.
    [[nodiscard]] bool holds(const PoseVector& in_stated_u) const;
    /// Takes in a pose that it doesn't hold, if that fits so well that it is among the likeliest
    /// 95 %. In a normal distribution its squared distance would be what its misfit is over the
    /// best one's; but the ends of a line that fits all along lie two standard deviations out.
    void widen_to(const Candidate& also);
};

/// Mean and covariance around one minimum: the gaps taken as linear, anew about each mean until it
/// stays where it is.
[[nodiscard]] Spread spread_about(const PoseSearch& search, const Candidate& minimum);

/// The regions of all poses that fit; best first. `minima` as `PoseSearch::minima` has them. Slopes
/// at a minimum say nothing of a pose farther off that fits, too, because gaps bend: one that no
/// region holds widens that of which it is a continuation, or has a region of its own.
[[nodiscard]] std::vector<PoseRegion> pose_regions(const PoseSearch& search,
                                                   const std::vector<Candidate>& minima);

} // namespace rodway
