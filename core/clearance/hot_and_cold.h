#pragma once

#include <optional>
#include <stop_token>
#include <string>
#include <vector>

#include "core/castings/grown_engine.h"
#include "core/clearance/certified_minimum.h"
#include "core/clearance/verdict.h"
#include "core/units/interval.h"

namespace rodway {

/// How a part grows: its coefficient as far as sources agree, and what that makes of it.
struct PartGrowth {
    HotPart part = HotPart::block;
    std::optional<Metal> metal; ///< empty where a coefficient is stated
    Interval expansion_per_K;
    double warmed_K = 0.0; ///< over the temperature at which everything was measured
};

/// One valve cold, as the set-up stands, and hot, its adjuster left as it was set cold.
struct HotClearance {
    ValvePosition valve;
    /// Of the train hot: `rod_too_long` where no lash is left and the valve is held off its seat.
    /// Of the cold one, if that has no answer.
    TrainStatus status = TrainStatus::answered;
    std::optional<double> cold_lash_mm;   ///< none with a hydraulic lifter
    std::optional<Interval> hot_lash_mm;  ///< over the coefficients' spread
    std::optional<RodClearance> cold;     ///< the certified minimum of the turn
    std::optional<RodClearance> hot;      ///< the same hot, by the coefficients' middles
    std::optional<Interval> hot_least_mm; ///< over the coefficients' spread
    /// ± of the hot minimum: that of the cold one and how far the coefficients leave it open.
    std::optional<double> doubt_mm;
    std::optional<Verdict> verdict; ///< of the hot minimum
};

struct HotAndCold {
    std::vector<std::string> missing; ///< paths of what would have to be stated; then no more
    std::vector<PartGrowth> parts;    ///< those that the engine has
    std::vector<HotClearance> valves; ///< in the order of the engine's trains
};

/// What lash and clearances become as the engine warms: every part grown by its own material and
/// temperature (`grown_engine`), the train closed again with its adjuster where it was, and the
/// whole turn searched again. The spread of a metal's coefficient is taken at both ends, all metals
/// in every combination. An estimate, see `grown_engine`. What it answers once it was stopped is of
/// no use. Error: banks_parallel.
[[nodiscard]] Result<HotAndCold> hot_and_cold(const Engine& engine, const HotStated& stated,
                                              const std::stop_token& stop = {});

} // namespace rodway
