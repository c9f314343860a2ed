#include "core/clearance/verdict.h"

#include <algorithm>
#include <array>

namespace rodway {

bool is_pass(Verdict verdict) {
    return verdict == Verdict::passed || verdict == Verdict::passed_little_room ||
           verdict == Verdict::passed_for_now;
}

Verdict worse(Verdict a, Verdict b) {
    static constexpr std::array from_the_best{
        Verdict::passed,         Verdict::passed_for_now,    Verdict::passed_little_room,
        Verdict::no_doubt_given, Verdict::too_close_to_call, Verdict::failed,
        Verdict::contact};
    const auto rank = [](Verdict verdict) {
        return std::find(from_the_best.begin(), from_the_best.end(), verdict);
    };
    return rank(a) < rank(b) ? b : a;
}

Verdict judge(double clearance_mm, std::optional<double> doubt_mm,
              const RodClearanceLimits& limits) {
    if (clearance_mm <= 0.0) {
        return Verdict::contact;
    }
    // A limit typed in inches and a clearance computed in millimetres differ by rounding.
    constexpr double rounding_mm = 1e-9;
    if (!doubt_mm) {
        return clearance_mm < limits.least_mm - rounding_mm ? Verdict::failed
                                                            : Verdict::no_doubt_given;
    }
    if (clearance_mm + *doubt_mm < limits.least_mm - rounding_mm) {
        return Verdict::failed;
    }
    // Asked this way round, what is no number is never passed.
    if (!(clearance_mm - *doubt_mm >= limits.least_mm - rounding_mm)) {
        return Verdict::too_close_to_call;
    }
    if (clearance_mm < limits.little_room_mm - rounding_mm) {
        return Verdict::passed_little_room;
    }
    return clearance_mm < limits.wanted_mm - rounding_mm ? Verdict::passed_for_now
                                                         : Verdict::passed;
}

} // namespace rodway
