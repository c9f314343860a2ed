#include "core/valvetrain/checker_turns.h"

#include "core/units/length.h"
#include "core/valvetrain/lash_setting.h"

namespace rodway {
namespace {

const Limits lengths{20.0, 1000.0, "mm"};
const Limits pitches{finest_pitch_mm, coarsest_pitch_mm, "mm"};

} // namespace

Result<Interval> checker_length_mm(const CheckerReading& reading) {
    if (const auto bad = first_outside({{"closed_length", reading.closed_length_mm, lengths},
                                        {"turns", reading.turns, {0.0, 200.0, "turns"}},
                                        {"pitch", Interval::exactly(reading.pitch_mm), pitches}})) {
        return *bad;
    }
    return reading.closed_length_mm + reading.turns * reading.pitch_mm;
}

Result<Interval> checker_turns_for_length(const Interval& closed_length_mm, double length_mm,
                                          double pitch_mm) {
    if (const auto bad = first_outside({{"closed_length", closed_length_mm, lengths},
                                        {"pitch", Interval::exactly(pitch_mm), pitches}})) {
        return *bad;
    }
    const Interval length = Interval::exactly(length_mm);
    if (const auto bad =
            first_outside({{"length", length, {closed_length_mm.high, lengths.high, "mm"}}})) {
        return *bad;
    }
    return (length - closed_length_mm) / pitch_mm;
}

FigureBand usual_checker_pitch_mm() {
    const double pitch_mm = Length::inches(0.050).in_mm();
    return {pitch_mm, pitch_mm, FigureSource::common_practice};
}

} // namespace rodway
