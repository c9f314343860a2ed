#include "core/valvetrain/ratio_from_dials.h"

#include "core/units/typed_text.h"

namespace rodway {
namespace {

std::optional<Error> wrong_readings(const DialReadings& readings) {
    if (readings.pairs.empty()) {
        return Error{ErrorCode::too_few_rows, "pairs", "0", "1", {}, {}};
    }
    if (auto bad = first_outside(
            {{"on_heel/lifter", readings.on_heel.lifter_mm, {-5.0, 5.0, "mm"}},
             {"on_heel/valve", readings.on_heel.valve_mm, {-5.0, 5.0, "mm"}},
             {"lash", readings.lash_mm.value_or(Interval::exactly(0.0)), {0.0, 5.0, "mm"}}})) {
        return bad;
    }
    for (std::size_t at = 0; at < readings.pairs.size(); ++at) {
        const DialPair& pair = readings.pairs[at];
        const int line = static_cast<int>(at) + 1;
        if (auto bad = first_outside({{"lifter", pair.lifter_mm, {-5.0, 30.0, "mm"}, line},
                                      {"valve", pair.valve_mm, {-5.0, 50.0, "mm"}, line}})) {
            return bad;
        }
        if (at > 0 && !(pair.lifter_mm.middle() > readings.pairs[at - 1].lifter_mm.middle())) {
            return Error{ErrorCode::order_wrong,
                         "lifter",
                         exact_text(pair.lifter_mm.middle()),
                         {},
                         line,
                         {}};
        }
    }
    return std::nullopt;
}

bool has_moved(const Interval& lift_mm) {
    return lift_mm.low > 0.0;
}

/// Nothing unless what the lifter did is surely above zero.
std::optional<Interval> ratio(const Interval& valve_mm, const Interval& lifter_mm) {
    return lifter_mm.low > 0.0 ? quotient(valve_mm, lifter_mm) : std::nullopt;
}

} // namespace

Result<std::vector<DialRatio>> ratio_from_dials(const DialReadings& readings) {
    if (const auto bad = wrong_readings(readings)) {
        return *bad;
    }
    std::vector<DialRatio> ratios;
    for (std::size_t at = 0; at < readings.pairs.size(); ++at) {
        const DialPair& pair = readings.pairs[at];
        DialRatio here;
        here.lifter_lift_mm = pair.lifter_mm - readings.on_heel.lifter_mm;
        here.valve_lift_mm = pair.valve_mm - readings.on_heel.valve_mm;
        here.net = ratio(here.valve_lift_mm, here.lifter_lift_mm);
        if (readings.lash_mm && has_moved(here.valve_lift_mm)) {
            here.overall = ratio(here.valve_lift_mm + *readings.lash_mm, here.lifter_lift_mm);
        }
        if (at > 0 && has_moved(ratios.back().valve_lift_mm) && has_moved(here.valve_lift_mm)) {
            const DialPair& before = readings.pairs[at - 1];
            here.step = ratio(pair.valve_mm - before.valve_mm, pair.lifter_mm - before.lifter_mm);
        }
        ratios.push_back(here);
    }
    return ratios;
}

} // namespace rodway
