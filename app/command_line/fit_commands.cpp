#include <QCoreApplication>

#include "app/command_line/commands.h"
#include "app/command_line/fit_answer.h"
#include "app/command_line/fit_json.h"
#include "app/command_line/fit_text.h"

namespace rodway {
namespace {

struct FitCommands {
    Q_DECLARE_TR_FUNCTIONS(FitCommands)
};

/// `rodway fit`: where one passage stands, by the gaps felt round its rod.
Shown fit_command(ShopSession& session, const FitOptions& options) {
    auto found = fitted_answer(session.shop(), options);
    if (!found) {
        return found.error();
    }
    FitAnswer answer = *std::move(found);
    const ReadingFit& fit = answer.fit;
    if (options.keep && has_fitted_place(fit)) {
        const auto name = keep_fitted_place(session, answer);
        if (!name) {
            return name.error();
        }
        answer.kept_as = *name;
    }
    if (options.json) {
        print_json(fit_json(answer));
    } else {
        print_fit(answer);
        if (answer.kept_as) {
            print_kept(answer);
        }
    }
    if (options.keep && !answer.kept_as) {
        complain(FitCommands::tr("rodway: nothing is kept: no place was fitted."));
        return ExitCode::no_answer;
    }
    const bool answered = !fit.poses.empty() && fit.poses.front().minimum.found.minimum.has_value();
    return answered ? ExitCode::done : ExitCode::no_answer;
}

} // namespace

void add_fit_commands(CLI::App& program, CommandOutcome& outcome) {
    auto options = std::make_shared<FitOptions>();
    const auto word = [](const QString& text) { return text.toStdString(); };
    auto* fit = program.add_subcommand(
        "fit", word(FitCommands::tr("Where a tube stands, by the gaps felt round its rod")));
    add_build_options(*fit, *options);
    fit->add_option("valve", options->valve, word(FitCommands::tr("Valve, such as 3I")))
        ->required();
    fit->add_option("--passage", options->passage,
                    word(FitCommands::tr("Passage, if not the port tube")));
    fit->add_option("--stated-sideways", options->sideways,
                    word(FitCommands::tr("How well the set-up's place is known sideways: ± this, "
                                         "19 times in 20 (.020; left out: .039)")));
    fit->add_option("--stated-lean", options->lean,
                    word(FitCommands::tr("How well its lean is known: ± degrees, 19 times in 20 "
                                         "(left out: 1.1)")));
    fit->add_flag("--keep", options->keep,
                  word(FitCommands::tr("Write the first place that fits into a new set-up, which "
                                       "becomes the one in hand")));
    fit->add_option("--by", options->who, word(FitCommands::tr("Who does this (initials)")));
    fit->callback([=, &outcome] {
        auto shop = ShopFile::open_to_look(options->shop);
        if (!shop) {
            outcome.code = refuse(shop.error(), QString::fromStdString(options->shop));
            return;
        }
        ShopSession session(std::move(shop).value(), QString::fromStdString(options->who));
        const Shown shown = fit_command(session, *options);
        outcome.code = shown ? *shown : refuse(shown.error());
    });
}

} // namespace rodway
