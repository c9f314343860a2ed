#include <QCoreApplication>
#include <QJsonArray>
#include <cmath>

#include "app/command_line/build_commands.h"
#include "app/command_line/commands.h"
#include "app/command_line/output.h"
#include "app/command_line/variant_options.h"
#include "app/words/cautions.h"
#include "app/words/clearance_words.h"
#include "app/words/lengths.h"
#include "app/words/variant_words.h"
#include "core/barring/open_valves.h"
#include "core/clearance/rod_removal.h"
#include "core/units/length.h"
#include "core/units/typed_text.h"

namespace rodway {
namespace {

struct ClearanceCommands {
    Q_DECLARE_TR_FUNCTIONS(ClearanceCommands)
};

struct Options : BuildOptions, WhatIfOptions {
    double crank_deg = 0.0;
    bool beside = false;
};

QJsonArray point_in(const Vec3& point_mm) {
    return {inches_of(point_mm.x()), inches_of(point_mm.y()), inches_of(point_mm.z())};
}

/// One passage, obstacle or body that a rod, or its lifter, may touch.
QJsonObject feature_json(const CertifiedMinimum& found) {
    return {{"feature", words::feature_token(found)},
            {"kind", words::token(found.kind)},
            {"part", words::token(found.part)},
            {"status", words::token(found.status)},
            {"minimum_in", inches_or_null(found.minimum ? std::optional(found.minimum->clearance_mm)
                                                        : std::nullopt)}};
}

QJsonObject removal_json(const Train& train) {
    const RodRemoval removal = rod_removal(train);
    QJsonArray passages;
    for (const PassageRoom& room : removal.passages) {
        passages.append(QJsonObject{{"passage", QString::fromStdString(room.passage)},
                                    {"whole_rod_room_in", inches_of(room.whole_rod_mm)},
                                    {"drawn_up_room_in", inches_of(room.drawn_up_mm)}});
    }
    return {{"comes_out", removal.comes_out},
            {"cup_outside_unknown", removal.cup_outside_unknown},
            {"passages", passages}};
}

/// One valve of `rodway clearance --json`; the keys are documented in the guide.
QJsonObject valve_json(const ValveClearance& line, const Engine& engine) {
    const CertifiedMinimum& found = line.found;
    QJsonObject valve{{"valve", words::valve(line.position)},
                      {"status", words::token(found.status)},
                      {"evaluations", found.evaluations}};
    const auto number = [&](const char* key, const std::optional<double>& value) {
        valve[key] = value ? QJsonValue(*value) : QJsonValue();
    };
    const auto clearance = [](const std::optional<RodClearance>& at) {
        return at ? std::optional(inches_of(at->clearance_mm)) : std::nullopt;
    };
    const auto degrees = [](const std::optional<CrankAngle>& angle) {
        return angle ? std::optional(angle->in_deg()) : std::nullopt;
    };
    number("on_heel_in", clearance(found.on_heel));
    number("at_full_lift_in", clearance(found.at_full_lift));
    number("minimum_in", clearance(found.minimum));
    number("bound_in", found.minimum ? std::optional(inches_of(found.bound_mm)) : std::nullopt);
    number("doubt_in", line.doubt_mm ? std::optional(inches_of(*line.doubt_mm)) : std::nullopt);
    valve["doubt_kind"] = line.doubt      ? QJsonValue("worked_out")
                          : line.doubt_mm ? QJsonValue("assumed")
                                          : QJsonValue();
    number("opening_crank_deg", degrees(line.opening));
    number("closing_crank_deg", degrees(line.closing));
    number("status_lobe_lift_in",
           found.status_at_mm ? std::optional(inches_of(*found.status_at_mm)) : std::nullopt);
    valve["verdict"] = line.verdict ? QJsonValue(words::token(*line.verdict)) : QJsonValue();
    QJsonArray features;
    for (const CertifiedMinimum& each : line.all) {
        features.append(feature_json(each));
    }
    valve["features"] = features;
    valve["removal"] = removal_json(*engine.train(line.position));
    if (found.minimum) {
        const RodClearance& minimum = *found.minimum;
        valve["lobe_lift_in"] = inches_of(minimum.lobe_lift_mm);
        const auto& in_passage = minimum.in_passage;
        valve["feature"] = words::feature_token(found);
        valve["part"] = words::token(found.part);
        valve["wall"] = in_passage ? QJsonValue(words::token(in_passage->wall)) : QJsonValue();
        valve["end"] = in_passage ? QJsonValue(words::token(in_passage->end)) : QJsonValue();
        valve["clock_hours"] = in_passage ? QJsonValue(in_passage->clock_hours) : QJsonValue();
        valve["depth_in"] = in_passage ? QJsonValue(inches_of(in_passage->depth_mm)) : QJsonValue();
        valve["rod_point_bank_in"] = point_in(minimum.p_rod_K);
        valve["wall_point_bank_in"] = point_in(minimum.p_wall_K);
    } else {
        for (const char* key : {"lobe_lift_in", "feature", "part", "wall", "end", "clock_hours",
                                "depth_in", "rod_point_bank_in", "wall_point_bank_in"}) {
            valve[key] = QJsonValue();
        }
    }
    return valve;
}

/// Which rods can't be drawn out with the intake on.
void print_removal(const Engine& engine) {
    QStringList held;
    bool cups = false;
    for (const Train& train : engine.trains) {
        const RodRemoval removal = rod_removal(train);
        cups = cups || removal.cup_outside_unknown;
        if (!removal.comes_out) {
            held << words::valve(train.position);
        }
    }
    print(held.isEmpty()
              ? ClearanceCommands::tr("With the intake on, every rod can be drawn out.")
              : ClearanceCommands::tr("With the intake on, these rods can't be drawn out: %1.")
                    .arg(held.join(", ")));
    if (cups) {
        print(ClearanceCommands::tr(
            "Cups are taken as wide as the ball in them; measure the cup's outside."));
    }
}

/// Everything beside each rod and lifter, not only the nearest.
void print_beside(const std::vector<ValveClearance>& lines) {
    print({});
    for (const ValveClearance& line : lines) {
        for (const CertifiedMinimum& found : line.all) {
            print(QString("%1 %2 %3")
                      .arg(words::valve(line.position), -5)
                      .arg(words::feature(found), -34)
                      .arg(found.minimum ? words::inches(found.minimum->clearance_mm)
                                         : words::train_status(found.status, found.status_at_mm,
                                                               std::nullopt)));
        }
    }
    print({});
}

void print_table(const BuildInHand& hand, const Engine& engine, const Variant& variant,
                 const std::vector<ValveClearance>& lines, bool beside) {
    print(ClearanceCommands::tr("%1: %2, set-up “%3”")
              .arg(QString::fromStdString(hand.build.name),
                   QString::fromStdString(engine.layout.name),
                   QString::fromStdString(hand.set_up.name)));
    print(ClearanceCommands::tr("Turns %1. Limit %2. Doubt of the engine: %3.")
              .arg(words::turning(engine.layout.turning),
                   words::inches(engine.rod_clearance_limit_mm), words::doubts(lines)));
    if (!variant.changes_nothing()) {
        print(ClearanceCommands::tr("WHAT IF, not as it stands: %1.")
                  .arg(words::variant(variant, engine.layout)));
    }
    print({});
    const auto row = [](const QString& valve, const QString& heel, const QString& full,
                        const QString& least, const QString& when, const QString& where,
                        const QString& verdict) {
        print(QString("%1 %2 %3 %4  %5  %6 %7")
                  .arg(valve, -5)
                  .arg(heel, 9)
                  .arg(full, 10)
                  .arg(least, 9)
                  .arg(when, -20)
                  .arg(where, -44)
                  .arg(verdict));
    };
    row(ClearanceCommands::tr("Valve"), ClearanceCommands::tr("on heel"),
        ClearanceCommands::tr("full lift"), ClearanceCommands::tr("least"),
        ClearanceCommands::tr("at crank"), ClearanceCommands::tr("nearest"),
        ClearanceCommands::tr("verdict"));
    for (const ValveClearance& line : lines) {
        if (!line.found.minimum) {
            print(QString("%1 %2").arg(words::valve(line.position), -5).arg(words::status(line)));
            continue;
        }
        row(words::valve(line.position), words::inches(line.found.on_heel->clearance_mm),
            words::inches(line.found.at_full_lift->clearance_mm),
            words::inches(line.found.minimum->clearance_mm), words::when(line),
            words::place(*line.found.minimum, engine), words::verdict(*line.verdict));
    }
    print({});
    print_removal(engine);
    if (beside) {
        print_beside(lines);
    }
    print(words::clearance_caution());
}

Shown show_clearance(const Options& options, const BuildInHand& hand) {
    const auto variant = typed_what_if(options, hand.engine);
    const auto engine =
        variant ? with_variant(hand.engine, *variant) : Result<Engine>(variant.error());
    const auto lines =
        engine ? survey(*engine) : Result<std::vector<ValveClearance>>(engine.error());
    if (!lines) {
        return lines.error();
    }
    bool all_answered = true;
    QJsonArray valves;
    QJsonArray missing;
    for (const ValvePosition& valve : engine->valves_without_train()) {
        all_answered = false;
        missing.append(words::valve(valve));
        complain(ClearanceCommands::tr("rodway: %1 is not in the set-up, so it is not checked.")
                     .arg(words::valve(valve)));
    }
    for (const ValveClearance& line : *lines) {
        all_answered = all_answered && line.found.minimum.has_value();
        valves.append(valve_json(line, *engine));
        if (!line.found.minimum) {
            complain(ClearanceCommands::tr("rodway: %1: %2")
                         .arg(words::valve(line.position), words::status(line)));
        }
    }
    if (options.json) {
        QJsonObject gaskets;
        for (std::size_t bank = 0; bank < engine->layout.banks.size(); ++bank) {
            gaskets[QString::fromStdString(engine->layout.banks[bank].name)] =
                inches_of(variant->gasket_thicker_mm[bank]);
        }
        print_json(
            {{"format", "rodway-clearance"},
             {"version", 1},
             {"build", QString::fromStdString(hand.build.name)},
             {"set_up", QString::fromStdString(hand.set_up.name)},
             {"engine", QString::fromStdString(engine->layout.name)},
             {"limit_in", inches_of(engine->rod_clearance_limit_mm)},
             {"what_if", QJsonObject{{"lifter_taller_in", inches_of(variant->lifter_taller_mm)},
                                     {"rod_thicker_in", inches_of(variant->rod_thicker_mm)},
                                     {"gasket_thicker_in", gaskets}}},
             {"not_in_set_up", missing},
             {"valves", valves}});
    } else {
        print_table(hand, *engine, *variant, *lines, options.beside);
    }
    return all_answered ? ExitCode::done : ExitCode::no_answer;
}

Shown show_open_valves(const Options& options, const BuildInHand& hand) {
    const CrankAngle crank = CrankAngle::deg(options.crank_deg).in_cycle();
    QJsonArray valves;
    bool all_close = true;
    QStringList open;
    QStringList heel;
    QStringList unknown;
    for (const ValveStanding& valve : valves_at(hand.engine, crank)) {
        const QString name = words::valve(valve.position);
        all_close = all_close && valve.train_closes;
        valves.append(QJsonObject{
            {"valve", name},
            {"status", valve.train_closes ? "answered" : "train_does_not_close"},
            {"open", valve.train_closes ? QJsonValue(valve.open) : QJsonValue()},
            {"on_heel", valve.on_heel},
            {"valve_lift_in",
             valve.train_closes ? QJsonValue(inches_of(valve.valve_lift_mm)) : QJsonValue()},
            {"lobe_lift_in", inches_of(valve.lobe_lift_mm)}});
        if (!valve.train_closes) {
            unknown << name;
        } else if (valve.open) {
            open << ClearanceCommands::tr("%1 (%2)").arg(name, words::inches(valve.valve_lift_mm));
        }
        if (valve.on_heel) {
            heel << name;
        }
    }
    if (options.json) {
        print_json({{"format", "rodway-open-valves"},
                    {"version", 1},
                    {"crank_deg", crank.in_deg()},
                    {"valves", valves}});
    } else {
        const QString none = ClearanceCommands::tr("none");
        print(ClearanceCommands::tr("Crank at %1 from cylinder 1 firing; the engine turns %2.")
                  .arg(words::crank_degrees(crank.in_deg()),
                       words::turning(hand.engine.layout.turning)));
        print(ClearanceCommands::tr("Open: %1").arg(open.isEmpty() ? none : open.join(", ")));
        print(
            ClearanceCommands::tr("On the heel: %1").arg(heel.isEmpty() ? none : heel.join(", ")));
        print(words::caution("barring_over"));
    }
    if (!all_close) {
        complain(
            ClearanceCommands::tr("rodway: these trains don't close: %1").arg(unknown.join(", ")));
    }
    return all_close ? ExitCode::done : ExitCode::no_answer;
}

} // namespace

void add_clearance_commands(CLI::App& program, CommandOutcome& outcome) {
    auto options = std::make_shared<Options>();
    const auto word = [](const QString& text) { return text.toStdString(); };
    const auto begin = [&](const char* name, const QString& what) {
        auto* command = program.add_subcommand(name, what.toStdString());
        add_build_options(*command, *options);
        return command;
    };

    auto* clearance = begin(
        "clearance", ClearanceCommands::tr("Certified least clearance of every rod in its tube"));
    clearance->add_option(
        "--lifter-taller", options->lifter,
        word(ClearanceCommands::tr("What if every lifter were taller by this (.050, 1 mm)")));
    clearance->add_option("--rod-thicker", options->rod,
                          word(ClearanceCommands::tr("What if every rod were thicker by this")));
    clearance->add_option("--gasket-thicker", options->gaskets,
                          word(ClearanceCommands::tr(
                              "What if intake gaskets were thicker by this: .015, or left=.015")));
    clearance->add_flag(
        "--beside", options->beside,
        word(ClearanceCommands::tr("Show every passage and obstacle, not only the nearest")));
    clearance->callback([=, &outcome] {
        outcome.code = with_build(
            *options, [&](const BuildInHand& hand) { return show_clearance(*options, hand); });
    });

    auto* open =
        begin("open-valves", ClearanceCommands::tr("Which valves are open at a crank angle"));
    open->add_option("crank", options->crank_deg,
                     word(ClearanceCommands::tr("Crank degrees from cylinder 1 firing")))
        ->required()
        ->check([](const std::string& text) {
            const auto number = parse_number(text);
            return number && std::abs(*number) <= 7200.0
                       ? std::string()
                       : ClearanceCommands::tr("a crank angle between -7200 and 7200 is needed")
                             .toStdString();
        });
    open->callback([=, &outcome] {
        outcome.code = with_build(
            *options, [&](const BuildInHand& hand) { return show_open_valves(*options, hand); });
    });
}

} // namespace rodway
