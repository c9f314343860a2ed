#include <algorithm>

#include "core/found/compression_test.h"
#include "core/found/leakdown.h"
#include "core/sheets/kinds/built_in.h"
#include "core/sheets/kinds/work_out.h"
#include "core/sheets/kinds/worked_figures.h"

namespace rodway {
namespace {

void add_leakdown(WorkedFigures& figures, const TakenReadings& readings) {
    std::vector<CylinderLeak> leaks;
    for (const Taken& taken : readings.of("as_found_leakdown")) {
        if (const auto percent = taken.range()) {
            leaks.push_back({*taken.place.cylinder(), not_below_zero(*percent)});
        }
    }
    const auto found = leakdown(leaks);
    if (!found || leaks.size() < 2) {
        return;
    }
    figures.add("leakdown_spread", "", found->spread_percent);
    for (const CylinderLeakdown& cylinder : found->cylinders) {
        figures.add("leakdown_above_least", std::to_string(cylinder.cylinder),
                    cylinder.above_least_percent);
    }
}

/// Cylinders side by side in one bank.
std::vector<std::pair<int, int>> neighbours_on(const Engine& engine,
                                               const std::vector<CrankingPressure>& tested) {
    std::vector<Cylinder> cylinders = engine.layout.cylinders;
    std::sort(cylinders.begin(), cylinders.end(), [](const Cylinder& a, const Cylinder& b) {
        return a.bank != b.bank ? a.bank < b.bank : a.centre_x_mm < b.centre_x_mm;
    });
    const auto was_tested = [&](int number) {
        return std::any_of(tested.begin(), tested.end(),
                           [&](const CrankingPressure& one) { return one.cylinder == number; });
    };
    std::vector<std::pair<int, int>> pairs;
    for (std::size_t at = 1; at < cylinders.size(); ++at) {
        const Cylinder& before = cylinders[at - 1];
        if (before.bank == cylinders[at].bank && was_tested(before.number) &&
            was_tested(cylinders[at].number)) {
            pairs.emplace_back(before.number, cylinders[at].number);
        }
    }
    return pairs;
}

void add_compression(WorkedFigures& figures, const SheetFacts& facts) {
    std::vector<CrankingPressure> pressures;
    for (const Taken& taken : facts.readings.of("as_found_compression")) {
        if (const auto dry_kPa = taken.range()) {
            const int cylinder = *taken.place.cylinder();
            pressures.push_back(
                {cylinder, *dry_kPa,
                 facts.readings.number("as_found_compression_wet", std::to_string(cylinder))});
        }
    }
    if (pressures.size() < 2) {
        return;
    }
    const auto neighbours = facts.engine != nullptr ? neighbours_on(*facts.engine, pressures)
                                                    : std::vector<std::pair<int, int>>{};
    const auto test = compression_test(pressures, neighbours);
    if (!test) {
        return;
    }
    for (const CylinderCompression& cylinder : test->cylinders) {
        const std::string position = std::to_string(cylinder.cylinder);
        figures.add("compression_share", position, cylinder.share_of_highest * 100.0);
        if (cylinder.wet_gain) {
            figures.add("compression_wet_gain", position, *cylinder.wet_gain * 100.0);
        }
    }
    for (const auto& [one, other] : test->low_neighbours) {
        figures.point_out(PointedOut::low_together, "as_found_compression",
                          {std::to_string(one), std::to_string(other)}, {});
    }
}

SheetOutcome work_out(const SheetFacts& facts) {
    WorkedFigures figures(facts.readings);
    add_leakdown(figures, facts.readings);
    add_compression(figures, facts);
    return figures.outcome();
}

/// Leakage: fresh, and still usable. Compression: share of the highest of the others.
std::vector<SheetLimit> usual_limits(const SheetFacts&) {
    const LeakdownBands leak;
    const CompressionLimits compression;
    return {
        common_practice("as_found_leakdown", {}, leak.fresh_percent),
        common_practice("as_found_leakdown", {}, leak.usable_percent, {}, LimitFor::serviceable),
        common_practice("compression_share", compression.least_share * 100.0, {})};
}

} // namespace

SheetKind as_found_sheet() {
    const Origin follows = Origin::worked_out;
    return {"as_found",
            {
                {"as_found_leakdown", Form::percent, Place::cylinder, "%"},
                {"leakdown_above_least", Form::percent, Place::cylinder, "%", "", follows},
                {"leakdown_spread", Form::percent, Place::engine, "%", "", follows},
                {"as_found_compression", Form::pressure, Place::cylinder, "psi"},
                {"compression_share", Form::percent, Place::cylinder, "%", "", follows},
                {"as_found_compression_wet", Form::pressure, Place::cylinder, "psi"},
                {"compression_wet_gain", Form::percent, Place::cylinder, "%", "", follows},
                {"as_found_lash", Form::lash, Place::valve, "in", "hot cold"},
                {"as_found_end_play", Form::length, Place::engine, "in"},
                {"as_found_bore_wear", Form::length, Place::cylinder, "in"},
                {"as_found_bearing_look", Form::words, Place::main_journal},
                {"as_found_lobe_look", Form::words, Place::lobe},
                {"as_found_lifter_face", Form::words, Place::valve},
                {"as_found_pushrod_marks", Form::words, Place::valve},
                {"as_found_pushrod_length", Form::length, Place::valve, "in"},
                {"as_found_bolt_torque", Form::torque, Place::bolt, "lb-ft"},
                {"crack_test", Form::words, Place::spot},
            },
            work_out,
            usual_limits};
}

} // namespace rodway
