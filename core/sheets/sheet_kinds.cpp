#include "core/sheets/sheet_kinds.h"

#include <algorithm>
#include <map>

#include "core/sheets/kinds/built_in.h"

namespace rodway {
namespace {

struct BuiltIn {
    const SheetKind* kind = nullptr;
    const Quantity* quantity = nullptr;
};

/// Every reading of a build asks for its quantity.
const std::map<std::string_view, BuiltIn>& by_id() {
    static const std::map<std::string_view, BuiltIn> index = [] {
        std::map<std::string_view, BuiltIn> all;
        for (const SheetKind& kind : sheet_kinds()) {
            for (const Quantity& quantity : kind.quantities) {
                all.emplace(quantity.id, BuiltIn{&kind, &quantity});
            }
        }
        return all;
    }();
    return index;
}

} // namespace

const std::vector<SheetKind>& sheet_kinds() {
    static const std::vector<SheetKind> kinds{
        numbering_sheet(),
        as_found_sheet(),
        block_sheet(),
        bores_sheet(),
        lifter_bores_sheet(),
        crank_sheet(),
        main_bearings_sheet(),
        rod_bearings_sheet(),
        connecting_rods_sheet(),
        pistons_sheet(),
        rings_sheet(),
        balance_sheet(),
        turning_torque_sheet(),
        rotating_clearances_sheet(),
        deck_sheet(),
        compression_sheet(),
        cam_card_sheet(),
        cam_sheet(),
        cam_timing_sheet(),
        lifters_sheet(),
        lifter_oil_band_sheet(),
        heads_sheet(),
        valves_and_guides_sheet(),
        springs_sheet(),
        tube_job_sheet(),
        pushrods_sheet(),
        rocker_geometry_sheet(),
        lash_sheet(),
        rod_clearance_sheet(),
        piston_to_valve_sheet(),
        fasteners_sheet(),
        intake_sheet(),
        distributor_sheet(),
        oiling_sheet(),
        start_and_break_in_sheet(),
        dyno_pull_sheet(),
        hand_off_sheet(),
    };
    return kinds;
}

const SheetKind* find_sheet_kind(std::string_view id) {
    const auto& kinds = sheet_kinds();
    const auto found = std::find_if(kinds.begin(), kinds.end(),
                                    [&](const SheetKind& kind) { return kind.id == id; });
    return found == kinds.end() ? nullptr : &*found;
}

const Quantity* find_quantity(std::string_view id) {
    const auto found = by_id().find(id);
    return found == by_id().end() ? nullptr : found->second.quantity;
}

const SheetKind* sheet_of_quantity(std::string_view quantity_id) {
    const auto found = by_id().find(quantity_id);
    return found == by_id().end() ? nullptr : found->second.kind;
}

} // namespace rodway
