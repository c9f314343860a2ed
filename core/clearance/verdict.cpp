#include "core/clearance/verdict.h"

namespace rodway {

bool is_pass(Verdict verdict) {
    return verdict == Verdict::passed || verdict == Verdict::passed_little_room ||
           verdict == Verdict::passed_for_now;
}

Verdict judge(double clearance_mm, std::optional<double> doubt_mm, const RodClearanceLimits& limits) {
    if (clearance_mm <= 0.0) {
        return Verdict::contact;
    }
    if (!doubt_mm) {
        return Verdict::no_doubt_given;
    }
    if (clearance_mm + *doubt_mm < limits.least_mm) {
        return Verdict::failed;
    }
    // A limit typed in inches and a clearance computed in millimetres differ by rounding.
    constexpr double rounding_mm = 1e-9;
    if (clearance_mm - *doubt_mm < limits.least_mm - rounding_mm) {
        return Verdict::too_close_to_call;
    }
    if (clearance_mm < limits.little_room_mm - rounding_mm) {
        return Verdict::passed_little_room;
    }
    return clearance_mm < limits.wanted_mm - rounding_mm ? Verdict::passed_for_now : Verdict::passed;
}

} // namespace rodway
