#pragma once

#include <CLI/CLI.hpp>

#include "app/command_line/command_line.h"

namespace rodway {

// Each adds its commands to the program's; a command that runs leaves its exit code in `outcome`.
void add_shop_commands(CLI::App& program, CommandOutcome& outcome);
void add_plan_commands(CLI::App& program, CommandOutcome& outcome);
void add_find_command(CLI::App& program, CommandOutcome& outcome);
void add_backup_commands(CLI::App& program, CommandOutcome& outcome);
void add_customer_commands(CLI::App& program, CommandOutcome& outcome);
void add_account_commands(CLI::App& program, CommandOutcome& outcome);
void add_history_commands(CLI::App& program, CommandOutcome& outcome);
void add_hold_commands(CLI::App& program, CommandOutcome& outcome);
void add_today_commands(CLI::App& program, CommandOutcome& outcome);
void add_stage_commands(CLI::App& program, CommandOutcome& outcome);
void add_part_commands(CLI::App& program, CommandOutcome& outcome);
void add_cure_commands(CLI::App& program, CommandOutcome& outcome);
void add_compare_commands(CLI::App& program, CommandOutcome& outcome);
void add_sheet_commands(CLI::App& program, CommandOutcome& outcome);
void add_reading_commands(CLI::App& program, CommandOutcome& outcome);
void add_pull_commands(CLI::App& program, CommandOutcome& outcome);
void add_compression_commands(CLI::App& program, CommandOutcome& outcome);
void add_dry_rod_commands(CLI::App& program, CommandOutcome& outcome);
void add_build_folder_commands(CLI::App& program, CommandOutcome& outcome);
void add_set_up_commands(CLI::App& program, CommandOutcome& outcome);
void add_known_engine_commands(CLI::App& program, CommandOutcome& outcome);
void add_set_up_change_commands(CLI::App& program, CommandOutcome& outcome);
void add_clearance_commands(CLI::App& program, CommandOutcome& outcome);
void add_picture_commands(CLI::App& program, CommandOutcome& outcome);
void add_variant_commands(CLI::App& program, CommandOutcome& outcome);
void add_casting_commands(CLI::App& program, CommandOutcome& outcome);
void add_cause_commands(CLI::App& program, CommandOutcome& outcome);
void add_spread_commands(CLI::App& program, CommandOutcome& outcome);
void add_motion_commands(CLI::App& program, CommandOutcome& outcome);
void add_train_commands(CLI::App& program, CommandOutcome& outcome);
void add_rod_length_commands(CLI::App& program, CommandOutcome& outcome);
void add_timing_commands(CLI::App& program, CommandOutcome& outcome);
void add_cam_card_commands(CLI::App& program, CommandOutcome& outcome);
void add_degreeing_commands(CLI::App& program, CommandOutcome& outcome);
void add_piston_commands(CLI::App& program, CommandOutcome& outcome);
void add_barring_commands(CLI::App& program, CommandOutcome& outcome);
void add_spring_commands(CLI::App& program, CommandOutcome& outcome);
void add_spring_shim_commands(CLI::App& program, CommandOutcome& outcome);
void add_shaft_load_commands(CLI::App& program, CommandOutcome& outcome);
void add_lobe_commands(CLI::App& program, CommandOutcome& outcome);
void add_gap_reading_commands(CLI::App& program, CommandOutcome& outcome);
void add_fit_commands(CLI::App& program, CommandOutcome& outcome);
void add_book_commands(CLI::App& program, CommandOutcome& outcome);

} // namespace rodway
