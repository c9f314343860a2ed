#include <QCoreApplication>
#include <QJsonArray>

#include "app/command_line/build_commands.h"
#include "app/command_line/commands.h"
#include "app/words/clearance_words.h"
#include "app/words/lengths.h"
#include "app/words/spread_words.h"
#include "core/clearance/build_spread.h"

namespace rodway {
namespace {

struct SpreadCommands {
    Q_DECLARE_TR_FUNCTIONS(SpreadCommands)
};

struct Options : BuildOptions {
    SpreadRequest request;
};

QJsonObject valve_json(const ValveSpread& valve) {
    return {{"valve", words::valve(valve.valve)},
            {"low_in", inches_or_null(valve.low_mm)},
            {"middle_in", inches_or_null(valve.middle_mm)},
            {"high_in", inches_or_null(valve.high_mm)},
            {"below_limit", valve.below_limit},
            {"without_answer", valve.without_answer}};
}

void print_row(const QString& valve, const QString& middle, const QString& range,
               const QString& below) {
    print(QString("%1 %2  %3 %4").arg(valve, -5).arg(middle, 9).arg(range, -22).arg(below, 12));
}

/// `rodway spread`: how the clearances differ over builds that differ as their parts may.
Shown show_spread(const Options& options, const BuildInHand& hand) {
    const auto spread = build_spread(hand.engine, options.request);
    if (!spread) {
        return spread.error();
    }
    if (options.json) {
        QJsonObject answer = head_json("rodway-spread", hand);
        answer["builds"] = spread->builds;
        answer["seed"] = static_cast<qint64>(options.request.seed);
        answer["limit_in"] = inches_of(hand.engine.rod_clearance_limit_mm);
        answer["any_below_limit"] = spread->any_below_limit;
        QJsonArray valves;
        for (const ValveSpread& valve : spread->valves) {
            valves.append(valve_json(valve));
        }
        answer["valves"] = valves;
        print_json(answer);
        return ExitCode::done;
    }
    print_head(hand);
    print(words::spread(*spread, options.request.seed, hand.engine.rod_clearance_limit_mm));
    print({});
    print_row(SpreadCommands::tr("Valve"), SpreadCommands::tr("middle"),
              SpreadCommands::tr("19 builds in 20"), SpreadCommands::tr("under limit"));
    for (const ValveSpread& valve : spread->valves) {
        print_row(words::valve(valve.valve),
                  valve.middle_mm ? words::inches(*valve.middle_mm) : SpreadCommands::tr("–"),
                  words::spread_range(valve), words::share(valve.below_limit));
    }
    return ExitCode::done;
}

} // namespace

void add_spread_commands(CLI::App& program, CommandOutcome& outcome) {
    auto options = std::make_shared<Options>();
    const auto word = [](const QString& text) { return text.toStdString(); };
    auto* spread = program.add_subcommand(
        "spread", word(SpreadCommands::tr("Clearances over many builds that differ as their sizes "
                                          "may")));
    add_build_options(*spread, *options);
    spread
        ->add_option("--builds", options->request.builds,
                     word(SpreadCommands::tr("How many builds are drawn (1000)")))
        ->check(CLI::Range(40, 100000));
    spread->add_option("--seed", options->request.seed,
                       word(SpreadCommands::tr("The same number draws the same builds (1)")));
    spread->callback([=, &outcome] {
        outcome.code = with_build(
            *options, [&](const BuildInHand& hand) { return show_spread(*options, hand); });
    });
}

} // namespace rodway
