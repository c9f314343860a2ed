#include "core/dyno/which_factor.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/base/assert.h"
#include "core/units/within.h"

namespace rodway {
namespace {

constexpr std::array forms{
    FactorForm::sae_j607,     FactorForm::sae_j1349,          FactorForm::iso_1585,
    FactorForm::din_70020,    FactorForm::j607_wet,           FactorForm::j1349_wet,
    FactorForm::iso_1585_wet, FactorForm::j1349_on_29_92,     FactorForm::j1349_on_29_38,
    FactorForm::j1349_505,    FactorForm::j1349_505_on_29_92, FactorForm::unsplit_29_92_at_77,
};
constexpr double rounding = 1e-12;

double standards_own(PowerStandard standard, const WeatherAir& air) {
    return power_correction(standard, air)->factor;
}

WeatherAir as_if_dry(WeatherAir air) {
    air.dry = air.total;
    air.vapour = Pressure();
    return air;
}

/// The inch line of J1349 as pages print it.
double inch_line(double base_inHg, double reference_R, const WeatherAir& air) {
    const double air_R = air.dry_bulb.in_degF() + 460.0;
    return 1.18 * (base_inHg / air.dry.in_inHg()) * std::sqrt(air_R / reference_R) - 0.18;
}

std::optional<Error> wrong_stated(const PrintedValue& stated) {
    if (auto bad = outside("factor", stated.value, {0.5, 2.0, {}})) {
        return bad;
    }
    return outside("factor_step", stated.step, {0.0, 0.1, {}});
}

FormMatch match(FactorForm form, const std::vector<WeatherAir>& airs, const PrintedValue& stated) {
    Bounded factor = Bounded::exactly(form_factor(form, airs.front()));
    for (const WeatherAir& air : airs) {
        factor.low = std::min(factor.low, form_factor(form, air));
        factor.high = std::max(factor.high, form_factor(form, air));
    }
    const double half = stated.step / 2.0 + rounding;
    return {form, factor, stated.value + half >= factor.low && stated.value - half <= factor.high};
}

std::optional<FactorForm> form_of(PowerStandard standard) {
    switch (standard) {
        case PowerStandard::sae_j607:
            return FactorForm::sae_j607;
        case PowerStandard::sae_j1349:
            return FactorForm::sae_j1349;
        case PowerStandard::iso_1585:
            return FactorForm::iso_1585;
        case PowerStandard::din_70020:
            return FactorForm::din_70020;
        case PowerStandard::iso_1585_compression_ignition:
            return std::nullopt;
    }
    RODWAY_ASSERT(false);
}

} // namespace

double form_factor(FactorForm form, const WeatherAir& air) {
    const double true_inHg = reference_air(PowerStandard::sae_j1349).pressure.in_inHg(); // 29.2347
    switch (form) {
        case FactorForm::sae_j607:
            return standards_own(PowerStandard::sae_j607, air);
        case FactorForm::sae_j1349:
            return standards_own(PowerStandard::sae_j1349, air);
        case FactorForm::iso_1585:
            return standards_own(PowerStandard::iso_1585, air);
        case FactorForm::din_70020:
            return standards_own(PowerStandard::din_70020, air);
        case FactorForm::j607_wet:
            return standards_own(PowerStandard::sae_j607, as_if_dry(air));
        case FactorForm::j1349_wet:
            return standards_own(PowerStandard::sae_j1349, as_if_dry(air));
        case FactorForm::iso_1585_wet:
            return standards_own(PowerStandard::iso_1585, as_if_dry(air));
        case FactorForm::j1349_on_29_92:
            return inch_line(29.92, 537.0, air);
        case FactorForm::j1349_on_29_38:
            return inch_line(29.38, 537.0, air);
        case FactorForm::j1349_505:
            return inch_line(true_inHg, 505.0, air);
        case FactorForm::j1349_505_on_29_92:
            return inch_line(29.92, 505.0, air);
        case FactorForm::unsplit_29_92_at_77:
            return 29.92 / air.dry.in_inHg() * std::sqrt((air.dry_bulb.in_degF() + 459.7) / 536.7);
    }
    RODWAY_ASSERT(false);
}

std::vector<FactorForm> WhichFactor::matching_others() const {
    std::vector<FactorForm> found;
    for (const FormMatch& other : others) {
        if (other.matches) {
            found.push_back(other.form);
        }
    }
    return found;
}

Result<WhichFactor> which_factor(const Weather& weather, const WeatherSteps& steps,
                                 const PrintedValue& stated, PowerStandard under_the_name_of) {
    if (const auto bad = wrong_stated(stated)) {
        return *bad;
    }
    const auto airs = airs_within(weather, steps);
    if (!airs) {
        return airs.error();
    }
    const auto named = form_of(under_the_name_of);
    if (!named) {
        return power_correction(under_the_name_of, airs->front()).error();
    }
    WhichFactor which;
    which.own = match(*named, *airs, stated);
    which.stated_more_by = stated.value - which.own.factor.value;
    for (const FactorForm form : forms) {
        if (form != *named) {
            which.others.push_back(match(form, *airs, stated));
        }
    }
    return which;
}

} // namespace rodway
