#include "core/sheets/kinds/pull_factors.h"

#include <algorithm>
#include <array>

#include "core/dyno/which_factor.h"
#include "core/sheets/kinds/work_out.h"
#include "core/units/within.h"

namespace rodway {
namespace {

constexpr std::array standards{PowerStandard::sae_j607, PowerStandard::sae_j1349,
                               PowerStandard::iso_1585, PowerStandard::din_70020};

std::string factor_quantity(PowerStandard standard) {
    return "pull_factor_" + std::string(standard_name(standard));
}

Interval factor_in(const PullAir& air, PowerStandard standard) {
    return over_airs(
        air, [&](const WeatherAir& one) { return power_correction(standard, one)->factor; });
}

void point_out_another(const Interval& written, double own, std::string_view standard,
                       const std::string& pull, SheetOutcome& outcome) {
    outcome.findings.push_back({PointedOut::factor_not_of_standard,
                                "pull_correction_factor",
                                {pull},
                                {written.middle(), own},
                                Dimension::none,
                                std::string(standard)});
}

/// Whether the written factor is that of the standard it is named for, whatever the weather's
/// rounding and its own.
void check_factor(const Interval& written, const PullAir& air, PowerStandard standard,
                  const std::string& pull, SheetOutcome& outcome) {
    const auto which = which_factor(air.weather, air.steps,
                                    {written.middle(), written.high - written.low}, standard);
    if (!which) {
        point_out_refused(which.error(), "pull_correction_factor", pull, air_readings(), outcome);
    } else if (!which->is_the_standards()) {
        point_out_another(written, which->own.factor.value, standard_name(standard), pull, outcome);
    }
}

/// The factor as written is all there is where the weather isn't known.
std::optional<PullCorrection> by_hand(const std::string& standard,
                                      const std::optional<Interval>& written,
                                      const std::string& pull, SheetOutcome& outcome) {
    if (!written) {
        return std::nullopt;
    }
    if (const auto bad = outside("factor", written->middle(), {0.5, 2.0, {}})) {
        point_out_refused(*bad, "pull_correction_factor", pull, air_readings(), outcome);
        return std::nullopt;
    }
    return PullCorrection{standard, *written};
}

} // namespace

std::optional<PowerStandard> standard_called(std::string_view word) {
    const auto found =
        std::find_if(standards.begin(), standards.end(),
                     [&](PowerStandard standard) { return standard_name(standard) == word; });
    return found == standards.end() ? std::nullopt : std::optional(*found);
}

void put_factors(const PullAir& air, const std::string& pull, SheetOutcome& outcome) {
    for (const PowerStandard standard : standards) {
        const std::string quantity = factor_quantity(standard);
        outcome.figures.push_back({quantity, pull, factor_in(air, standard)});
        const auto correction = power_correction(standard, air.airs.front());
        if (correction->outside_limits()) {
            outcome.findings.push_back({PointedOut::factor_outside_standard,
                                        quantity,
                                        {pull},
                                        {correction->factor},
                                        Dimension::none,
                                        std::string(standard_name(standard))});
        }
    }
}

std::optional<PullCorrection> work_out_correction(const SheetFacts& facts, const std::string& pull,
                                                  const std::optional<PullAir>& air,
                                                  SheetOutcome& outcome) {
    const auto written = facts.readings.number("pull_correction_factor", pull);
    const auto word = facts.readings.word("pull_correction", pull);
    if (!word) {
        if (written) {
            point_out_needed("pull_correction_factor", pull, "pull_correction", outcome);
        }
        return std::nullopt;
    }
    const auto standard = standard_called(*word);
    if (!standard) { // "none" leaves the figures as they are
        if (written && !overlap(*written, Interval::exactly(1.0))) {
            point_out_another(*written, 1.0, *word, pull, outcome);
        }
        return std::nullopt;
    }
    if (!air) {
        return by_hand(*word, written, pull, outcome);
    }
    const Interval own = factor_in(*air, *standard);
    outcome.figures.push_back({"pull_correction_factor", pull, own});
    if (written) {
        check_factor(*written, *air, *standard, pull, outcome);
    }
    return PullCorrection{*word, own};
}

} // namespace rodway
