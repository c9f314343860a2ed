#include "core/valvetrain/preload_turns.h"

#include "core/units/length.h"
#include "core/valvetrain/lash_setting.h"

namespace rodway {
namespace {

/// Rod's seat per turn, mm, and the lever in it.
struct SeatPerTurn {
    double lever = 1.0;
    double seat_mm = 0.0;
};

Result<SeatPerTurn> seat_per_turn(const PreloadTurning& turning) {
    if (const auto bad = first_outside({{"pitch",
                                         Interval::exactly(turning.pitch_mm),
                                         {finest_pitch_mm, coarsest_pitch_mm, "mm"}}})) {
        return *bad;
    }
    if (turning.thread == PreloadThread::rocker_screw) {
        return SeatPerTurn{1.0, turning.pitch_mm};
    }
    const auto lever = nut_lever_rule_of_thumb(turning.rocker_ratio);
    if (!lever) {
        return lever.error();
    }
    return SeatPerTurn{*lever, *lever * turning.pitch_mm};
}

} // namespace

Result<TurnedPreload> preload_for_turns(const PreloadTurning& turning, const Interval& turns,
                                        const std::optional<Interval>& plunger_travel_mm) {
    const auto per_turn = seat_per_turn(turning);
    if (!per_turn) {
        return per_turn.error();
    }
    if (const auto bad = first_outside({{"turns", turns, {0.0, 20.0, "turns"}},
                                        {"plunger_travel",
                                         plunger_travel_mm.value_or(Interval::exactly(0.0)),
                                         {0.0, 50.0, "mm"}}})) {
        return *bad;
    }
    TurnedPreload turned;
    turned.lever = per_turn->lever;
    turned.preload_mm = turns * per_turn->seat_mm;
    if (plunger_travel_mm) {
        turned.travel_left_mm = *plunger_travel_mm - turned.preload_mm;
    }
    return turned;
}

Result<Interval> turns_for_preload(const PreloadTurning& turning, const Interval& preload_mm) {
    const auto per_turn = seat_per_turn(turning);
    if (!per_turn) {
        return per_turn.error();
    }
    if (const auto bad = first_outside({{"preload", preload_mm, {0.0, 50.0, "mm"}}})) {
        return *bad;
    }
    return preload_mm / per_turn->seat_mm;
}

FigureBand usual_preload_mm() {
    return {Length::inches(0.020).in_mm(), Length::inches(0.060).in_mm(),
            FigureSource::common_practice};
}

} // namespace rodway
