#pragma once

#include <vector>

#include "core/dyno/power_correction.h"
#include "core/dyno/weather_rounding.h"
#include "core/units/bounded.h"
#include "core/units/printed_value.h"

namespace rodway {

/// Factors that sheets print: the standards', and forms that go about under a standard's name and
/// are not it, each with where it was seen. Seen on no page: the wet ones, which anybody gets who
/// forgets the vapour, and `j1349_on_29_92`, half of what two pages do.
enum class FactorForm {
    sae_j607,
    sae_j1349,
    iso_1585,
    din_70020,
    j607_wet,            ///< all of the air's pressure where the dry air's belongs
    j1349_wet,           ///< the same
    iso_1585_wet,        ///< the same
    j1349_on_29_92,      ///< J1349 in inches with J607's 29.92 inHg kept for 29.235
    j1349_on_29_38,      ///< with 29.38 inHg (foxvalleykart.com/correcti.html)
    j1349_505,           ///< with 505 for 537 degrees Rankine (passionford.com/forum/6282141)
    j1349_505_on_29_92,  ///< both (the same page)
    unsplit_29_92_at_77, ///< 29.92/p·√((t + 459.7)/536.7), called J1349 (lists.diy-efi.org
                         ///< 1995-March/001635): neither its pressure nor its friction
};

/// The form's factor in an air. `sae_j607` and so on are `power_correction`'s.
[[nodiscard]] double form_factor(FactorForm form, const WeatherAir& air);

/// A form held against the stated factor.
struct FormMatch {
    FactorForm form = FactorForm::sae_j607;
    Bounded factor;       ///< low and high as far as the weather's rounding goes
    bool matches = false; ///< some weather that rounds to the printed one gives the stated factor
};

/// Whether a factor is what its name says. That another form matches doesn't prove it: near the
/// reference air several do.
struct WhichFactor {
    FormMatch own;                 ///< of the standard named
    double stated_more_by = 0.0;   ///< stated less the standard's own value
    std::vector<FormMatch> others; ///< all the others, matching or not, in the order above
    [[nodiscard]] bool is_the_standards() const { return own.matches; }
    [[nodiscard]] std::vector<FactorForm> matching_others() const;
};
/// `stated`: 0.5 to 2, its step 0 to 0.1. Errors: as `airs_within` and `power_correction`;
/// not_a_number, out_of_range ("factor", "factor_step").
Result<WhichFactor> which_factor(const Weather& weather, const WeatherSteps& steps,
                                 const PrintedValue& stated, PowerStandard under_the_name_of);

} // namespace rodway
