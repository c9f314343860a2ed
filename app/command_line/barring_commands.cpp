#include <QCoreApplication>
#include <QJsonArray>
#include <algorithm>
#include <cmath>

#include "app/command_line/build_commands.h"
#include "app/command_line/commands.h"
#include "app/command_line/output.h"
#include "app/words/barring_words.h"
#include "app/words/cautions.h"
#include "app/words/clearance_words.h"
#include "app/words/lengths.h"
#include "app/work/build_in_hand.h"
#include "core/barring/full_lift_order.h"
#include "core/barring/lash_stops.h"
#include "core/barring/lash_walk.h"
#include "core/barring/shaft_windows.h"
#include "core/units/force.h"
#include "core/units/length.h"
#include "core/units/typed_text.h"

namespace rodway {
namespace {

struct BarringCommands {
    Q_DECLARE_TR_FUNCTIONS(BarringCommands)
};

struct Options : BuildOptions {
    double crank_deg = 0.0; ///< where the engine stands, or where the walk starts
    double margin_deg = usual_heel_margin_deg;

    [[nodiscard]] CrankAngle crank() const { return CrankAngle::deg(crank_deg).in_cycle(); }
};

using Show = Shown (*)(const BuildInHand& hand, const Options& options);

QJsonArray names(const std::vector<ValvePosition>& valves) {
    QJsonArray array;
    for (const ValvePosition& valve : valves) {
        array.append(words::valve(valve));
    }
    return array;
}

QJsonValue number(const std::optional<double>& value) {
    return value ? QJsonValue(*value) : QJsonValue();
}

QJsonValue in_lbf(const std::optional<double>& load_N) {
    return load_N ? QJsonValue(Force::N(*load_N).in_lbf()) : QJsonValue();
}

/// What every answer begins with; the keys are documented in the guide.
QJsonObject json_head(const char* format, const BuildInHand& hand) {
    return {{"format", format},
            {"version", 1},
            {"build", QString::fromStdString(hand.build.name)},
            {"set_up", QString::fromStdString(hand.set_up.name)},
            {"engine", QString::fromStdString(hand.engine.layout.name)},
            {"turns", words::token(hand.engine.layout.turning)}};
}

void print_turning(const BuildInHand& hand) {
    print(BarringCommands::tr("%1: the engine turns %2.")
              .arg(QString::fromStdString(hand.build.name),
                   words::turning(hand.engine.layout.turning)));
}

void print_start(const BuildInHand& hand, const Options& options) {
    print_turning(hand);
    print(BarringCommands::tr("Start with the crank at %1 from cylinder 1 firing. Turn only in "
                              "running direction.")
              .arg(words::crank_degrees(options.crank().in_deg())));
}

void print_margin(const Options& options) {
    print(BarringCommands::tr("Kept clear at both ends of every heel: %1.")
              .arg(words::crank_degrees(options.margin_deg)));
}

void print_end() {
    print({});
    print(words::caution("barring_over"));
}

/// One row of a walk: number, how far to turn, crank angle there, and what to do.
void print_row(const QString& step, const QString& turn, const QString& at, const QString& rest) {
    print(QString("%1 %2 %3  %4").arg(step, 4).arg(turn, 8).arg(at, 9).arg(rest));
}

void print_row(std::size_t step, double turn_deg, CrankAngle at, const QString& rest) {
    print_row(QString::number(step), words::crank_degrees(turn_deg),
              words::crank_degrees(at.in_deg()), rest);
}

void print_columns(const QString& what) {
    print({});
    print_row(BarringCommands::tr("Stop"), BarringCommands::tr("turn by"),
              BarringCommands::tr("crank at"), what);
}

QJsonArray left_out_json(const std::vector<LashLeftOut>& left_out) {
    QJsonArray array;
    for (const LashLeftOut& left : left_out) {
        array.append(QJsonObject{{"valve", words::valve(left.valve)},
                                 {"reason", words::token(left.reason)}});
    }
    return array;
}

/// Valves left out belong to the list that is taken to the engine; beside JSON they are complained
/// of.
ExitCode tell_left_out(const std::vector<LashLeftOut>& left_out, const Options& options) {
    for (const LashLeftOut& left : left_out) {
        const QString valve = words::valve(left.valve);
        const QString why = words::lash_refusal(left.reason);
        if (options.json) {
            complain(BarringCommands::tr("rodway: %1 is left out: %2").arg(valve, why));
        } else {
            print(BarringCommands::tr("%1 is LEFT OUT: %2").arg(valve, why));
        }
    }
    return left_out.empty() ? ExitCode::done : ExitCode::no_answer;
}

void print_lash_now(const std::vector<LashStanding>& standings) {
    QStringList now;
    std::vector<LashStanding> later;
    for (const LashStanding& standing : standings) {
        if (standing.now && standing.stays_deg) {
            now << BarringCommands::tr("%1 (for another %2)")
                       .arg(words::valve(standing.valve),
                            words::crank_degrees(*standing.stays_deg));
        } else if (standing.turn_deg) {
            later.push_back(standing);
        }
    }
    std::stable_sort(later.begin(), later.end(),
                     [](const auto& a, const auto& b) { return *a.turn_deg < *b.turn_deg; });
    print(BarringCommands::tr("May be set now: %1")
              .arg(now.isEmpty() ? BarringCommands::tr("none") : now.join(", ")));
    for (const LashStanding& standing : later) {
        print(BarringCommands::tr("%1 after a turn of %2 in running direction")
                  .arg(words::valve(standing.valve), -5)
                  .arg(words::crank_degrees(*standing.turn_deg)));
    }
}

Shown show_lash_now(const BuildInHand& hand, const Options& options) {
    const auto standings = lash_standing(hand.engine, options.crank(), options.margin_deg);
    if (!standings) {
        return standings.error();
    }
    std::vector<LashLeftOut> left_out;
    QJsonArray valves;
    for (const LashStanding& standing : *standings) {
        const bool answered = !standing.left_out.has_value();
        if (!answered) {
            left_out.push_back({standing.valve, *standing.left_out});
        }
        valves.append(QJsonObject{
            {"valve", words::valve(standing.valve)},
            {"status", answered ? QString("answered") : words::token(*standing.left_out)},
            {"may_set_now", answered ? QJsonValue(standing.now) : QJsonValue()},
            {"turn_deg", number(standing.turn_deg)},
            {"stays_deg", number(standing.stays_deg)}});
    }
    if (options.json) {
        QJsonObject answer = json_head("rodway-lash-now", hand);
        answer["crank_deg"] = options.crank().in_deg();
        answer["margin_deg"] = options.margin_deg;
        answer["valves"] = valves;
        print_json(answer);
        return tell_left_out(left_out, options);
    }
    print_turning(hand);
    print(BarringCommands::tr("Crank at %1 from cylinder 1 firing.")
              .arg(words::crank_degrees(options.crank().in_deg())));
    print_margin(options);
    print({});
    print_lash_now(*standings);
    const ExitCode code = tell_left_out(left_out, options);
    print_end();
    return code;
}

Shown show_lash_walk(const BuildInHand& hand, const Options& options) {
    LashWalkRules rules;
    rules.margin_deg = options.margin_deg;
    const auto walk = lash_walk(hand.engine, options.crank(), rules);
    if (!walk) {
        return walk.error();
    }
    if (options.json) {
        QJsonArray steps;
        for (const LashStep& step : walk->steps) {
            steps.append(QJsonObject{{"crank_deg", step.at.in_deg()},
                                     {"turn_deg", step.turn_deg},
                                     {"cylinder", step.cylinder},
                                     {"cue", words::token(step.cue)},
                                     {"seen", words::valve(step.seen)},
                                     {"seen_by_lobe", step.seen_by_lobe},
                                     {"set", names(step.set)},
                                     {"heel_left_deg", step.heel_left_deg}});
        }
        QJsonObject answer = json_head("rodway-lash-walk", hand);
        answer["from_crank_deg"] = options.crank().in_deg();
        answer["margin_deg"] = options.margin_deg;
        answer["seen_lift_in"] = Length::mm(rules.seen_lift_mm).in_inches();
        answer["steps"] = steps;
        answer["left_out"] = left_out_json(walk->left_out);
        print_json(answer);
        return tell_left_out(walk->left_out, options);
    }
    print_start(hand, options);
    print_margin(options);
    print(BarringCommands::tr("A valve begins to open, or has all but closed, at %1 off its seat.")
              .arg(words::inches(rules.seen_lift_mm)));
    print_columns(BarringCommands::tr("what is seen, and what to set"));
    for (std::size_t at = 0; at < walk->steps.size(); ++at) {
        const LashStep& step = walk->steps[at];
        const QString row =
            BarringCommands::tr("%1: set %2").arg(words::lash_cue(step), words::valves(step.set));
        print_row(
            at + 1, step.turn_deg, step.at,
            step.seen_by_lobe
                ? BarringCommands::tr("%1 (by the lobe alone: this train has no answer)").arg(row)
                : row);
    }
    const ExitCode code = tell_left_out(walk->left_out, options);
    print_end();
    return code;
}

QJsonObject lash_stop_json(const LashStop& stop) {
    return {{"crank_deg", stop.at.in_deg()},
            {"turn_deg", stop.turn_deg},
            {"set", names(stop.set)},
            {"may_set", names(stop.may_set)},
            {"may_stand_from_crank_deg", stop.may_stand.from.in_deg()},
            {"may_stand_to_crank_deg", stop.may_stand.to().in_deg()},
            {"may_stand_span_deg", stop.may_stand.span_deg},
            {"firing_tdc_of", stop.firing_tdc_of ? QJsonValue(*stop.firing_tdc_of) : QJsonValue()}};
}

Shown show_lash_stops(const BuildInHand& hand, const Options& options) {
    const auto answer = fewest_lash_stops(hand.engine, options.crank(), options.margin_deg);
    if (!answer) {
        return answer.error();
    }
    if (options.json) {
        QJsonArray stops;
        for (const LashStop& stop : answer->stops) {
            stops.append(lash_stop_json(stop));
        }
        QJsonObject object = json_head("rodway-lash-stops", hand);
        object["from_crank_deg"] = options.crank().in_deg();
        object["margin_deg"] = options.margin_deg;
        object["stops"] = stops;
        object["left_out"] = left_out_json(answer->left_out);
        print_json(object);
        return tell_left_out(answer->left_out, options);
    }
    print_start(hand, options);
    print_margin(options);
    print_columns(BarringCommands::tr("valves to set"));
    for (std::size_t at = 0; at < answer->stops.size(); ++at) {
        const LashStop& stop = answer->stops[at];
        const QString where =
            stop.firing_tdc_of
                ? BarringCommands::tr("cylinder %1 at firing top dead centre; may stand: %2")
                      .arg(*stop.firing_tdc_of)
                      .arg(words::arc(stop.may_stand))
                : BarringCommands::tr("may stand: %1").arg(words::arc(stop.may_stand));
        print_row(at + 1, stop.turn_deg, stop.at,
                  BarringCommands::tr("%1 (%2)").arg(words::valves(stop.set), where));
    }
    const ExitCode code = tell_left_out(answer->left_out, options);
    print_end();
    return code;
}

Shown show_full_lift_order(const BuildInHand& hand, const Options& options) {
    const auto stops = full_lift_order(hand.engine, options.crank());
    if (!stops) {
        return stops.error();
    }
    if (options.json) {
        QJsonArray array;
        for (const FullLiftStop& stop : *stops) {
            array.append(QJsonObject{{"crank_deg", stop.at.in_deg()},
                                     {"turn_deg", stop.turn_deg},
                                     {"valves", names(stop.valves)}});
        }
        QJsonObject answer = json_head("rodway-full-lift-order", hand);
        answer["from_crank_deg"] = options.crank().in_deg();
        answer["stops"] = array;
        print_json(answer);
        return ExitCode::done;
    }
    print_start(hand, options);
    print_columns(BarringCommands::tr("at full lift"));
    for (std::size_t at = 0; at < stops->size(); ++at) {
        const FullLiftStop& stop = (*stops)[at];
        print_row(at + 1, stop.turn_deg, stop.at, words::valves(stop.valves));
    }
    print_end();
    return ExitCode::done;
}

QJsonObject window_json(const ShaftWindow& window) {
    const auto& nearest = window.nearest;
    return {
        {"from_crank_deg", window.arc.from.in_deg()},
        {"to_crank_deg", window.arc.to().in_deg()},
        {"span_deg", window.arc.span_deg},
        {"best_crank_deg", window.best.in_deg()},
        {"open", names(window.open)},
        {"may_be_open", names(window.may_be_open)},
        {"load_at_best_lbf", in_lbf(window.load_at_best_N)},
        {"peak_load_lbf", in_lbf(window.peak_load_N)},
        {"nearest_piston", nearest ? QJsonValue(nearest->cylinder) : QJsonValue()},
        {"nearest_piston_from_tdc_deg", nearest ? QJsonValue(nearest->from_tdc_deg) : QJsonValue()},
        {"pistons_clear", nearest ? QJsonValue(window.pistons_clear) : QJsonValue()}};
}

QJsonObject shaft_json(const ShaftWindows& shaft, const EngineLayout& layout) {
    QJsonArray windows;
    for (const ShaftWindow& window : shaft.windows) {
        windows.append(window_json(window));
    }
    return {
        {"bank", QString::fromStdString(layout.banks[shaft.shaft.bank].name)},
        {"shaft", shaft.shaft.name.empty() ? QJsonValue()
                                           : QJsonValue(QString::fromStdString(shaft.shaft.name))},
        {"valves", names(shaft.shaft.valves)},
        {"perhaps", names(shaft.shaft.perhaps)},
        {"windows", windows}};
}

void print_shaft(const ShaftWindows& shaft, const EngineLayout& layout) {
    constexpr std::size_t most_shown = 3;
    print({});
    print(BarringCommands::tr("%1, valves %2")
              .arg(words::shaft(shaft.shaft, layout), words::valves(shaft.shaft.valves)));
    if (!shaft.shaft.perhaps.empty()) {
        print(BarringCommands::tr("  Perhaps on it too, not in the set-up: %1")
                  .arg(words::valves(shaft.shaft.perhaps)));
    }
    const std::size_t shown = std::min(most_shown, shaft.windows.size());
    for (std::size_t at = 0; at < shown; ++at) {
        const ShaftWindow& window = shaft.windows[at];
        print(BarringCommands::tr("  %1. Crank %2, best at %3. Open: %4.")
                  .arg(at + 1)
                  .arg(words::arc(window.arc), words::crank_degrees(window.best.in_deg()),
                       words::valves(window.open)));
        if (!window.may_be_open.empty()) {
            print(BarringCommands::tr("     May be open too: %1")
                      .arg(words::valves(window.may_be_open)));
        }
        print(BarringCommands::tr("     Load there %1; %2.")
                  .arg(words::shaft_load(window), words::nearest_piston(window)));
    }
    if (shaft.windows.size() > shown) {
        print(BarringCommands::tr("  Not shown: %1 lesser places (--json has them).")
                  .arg(shaft.windows.size() - shown));
    }
}

/// Valves of which it isn't known whether a shaft carries them: no train in the set-up, and nothing
/// else of their bank sits on a shaft.
std::vector<ValvePosition> without_shaft(const Engine& engine,
                                         const std::vector<ShaftWindows>& shafts) {
    std::vector<ValvePosition> found;
    for (const ValvePosition& valve : engine.valves_without_train()) {
        const auto carries = [&](const ShaftWindows& shaft) {
            const auto& perhaps = shaft.shaft.perhaps;
            return std::find(perhaps.begin(), perhaps.end(), valve) != perhaps.end();
        };
        if (std::none_of(shafts.begin(), shafts.end(), carries)) {
            found.push_back(valve);
        }
    }
    return found;
}

Shown show_shaft_windows(const BuildInHand& hand, const Options& options) {
    const auto shafts = shaft_windows(hand.engine);
    if (!shafts) {
        return shafts.error();
    }
    const EngineLayout& layout = hand.engine.layout;
    const std::vector<ValvePosition> missing = without_shaft(hand.engine, *shafts);
    bool all_answered = missing.empty();
    QJsonArray array;
    for (const ShaftWindows& shaft : *shafts) {
        all_answered = all_answered && std::all_of(shaft.windows.begin(), shaft.windows.end(),
                                                   [](const ShaftWindow& window) {
                                                       return window.may_be_open.empty();
                                                   });
        array.append(shaft_json(shaft, layout));
    }
    if (options.json) {
        QJsonObject answer = json_head("rodway-shaft-windows", hand);
        answer["shafts"] = array;
        answer["not_in_set_up"] = names(missing);
        print_json(answer);
    } else {
        print_turning(hand);
        print(BarringCommands::tr(
            "Where each rocker shaft is best loosened. Crank from cylinder 1 firing; bar the "
            "engine there in running direction before a bolt is touched, and leave it there while "
            "the shaft is loose."));
        for (const ShaftWindows& shaft : *shafts) {
            print_shaft(shaft, layout);
        }
        if (shafts->empty()) {
            print(BarringCommands::tr("No rocker of this set-up sits on a shaft."));
        }
        if (!missing.empty()) {
            print({});
            print(BarringCommands::tr("Not in the set-up, so not known to sit on a shaft: %1")
                      .arg(words::valves(missing)));
        }
        print({});
        print(BarringCommands::tr(
            "Loads are of an engine at rest. A valve held open by a hydraulic lifter sinks slowly "
            "while one waits."));
        print_end();
    }
    return all_answered ? ExitCode::done : ExitCode::no_answer;
}

/// Checks a typed number of degrees.
CLI::Validator degrees_between(double low, double high, const QString& otherwise) {
    return CLI::Validator(
        [=](std::string& text) {
            const auto typed = parse_number(text);
            return typed && *typed >= low && *typed <= high ? std::string()
                                                            : otherwise.toStdString();
        },
        std::string());
}

} // namespace

void add_barring_commands(CLI::App& program, CommandOutcome& outcome) {
    auto options = std::make_shared<Options>();
    const auto word = [](const QString& text) { return text.toStdString(); };
    const auto begin = [&](const char* name, const QString& what, Show show) {
        auto* command = program.add_subcommand(name, word(what));
        add_build_options(*command, *options);
        command->callback([=, &outcome] {
            outcome.code =
                with_build(*options, [&](const BuildInHand& hand) { return show(hand, *options); });
        });
        return command;
    };
    const CLI::Validator angle = degrees_between(
        -7200.0, 7200.0, BarringCommands::tr("a crank angle between -7200 and 7200 is needed"));
    const auto add_from = [&](CLI::App* command) {
        command
            ->add_option(
                "--from", options->crank_deg,
                word(BarringCommands::tr("Start here: crank degrees from cylinder 1 firing (0)")))
            ->check(angle);
    };
    const auto add_margin = [&](CLI::App* command) {
        command
            ->add_option("--margin", options->margin_deg,
                         word(BarringCommands::tr(
                             "Crank degrees kept clear at both ends of every heel (10)")))
            ->check(degrees_between(0.0, 180.0,
                                    BarringCommands::tr("a margin between 0 and 180 is needed")));
    };

    auto* now = begin("lash-now", BarringCommands::tr("Which valves may be set at a crank angle"),
                      show_lash_now);
    now->add_option("crank", options->crank_deg,
                    word(BarringCommands::tr("Crank degrees from cylinder 1 firing")))
        ->required()
        ->check(angle);
    add_margin(now);

    auto* walk = begin("lash-walk", BarringCommands::tr("Set lash cylinder by cylinder: EO/IC"),
                       show_lash_walk);
    add_from(walk);
    add_margin(walk);

    auto* stops =
        begin("lash-stops", BarringCommands::tr("Set lash at the fewest stops"), show_lash_stops);
    add_from(stops);
    add_margin(stops);

    add_from(begin("full-lift-order",
                   BarringCommands::tr("In which order the valves come to full lift"),
                   show_full_lift_order));
    begin("shaft-windows", BarringCommands::tr("Where each rocker shaft is best loosened"),
          show_shaft_windows);
}

} // namespace rodway
