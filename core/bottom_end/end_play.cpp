#include "core/bottom_end/end_play.h"

#include <algorithm>
#include <cmath>

#include "core/units/length.h"

namespace rodway {
namespace {

SizeBand common_band(double low_in, double high_in) {
    return {Length::inches(low_in).in_mm(), Length::inches(high_in).in_mm(),
            FigureSource::common_practice};
}

/// Without its sign: which way a dial counts depends on where it stands.
Interval size_of(const Interval& difference) {
    if (difference.middle() >= 0.0) {
        return {std::max(0.0, difference.low), difference.high};
    }
    return {std::max(0.0, -difference.high), -difference.low};
}

} // namespace

SizeBand common_crank_end_play() {
    return common_band(0.004, 0.010);
}
SizeBand common_cam_end_play() {
    return common_band(0.004, 0.010);
}
SizeBand common_rod_side_clearance() {
    return common_band(0.010, 0.020);
}

Result<EndPlay> end_play(const std::vector<EndPlayTrial>& trials, const SizeBand& band) {
    if (trials.empty()) {
        return Error{ErrorCode::too_few_rows, "trial", "0", "1", {}, {}};
    }
    const Limits dial{-50.0, 50.0, "mm"};
    std::vector<Interval> plays;
    Interval sum;
    for (std::size_t at = 0; at < trials.size(); ++at) {
        const int line = static_cast<int>(at) + 1;
        if (auto bad = wrong_interval("forward", trials[at].forward_mm, dial, line)) {
            return *bad;
        }
        if (auto bad = wrong_interval("backward", trials[at].backward_mm, dial, line)) {
            return *bad;
        }
        plays.push_back(size_of(trials[at].forward_mm - trials[at].backward_mm));
        sum = sum + plays.back();
    }
    EndPlay play;
    play.play_mm = sum * (1.0 / static_cast<double>(plays.size()));
    if (const auto spread = reading_spread(plays)) {
        const auto [least, most] = std::minmax_element(
            plays.begin(), plays.end(),
            [](const auto& a, const auto& b) { return a.middle() < b.middle(); });
        play.trials_apart_mm = most->middle() - least->middle();
        constexpr double rounding_mm = 1e-6;
        play.does_not_repeat = spread->low > rounding_mm;
    }
    play.standing = stand_in(play.play_mm, band);
    return play;
}

} // namespace rodway
