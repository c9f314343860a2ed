#include "app/command_line/command_line.h"

#include <QCoreApplication>

#include "app/command_line/commands.h"
#include "app/command_line/output.h"
#include "app/command_line/work_commands.h"

namespace rodway {
namespace {

struct CommandLine {
    Q_DECLARE_TR_FUNCTIONS(CommandLine)
};

std::string exit_codes() {
    return CommandLine::tr(
               "Exit codes: 0 done; 2 the call's words are off; 3 a file, field or value is wrong; "
               "4 a file "
               "is damaged, foreign or made by a newer Rodway; 5 a train can't close or its rod "
               "doesn't go "
               "through its tube, or a valve has no answer; 6 something can't be read or written; "
               "7 no 3D picture can be "
               "drawn here.")
        .toStdString();
}

} // namespace

CommandOutcome run_command_line(const QStringList& arguments) {
    CommandOutcome outcome;
    CLI::App program(
        CommandLine::tr(
            "Rodway: an engine builder's jobs, and the clearance of every pushrod in its port "
            "tube through a full turn. Without a command it opens its window.")
            .toStdString(),
        "rodway");
    program.footer(exit_codes());
    program.set_version_flag("--version", QCoreApplication::applicationVersion().toStdString());
    std::string shop;
    auto* window = program.add_subcommand(
        "window", CommandLine::tr("Open the window, on a shop file if one is named").toStdString());
    window->add_option("shop", shop, CommandLine::tr("Shop file").toStdString());
    window->add_option("--now", outcome.now,
                       CommandLine::tr("Let the window's clock begin at this UTC time, such as "
                                       "2026-03-01T14:05:00Z, and run on from there: what is due "
                                       "is judged by it and what is written down dated by it; "
                                       "backups keep to the computer's clock")
                           .toStdString());
    window->callback([&] {
        if (const auto begin = moment_of(outcome.now); !begin) {
            outcome.code = refuse(begin.error());
            return;
        }
        outcome.window = true;
        outcome.shop = QString::fromStdString(shop);
    });
    add_shop_commands(program, outcome);
    add_plan_commands(program, outcome);
    add_find_command(program, outcome);
    add_backup_commands(program, outcome);
    add_customer_commands(program, outcome);
    add_account_commands(program, outcome);
    add_history_commands(program, outcome);
    add_build_folder_commands(program, outcome);
    add_hold_commands(program, outcome);
    add_today_commands(program, outcome);
    add_stage_commands(program, outcome);
    add_part_commands(program, outcome);
    add_cure_commands(program, outcome);
    add_compare_commands(program, outcome);
    add_sheet_commands(program, outcome);
    add_reading_commands(program, outcome);
    add_pull_commands(program, outcome);
    add_compression_commands(program, outcome);
    add_dry_rod_commands(program, outcome);
    add_set_up_commands(program, outcome);
    add_set_up_change_commands(program, outcome);
    add_known_engine_commands(program, outcome);
    add_clearance_commands(program, outcome);
    add_variant_commands(program, outcome);
    add_casting_commands(program, outcome);
    add_cause_commands(program, outcome);
    add_spread_commands(program, outcome);
    add_motion_commands(program, outcome);
    add_train_commands(program, outcome);
    add_rod_length_commands(program, outcome);
    add_timing_commands(program, outcome);
    add_cam_card_commands(program, outcome);
    add_degreeing_commands(program, outcome);
    add_piston_commands(program, outcome);
    add_barring_commands(program, outcome);
    add_spring_commands(program, outcome);
    add_spring_shim_commands(program, outcome);
    add_shaft_load_commands(program, outcome);
    add_lobe_commands(program, outcome);
    add_gap_reading_commands(program, outcome);
    add_fit_commands(program, outcome);
    add_picture_commands(program, outcome);
    add_book_commands(program, outcome);
    program.require_subcommand(0, 1);

    std::vector<std::string> words;
    for (const QString& argument : arguments) {
        words.insert(words.begin(), argument.toStdString());
    }
    try {
        program.parse(words);
    } catch (const CLI::ParseError& stopped) {
        const bool asked_for_help = stopped.get_exit_code() == 0;
        program.exit(stopped);
        outcome.code = asked_for_help ? ExitCode::done : ExitCode::bad_usage;
        outcome.window = false;
        return outcome;
    }
    if (program.get_subcommands().empty()) {
        outcome.window = true;
    }
    return outcome;
}

} // namespace rodway
