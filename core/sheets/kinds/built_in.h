#pragma once

#include "core/sheets/sheet_kind.h"

namespace rodway {

// The built-in kinds of sheet, one file each. Their identities and those of their quantities never
// change, nor does the meaning of either: shop files have them.

[[nodiscard]] SheetKind numbering_sheet();
[[nodiscard]] SheetKind as_found_sheet();
[[nodiscard]] SheetKind block_sheet();
[[nodiscard]] SheetKind bores_sheet();
[[nodiscard]] SheetKind lifter_bores_sheet();
[[nodiscard]] SheetKind crank_sheet();
[[nodiscard]] SheetKind main_bearings_sheet();
[[nodiscard]] SheetKind rod_bearings_sheet();
[[nodiscard]] SheetKind connecting_rods_sheet();
[[nodiscard]] SheetKind pistons_sheet();
[[nodiscard]] SheetKind rings_sheet();
[[nodiscard]] SheetKind balance_sheet();
[[nodiscard]] SheetKind turning_torque_sheet();
[[nodiscard]] SheetKind rotating_clearances_sheet();
[[nodiscard]] SheetKind deck_sheet();
[[nodiscard]] SheetKind compression_sheet();
[[nodiscard]] SheetKind cam_card_sheet();
[[nodiscard]] SheetKind cam_sheet();
[[nodiscard]] SheetKind cam_timing_sheet();
[[nodiscard]] SheetKind lifters_sheet();
[[nodiscard]] SheetKind lifter_oil_band_sheet();
[[nodiscard]] SheetKind heads_sheet();
[[nodiscard]] SheetKind valves_and_guides_sheet();
[[nodiscard]] SheetKind springs_sheet();
[[nodiscard]] SheetKind tube_job_sheet();
[[nodiscard]] SheetKind pushrods_sheet();
[[nodiscard]] SheetKind rocker_geometry_sheet();
[[nodiscard]] SheetKind lash_sheet();
[[nodiscard]] SheetKind rod_clearance_sheet();
[[nodiscard]] SheetKind piston_to_valve_sheet();
[[nodiscard]] SheetKind fasteners_sheet();
[[nodiscard]] SheetKind intake_sheet();
[[nodiscard]] SheetKind distributor_sheet();
[[nodiscard]] SheetKind oiling_sheet();
[[nodiscard]] SheetKind start_and_break_in_sheet();
[[nodiscard]] SheetKind dyno_pull_sheet();
[[nodiscard]] SheetKind hand_off_sheet();

} // namespace rodway
