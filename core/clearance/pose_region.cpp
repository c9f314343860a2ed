#include "core/clearance/pose_region.h"

#include <Eigen/Cholesky>
#include <algorithm>
#include <cmath>

namespace rodway {
namespace {

/// Of four unknowns (NIST/SEMATECH e-Handbook, 1.3.6.7.4).
constexpr double chi_squared_95 = 9.488;

std::vector<PoseFamily> families(const PoseSearch& search, const std::vector<Candidate>& minima) {
    std::vector<PoseFamily> all;
    for (const Candidate& minimum : minima) {
        const auto belongs = [&](const PoseFamily& family) {
            return std::any_of(family.begin(), family.end(), [&](const Candidate& member) {
                return search.connected(member, minimum);
            });
        };
        PoseFamily joined;
        for (auto family = all.begin(); family != all.end();) {
            if (belongs(*family)) {
                joined.insert(joined.end(), family->begin(), family->end());
                family = all.erase(family);
            } else {
                ++family;
            }
        }
        joined.push_back(minimum);
        all.push_back(joined);
    }
    const auto better = [](const Candidate& a, const Candidate& b) {
        return a.misfit() < b.misfit();
    };
    for (PoseFamily& family : all) {
        std::sort(family.begin(), family.end(), better);
    }
    std::sort(all.begin(), all.end(), [&](const PoseFamily& a, const PoseFamily& b) {
        return better(a.front(), b.front());
    });
    return all;
}

/// A family's spread about its best member: that member's own, widened by where the others lie.
Spread spread_of_family(const PoseSearch& search, const PoseFamily& family) {
    Spread spread = spread_about(search, family.front());
    PoseMatrix between = PoseMatrix::Zero();
    for (const Candidate& member : family) {
        const PoseVector off = member.in_stated_u - family.front().in_stated_u;
        between += off * off.transpose() / static_cast<double>(family.size());
    }
    spread.covariance += between;
    return spread;
}

} // namespace

double PoseRegion::squared_distance(const PoseVector& in_stated_u) const {
    const PoseVector off = in_stated_u - spread.mean;
    return off.dot(spread.covariance.ldlt().solve(off));
}

bool PoseRegion::holds(const PoseVector& in_stated_u) const {
    return squared_distance(in_stated_u) <= PoseSearch::most_stated_misfit;
}

void PoseRegion::widen_to(const Candidate& also) {
    const double over = also.misfit() - family.front().misfit();
    if (over > chi_squared_95) {
        return;
    }
    const PoseVector off = also.in_stated_u - spread.mean;
    spread.covariance += off * off.transpose() *
                         (1.0 / std::max(4.0, over) - 1.0 / squared_distance(also.in_stated_u));
    family.push_back(also);
    one_of_a_line = true;
}

Spread spread_about(const PoseSearch& search, const Candidate& minimum) {
    constexpr int most_rounds = 6;
    PoseVector about = minimum.in_stated_u;
    Spread spread;
    for (int round = 0; round < most_rounds; ++round) {
        std::vector<LinearReading> linear;
        const auto gaps = search.gap_slopes(about);
        for (std::size_t at = 0; at < gaps.size(); ++at) {
            const FeltGap& felt = search.felt()[at];
            const auto& gap = gaps[at];
            const double offset = gap.gap_mm - gap.slope.dot(about);
            LinearReading row;
            row.slope = gap.slope;
            row.u = search.gauge_u_mm();
            row.low = felt.low_mm ? std::optional(*felt.low_mm - offset) : std::nullopt;
            row.high = felt.high_mm ? std::optional(*felt.high_mm - offset) : std::nullopt;
            linear.push_back(row);
        }
        spread = interval_posterior(linear);
        const double moved = (spread.mean - about).norm();
        about = spread.mean;
        if (moved < 1e-3) {
            break;
        }
    }
    // Where gaps bend so much that the mean no longer fits, the minimum itself is the better place.
    if (!search.fits_readings(search.look(spread.mean)) && search.fits_readings(minimum)) {
        spread.mean = minimum.in_stated_u;
    }
    return spread;
}

std::vector<PoseRegion> pose_regions(const PoseSearch& search,
                                     const std::vector<Candidate>& minima) {
    constexpr std::size_t most_regions = 16;
    std::vector<PoseRegion> all;
    for (const PoseFamily& family : families(search, minima)) {
        all.push_back({family, spread_of_family(search, family), family.size() > 1});
    }
    for (const Candidate& also : search.felt().empty() ? PoseFamily{} : search.elsewhere(minima)) {
        const auto held = [&](const PoseVector& pose) {
            return std::find_if(all.begin(), all.end(),
                                [&](const PoseRegion& region) { return region.holds(pose); });
        };
        if (held(also.in_stated_u) != all.end()) {
            continue;
        }
        const auto continued = std::find_if(all.begin(), all.end(), [&](const PoseRegion& region) {
            return std::any_of(
                region.family.begin(), region.family.end(),
                [&](const Candidate& member) { return search.connected(member, also); });
        });
        if (continued != all.end()) {
            continued->widen_to(also);
            continue;
        }
        const Spread own = spread_about(search, also);
        if (const auto same = held(own.mean); same != all.end()) {
            same->widen_to(also);
        } else if (all.size() < most_regions) {
            all.push_back({{also}, own, false});
        }
    }
    return all;
}

} // namespace rodway
