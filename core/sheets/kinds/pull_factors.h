#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/dyno/power_correction.h"
#include "core/sheets/kinds/pull_air.h"

namespace rodway {

/// The standard of this word among the choices of a sheet; nothing for "none".
[[nodiscard]] std::optional<PowerStandard> standard_called(std::string_view word);

/// Puts the factors of all standards side by side, and points out where one doesn't allow its use
/// in the weather as printed.
void put_factors(const PullAir& air, const std::string& pull, SheetOutcome& outcome);

/// By what a pull is brought to a standard.
struct PullCorrection {
    std::string standard; ///< the word chosen
    Interval factor;      ///< the standard's own; where the air isn't known, as written
};
/// Works out a pull's factor, and points out one that isn't what its name says. Nothing if no
/// standard was chosen, or nothing says its factor.
std::optional<PullCorrection> work_out_correction(const SheetFacts& facts, const std::string& pull,
                                                  const std::optional<PullAir>& air,
                                                  SheetOutcome& outcome);

} // namespace rodway
