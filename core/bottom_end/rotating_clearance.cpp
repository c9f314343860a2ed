#include "core/bottom_end/rotating_clearance.h"

#include <algorithm>

#include "core/units/crank_arc.h"
#include "core/units/length.h"

namespace rodway {
namespace {

using Gaps = std::vector<RotatingGap>;

std::optional<Error> wrong_gaps(const Gaps& gaps) {
    if (gaps.empty()) {
        return Error{ErrorCode::too_few_rows, "gap", "0", "1", {}, {}};
    }
    for (std::size_t at = 0; at < gaps.size(); ++at) {
        const int line = static_cast<int>(at) + 1;
        if (gaps[at].gap_mm) {
            // Half a step below nothing is what a touch may be.
            if (auto bad = wrong_interval("gap", *gaps[at].gap_mm, {-1.0, 200.0, "mm"}, line)) {
                return bad;
            }
        }
        if (gaps[at].crank) {
            const auto good = check_crank_angle(*gaps[at].crank, "crank");
            if (!good) {
                Error bad = good.error();
                bad.line = line;
                return bad;
            }
        }
    }
    return std::nullopt;
}

RotatingClearance clearance_of(RotatingPair pair, const Gaps& gaps, const SizeBand& wanted) {
    RotatingClearance clearance;
    clearance.pair = pair;
    const auto measured = [&](std::size_t at) {
        return gaps[at].pair == pair && gaps[at].gap_mm.has_value();
    };
    for (std::size_t at = 0; at < gaps.size(); ++at) {
        if (!measured(at)) {
            continue;
        }
        const Interval gap = *gaps[at].gap_mm;
        Interval& smallest =
            clearance.smallest_mm ? *clearance.smallest_mm : clearance.smallest_mm.emplace(gap);
        smallest = {std::min(smallest.low, gap.low), std::min(smallest.high, gap.high)};
        if (!clearance.smallest || gap.middle() < gaps[*clearance.smallest].gap_mm->middle()) {
            clearance.smallest = at;
        }
    }
    for (std::size_t at = 0; at < gaps.size(); ++at) {
        if (measured(at) && at != *clearance.smallest &&
            gaps[at].gap_mm->low <= clearance.smallest_mm->high) {
            clearance.may_be_smallest.push_back(at);
        }
        const auto same_place = [&](const RotatingGap& other) {
            return other.pair == pair && other.place == gaps[at].place && other.gap_mm;
        };
        const auto& places = clearance.not_measured;
        if (gaps[at].pair == pair && std::none_of(gaps.begin(), gaps.end(), same_place) &&
            std::find(places.begin(), places.end(), gaps[at].place) == places.end()) {
            clearance.not_measured.push_back(gaps[at].place);
        }
    }
    if (clearance.smallest_mm) {
        clearance.standing = stand_in(*clearance.smallest_mm, wanted);
    }
    return clearance;
}

} // namespace

SizeBand common_rotating_clearance() {
    SizeBand band;
    band.low_mm = Length::inches(0.050).in_mm();
    return band;
}

Result<std::vector<RotatingClearance>> rotating_clearances(const std::vector<RotatingGap>& gaps,
                                                           const SizeBand& wanted) {
    if (const auto bad = wrong_gaps(gaps)) {
        return *bad;
    }
    std::vector<RotatingClearance> clearances;
    for (const RotatingGap& gap : gaps) {
        const bool known = std::any_of(clearances.begin(), clearances.end(),
                                       [&](const auto& each) { return each.pair == gap.pair; });
        if (!known) {
            clearances.push_back(clearance_of(gap.pair, gaps, wanted));
        }
    }
    return clearances;
}

} // namespace rodway
