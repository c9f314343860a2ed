#include "core/cam/callipered_lift.h"

namespace rodway {

Result<Interval> callipered_lift_mm(const CalliperedLobe& lobe) {
    const Limits sizes{5.0, 200.0, "mm"};
    const Limits risen{0.0, 20.0, "mm"};
    if (const auto bad = first_outside({{"over_nose", lobe.over_nose_mm, sizes},
                                        {"across_sides", lobe.across_sides_mm, sizes},
                                        {"opening_risen", lobe.opening_risen_mm, risen},
                                        {"closing_risen", lobe.closing_risen_mm, risen}})) {
        return *bad;
    }
    return lobe.over_nose_mm - lobe.across_sides_mm + lobe.opening_risen_mm + lobe.closing_risen_mm;
}

RisenFlanks risen_at_sides(const Lobe& lobe) {
    constexpr double quarter_turn_deg = 90.0;
    return {lobe.at(CamAngle::deg(-quarter_turn_deg)).lift,
            lobe.at(CamAngle::deg(quarter_turn_deg)).lift};
}

} // namespace rodway
