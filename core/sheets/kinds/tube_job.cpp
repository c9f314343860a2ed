#include "core/sheets/kinds/built_in.h"
#include "core/sheets/kinds/work_out.h"
#include "core/sheets/kinds/worked_figures.h"
#include "core/tubes/tube_bore.h"
#include "core/tubes/tube_leak.h"
#include "core/tubes/tube_seal.h"
#include "core/tubes/tube_wall.h"
#include "core/units/pressure.h"

namespace rodway {
namespace {

std::optional<TubeDepth> depth_called(const std::optional<std::string>& word) {
    if (word == "top") {
        return TubeDepth::top;
    }
    if (word == "middle") {
        return TubeDepth::middle;
    }
    return word == "bottom" ? std::optional(TubeDepth::bottom) : std::nullopt;
}

/// Taper and oval ask for depth and direction; what names neither only counts for the least.
void add_bore(WorkedFigures& figures, const TakenReadings& readings, const std::string& valve) {
    std::vector<TubeBoreReading> bores;
    for (const Taken& taken : readings.of("tube_bore")) {
        const auto bore_mm = taken.range();
        const auto depth = depth_called(taken.place.part(PlacePart::depth));
        const auto direction = taken.place.part(PlacePart::tube_direction);
        if (bore_mm && depth && direction && taken.place.part(PlacePart::valve) == valve) {
            bores.push_back({*depth,
                             direction == "along" ? TubeDirection::along : TubeDirection::across,
                             *bore_mm});
        }
    }
    std::vector<Interval> all_mm;
    for (const Taken& taken : readings.of("tube_bore")) {
        if (taken.range() && taken.place.part(PlacePart::valve) == valve) {
            all_mm.push_back(*taken.range());
        }
    }
    if (!all_mm.empty()) {
        figures.add("tube_bore_least", valve, least_of(all_mm));
    }
    if (const auto bore = tube_bore(bores)) {
        figures.add("tube_taper_along", valve, bore->taper_along_mm);
        figures.add("tube_taper_across", valve, bore->taper_across_mm);
        figures.add("tube_oval", valve, bore->greatest_oval_mm);
    }
}

void add_seal(WorkedFigures& figures, const TakenReadings& readings, const std::string& valve) {
    const auto tube_mm = readings.number("tube_outside", valve);
    const auto housing_mm = readings.number("tube_housing_bore", valve);
    const auto inside_mm = readings.number("tube_seal_inside", valve);
    const auto outside_mm = readings.number("tube_seal_outside", valve);
    if (!tube_mm || !housing_mm || !inside_mm || !outside_mm) {
        return;
    }
    if (const auto seal = tube_seal({*tube_mm, *housing_mm, *inside_mm, *outside_mm})) {
        figures.add("tube_seal_squeeze", valve, seal->squeeze_share * 100.0);
    }
}

/// Sonic tester or scan; else from the tube's diameters, if its bore's offset is known.
std::optional<Interval> wall_before_mm(const TakenReadings& readings, const std::string& valve) {
    if (const auto measured_mm = readings.number("tube_wall_before", valve)) {
        return measured_mm;
    }
    const auto outside_mm = readings.number("tube_outside", valve);
    const auto bore_mm = spread_at(readings, "tube_bore", PlacePart::valve, valve);
    const auto off_centre_mm = readings.number("tube_bore_off_centre", valve);
    if (!outside_mm || !bore_mm || !off_centre_mm) {
        return std::nullopt;
    }
    const auto wall_mm = tube_wall_by_diameters(*outside_mm, *bore_mm, *off_centre_mm);
    return wall_mm ? std::optional(*wall_mm) : std::nullopt;
}

void add_wall(WorkedFigures& figures, const TakenReadings& readings, const std::string& valve) {
    const auto before_mm = wall_before_mm(readings, valve);
    const auto relieved_mm = readings.number("tube_relieved_by", valve);
    if (!before_mm || !relieved_mm) {
        return;
    }
    // What was measured afterwards is set beside the sum, not mixed into it.
    if (const auto wall = tube_wall({*before_mm, *relieved_mm, {}}, 0.0)) {
        figures.add_beside_reading("tube_wall_left", valve, wall->left_mm);
    }
}

struct LeakFields {
    const char* start;
    const char* end;
    const char* time;
    const char* rate;
};
constexpr LeakFields before_relief{"leak_start_before_relief", "leak_end_before_relief",
                                   "leak_time_before_relief", "leak_rate_before_relief"};
constexpr LeakFields after_relief{"leak_start_after_relief", "leak_end_after_relief",
                                  "leak_time_after_relief", "leak_rate_after_relief"};

std::optional<LeakRate> leak(const TakenReadings& readings, const std::string& valve,
                             const LeakFields& fields, double allowed_kPa_per_min) {
    const auto start_kPa = readings.number(fields.start, valve);
    const auto end_kPa = readings.number(fields.end, valve);
    const auto time_s = readings.number(fields.time, valve);
    if (!start_kPa || !end_kPa || !time_s) {
        return std::nullopt;
    }
    const auto rate =
        leak_rate({not_below_zero(*start_kPa), not_below_zero(*end_kPa), *time_s / 60.0},
                  allowed_kPa_per_min);
    return rate ? std::optional(*rate) : std::nullopt;
}

Interval psi_per_min(const LeakRate& rate) {
    return rate.lost_kPa_per_min / Pressure::kPa_per_psi;
}

void add_leaks(WorkedFigures& figures, const TakenReadings& readings, const std::string& valve) {
    const auto allowed = readings.number("leak_rate_allowed");
    const double allowed_kPa = allowed ? allowed->middle() * Pressure::kPa_per_psi : 0.0;
    const auto before = leak(readings, valve, before_relief, allowed_kPa);
    const auto after = leak(readings, valve, after_relief, allowed_kPa);
    if (before) {
        figures.add(before_relief.rate, valve, psi_per_min(*before));
    }
    if (after) {
        figures.add(after_relief.rate, valve, psi_per_min(*after));
    }
    // Without an allowed loss nothing is said to hold or to leak.
    if (allowed && tube_leak(before, after) == TubeLeakFinding::leaks_since_relief) {
        figures.point_out(PointedOut::worse_than_before, after_relief.rate, {valve},
                          {psi_per_min(*before).middle(), psi_per_min(*after).middle()});
    }
}

SheetOutcome work_out(const SheetFacts& facts) {
    WorkedFigures figures(facts.readings);
    for (const std::string& valve :
         valves_read(facts.readings, {"tube_bore", "tube_outside", "tube_wall_before",
                                      before_relief.start, after_relief.start})) {
        add_bore(figures, facts.readings, valve);
        add_seal(figures, facts.readings, valve);
        add_wall(figures, facts.readings, valve);
        add_leaks(figures, facts.readings, valve);
    }
    return figures.outcome();
}

/// A seal that isn't squeezed at all doesn't seal. What a section wants is its maker's to say.
std::vector<SheetLimit> usual_limits(const SheetFacts&) {
    return {common_practice("tube_seal_squeeze", 0.0, {})};
}

} // namespace

SheetKind tube_job_sheet() {
    const Origin follows = Origin::worked_out;
    return {"tube_job",
            {
                {"tube_bore", Form::length, Place::valve_tube, "in"},
                {"tube_bore_least", Form::length, Place::valve, "in", "", follows},
                {"tube_taper_along", Form::length, Place::valve, "in", "", follows},
                {"tube_taper_across", Form::length, Place::valve, "in", "", follows},
                {"tube_oval", Form::length, Place::valve, "in", "", follows},
                {"tube_outside", Form::length, Place::valve, "in"},
                {"tube_seal", Form::words, Place::valve},
                {"tube_housing_bore", Form::length, Place::valve, "in"},
                {"tube_seal_inside", Form::length, Place::valve, "in"},
                {"tube_seal_outside", Form::length, Place::valve, "in"},
                {"tube_seal_squeeze", Form::percent, Place::valve, "%", "", follows},
                {"tube_cure", Form::words, Place::valve},
                {"leak_rate_allowed", Form::number, Place::engine, "psi/min"},
                {"tube_leak_before_relief", Form::words, Place::valve},
                {"leak_start_before_relief", Form::pressure, Place::valve, "psi"},
                {"leak_end_before_relief", Form::pressure, Place::valve, "psi"},
                {"leak_time_before_relief", Form::time, Place::valve, "min"},
                {"leak_rate_before_relief", Form::number, Place::valve, "psi/min", "", follows},
                {"tube_leak_after_relief", Form::words, Place::valve},
                {"leak_start_after_relief", Form::pressure, Place::valve, "psi"},
                {"leak_end_after_relief", Form::pressure, Place::valve, "psi"},
                {"leak_time_after_relief", Form::time, Place::valve, "min"},
                {"leak_rate_after_relief", Form::number, Place::valve, "psi/min", "", follows},
                {"tube_bore_off_centre", Form::length, Place::valve, "in"},
                {"tube_wall_before", Form::length, Place::valve, "in"},
                {"tube_relieved_by", Form::length, Place::valve, "in"},
                {"tube_wall_left", Form::length, Place::valve, "in"},
            },
            work_out,
            usual_limits};
}

} // namespace rodway
