#include "core/valvetrain/dry_clearance.h"

#include <algorithm>
#include <cmath>

#include "core/units/figure_band.h"
#include "core/units/within.h"

namespace rodway {
namespace {

constexpr double greatest_mm = 50.0;
const Limits gaps{-greatest_mm, greatest_mm, "mm"};

std::optional<Error> wrong_request(const std::vector<DryReading>& readings,
                                   const DryRequest& request) {
    if (readings.empty()) {
        return Error{ErrorCode::too_few_rows, "dry", "0", "1", {}, {}};
    }
    int line = 0;
    for (const DryReading& reading : readings) {
        if (auto bad = first_outside({{"dry", reading.dry_mm, gaps, ++line}})) {
            return bad;
        }
    }
    line = 0;
    for (const double rod : request.rods_longer_mm) {
        if (auto bad = outside("rods", rod, gaps, ++line)) {
            return bad;
        }
    }
    return first_outside(
        {{"low", Interval::exactly(request.low_mm), gaps},
         {"high", Interval::exactly(request.high_mm), {request.low_mm, greatest_mm, "mm"}},
         {"ratio", Interval::exactly(request.rocker_ratio), {0.5, 4.0, {}}}});
}

class RodChooser {
  public:
    explicit RodChooser(const DryRequest& request)
        : limits_{request.low_mm, request.high_mm, FigureSource::makers_instructions},
          ratio_(request.rocker_ratio),
          rods_mm_(request.rods_longer_mm) {
        rods_mm_.push_back(0.0);
        std::sort(rods_mm_.begin(), rods_mm_.end());
    }

    [[nodiscard]] DryAnswer of(const DryReading& reading) const {
        if (stands(reading, 0.0) == BandStanding::inside) {
            return answer(reading, DryFinding::good_as_is, 0.0);
        }
        const auto sure =
            nearest(reading, [](BandStanding at) { return at == BandStanding::inside; });
        if (sure) {
            return answer(reading, DryFinding::good_with_rod, *sure);
        }
        const auto perhaps = nearest(reading, [](BandStanding at) {
            return at != BandStanding::below && at != BandStanding::above;
        });
        if (perhaps) {
            return answer(reading, DryFinding::too_close_to_call, *perhaps);
        }
        return without_rod(reading);
    }

  private:
    [[nodiscard]] Interval dry_with(const DryReading& reading, double longer_mm) const {
        return reading.dry_mm - Interval::exactly(longer_mm * ratio_);
    }
    [[nodiscard]] BandStanding stands(const DryReading& reading, double longer_mm) const {
        return standing(dry_with(reading, longer_mm), limits_);
    }
    [[nodiscard]] double from_middle_mm(const DryReading& reading, double longer_mm) const {
        return std::abs(dry_with(reading, longer_mm).middle() -
                        (*limits_.low + *limits_.high) / 2.0);
    }
    [[nodiscard]] DryAnswer answer(const DryReading& reading, DryFinding finding,
                                   double longer_mm) const {
        return {reading.valve, finding, longer_mm, dry_with(reading, longer_mm), {}, {}};
    }

    /// Of the rods that are wanted, the one nearest to the limits' middle.
    template <typename Wanted>
    [[nodiscard]] std::optional<double> nearest(const DryReading& reading,
                                                const Wanted& wanted) const {
        std::optional<double> best;
        for (const double rod_mm : rods_mm_) {
            if (wanted(stands(reading, rod_mm)) &&
                (!best || from_middle_mm(reading, rod_mm) < from_middle_mm(reading, *best))) {
                best = rod_mm;
            }
        }
        return best;
    }

    /// Every rod is surely too short or surely too long.
    [[nodiscard]] DryAnswer without_rod(const DryReading& reading) const {
        if (stands(reading, rods_mm_.front()) == BandStanding::below) {
            DryAnswer tight = answer(reading, DryFinding::too_tight_for_shortest, rods_mm_.front());
            tight.tip_too_high_mm = Interval::exactly(*limits_.low) - tight.dry_then_mm;
            return tight;
        }
        if (stands(reading, rods_mm_.back()) == BandStanding::above) {
            DryAnswer wide = answer(reading, DryFinding::too_wide_for_longest, rods_mm_.back());
            wide.tip_too_low_mm = wide.dry_then_mm - Interval::exactly(*limits_.high);
            return wide;
        }
        const auto any = nearest(reading, [](BandStanding) { return true; });
        return answer(reading, DryFinding::between_rods, any.value_or(0.0));
    }

    FigureBand limits_;
    double ratio_;
    std::vector<double> rods_mm_; ///< shortest first
};

} // namespace

Result<std::vector<DryAnswer>> choose_rods_for_dry_clearance(
    const std::vector<DryReading>& readings, const DryRequest& request) {
    if (const auto bad = wrong_request(readings, request)) {
        return *bad;
    }
    const RodChooser chooser(request);
    std::vector<DryAnswer> answers;
    answers.reserve(readings.size());
    for (const DryReading& reading : readings) {
        answers.push_back(chooser.of(reading));
    }
    return answers;
}

Result<TipAccount> account_for_tip(const Interval& too_high_mm, const TipStack& stack) {
    const Interval none = Interval::exactly(0.0);
    const Interval seat_cut_mm = stack.seat_cut_mm.value_or(none);
    const Interval tip_ground_mm = stack.tip_ground_mm.value_or(none);
    const Interval valve_longer_mm = stack.valve_longer_mm.value_or(none);
    const Interval pivot_raised_mm = stack.pivot_raised_mm.value_or(none);
    if (const auto bad = first_outside({{"too_high", too_high_mm, gaps},
                                        {"seat_cut", seat_cut_mm, gaps},
                                        {"tip_ground", tip_ground_mm, gaps},
                                        {"valve_longer", valve_longer_mm, gaps},
                                        {"pivot_raised", pivot_raised_mm, gaps}})) {
        return *bad;
    }
    if (!stack.seat_cut_mm && !stack.tip_ground_mm && !stack.valve_longer_mm &&
        !stack.pivot_raised_mm) {
        return Error{ErrorCode::missing_field, "stack", {}, {}, {}, {}};
    }
    TipAccount account;
    account.stands_higher_mm = seat_cut_mm - tip_ground_mm + valve_longer_mm - pivot_raised_mm;
    account.unexplained_mm = too_high_mm - account.stands_higher_mm;
    account.accounted_for =
        standing(Interval::exactly(0.0),
                 {account.unexplained_mm.low, account.unexplained_mm.high, {}}) ==
        BandStanding::inside;
    return account;
}

} // namespace rodway
