#include <algorithm>
#include <array>

#include "core/bottom_end/rotating_clearance.h"
#include "core/sheets/kinds/built_in.h"
#include "core/sheets/kinds/work_out.h"

namespace rodway {
namespace {

struct PairRead {
    RotatingPair pair;
    const char* quantity;
    const char* smallest;
};
constexpr std::array pairs{
    PairRead{RotatingPair::rod_to_block, "rod_to_block_clearance", "rod_to_block_smallest"},
    PairRead{RotatingPair::rod_to_cam, "rod_to_cam_clearance", "rod_to_cam_smallest"},
    PairRead{RotatingPair::counterweight_to_block, "counterweight_to_block_clearance",
             "counterweight_to_block_smallest"},
    PairRead{RotatingPair::counterweight_to_piston, "counterweight_to_piston_clearance",
             "counterweight_to_piston_smallest"},
};

constexpr double widest_mm = 200.0;

/// "More than .060" leaves it open upwards; no gap is less than none.
std::optional<Interval> gap_of(const Taken& taken) {
    const auto reach = taken.reach();
    if (!reach || reach->low > widest_mm) {
        return std::nullopt;
    }
    return Interval{std::max(0.0, reach->low), std::clamp(reach->high, 0.0, widest_mm)};
}

SheetOutcome work_out(const SheetFacts& facts) {
    SheetOutcome outcome;
    for (const PairRead& pair : pairs) {
        std::vector<RotatingGap> gaps;
        for (const Taken& taken : facts.readings.of(pair.quantity)) {
            const int place = taken.place.cylinder().value_or(taken.place.journal().value_or(0));
            gaps.push_back({pair.pair, place, {}, gap_of(taken)});
        }
        const auto clearances = rotating_clearances(gaps, common_rotating_clearance());
        if (!clearances) {
            continue;
        }
        const auto smallest = clearances->front().smallest_mm;
        if (smallest && smallest->high < widest_mm) {
            outcome.figures.push_back({pair.smallest, "", *smallest});
        }
    }
    return outcome;
}

std::vector<SheetLimit> usual_limits(const SheetFacts&) {
    const double least_mm = common_rotating_clearance().low_mm;
    std::vector<SheetLimit> limits{
        common_practice("crank_to_pump_clearance", least_mm, std::nullopt)};
    for (const PairRead& pair : pairs) {
        limits.push_back(common_practice(pair.quantity, least_mm, std::nullopt));
    }
    return limits;
}

} // namespace

SheetKind rotating_clearances_sheet() {
    constexpr Origin out = Origin::worked_out;
    return {"rotating_clearances",
            {
                {"rod_to_block_clearance", Form::clearance, Place::cylinder, "in"},
                {"rod_to_block_smallest", Form::clearance, Place::engine, "in", "", out},
                {"rod_to_cam_clearance", Form::clearance, Place::cylinder, "in"},
                {"rod_to_cam_smallest", Form::clearance, Place::engine, "in", "", out},
                {"counterweight_to_block_clearance", Form::clearance, Place::main_journal, "in"},
                {"counterweight_to_block_smallest", Form::clearance, Place::engine, "in", "", out},
                {"counterweight_to_piston_clearance", Form::clearance, Place::cylinder, "in"},
                {"counterweight_to_piston_smallest", Form::clearance, Place::engine, "in", "", out},
                {"crank_to_pump_clearance", Form::clearance, Place::engine, "in"},
            },
            work_out,
            usual_limits};
}

} // namespace rodway
