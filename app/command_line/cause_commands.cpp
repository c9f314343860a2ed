#include <QCoreApplication>
#include <algorithm>
#include <cmath>

#include "app/command_line/build_commands.h"
#include "app/command_line/commands.h"
#include "app/words/cause_words.h"
#include "app/words/clearance_words.h"
#include "app/words/lengths.h"
#include "core/clearance/survey.h"
#include "core/units/angle.h"
#include "core/units/length.h"

namespace rodway {
namespace {

struct CauseCommands {
    Q_DECLARE_TR_FUNCTIONS(CauseCommands)
};

struct Options : BuildOptions {
    std::string valve;
    int most = 12;
};

/// The one valve asked for. Error: valve_unknown, not_a_position.
Result<const Train*> train_asked_for(const Engine& engine, const std::string& name) {
    const auto valve = parse_position(name);
    if (!valve) {
        return Error{ErrorCode::not_a_position, "valve", name, "3I", {}, {}};
    }
    const Train* train = engine.train(*valve);
    if (!train) {
        return Error{ErrorCode::valve_unknown, "valve", name, {}, {}, {}};
    }
    return train;
}

QJsonValue rate_json(const std::optional<CauseRate>& rate, ParameterKind kind) {
    if (!rate) {
        return {};
    }
    return QJsonObject{{"when_more", words::per_thou_or_degree(rate->when_more.per_unit, kind)},
                       {"when_less", words::per_thou_or_degree(rate->when_less.per_unit, kind)},
                       {"place_when_more", static_cast<int>(rate->when_more.place)},
                       {"place_when_less", static_cast<int>(rate->when_less.place)}};
}

QString rate_text(const std::optional<CauseRate>& rate, ParameterKind kind) {
    return rate ? words::rate(*rate, kind) : CauseCommands::tr("–");
}

QJsonObject place_json(const ClearancePlace& place) {
    const bool passage = place.passage_K.has_value();
    return {{"thing", QString::fromStdString(place.thing)},
            {"wall", passage ? QJsonValue(words::token(place.wall)) : QJsonValue()},
            {"end", passage ? QJsonValue(words::token(place.end)) : QJsonValue()},
            {"lobe_lift_in", inches_of(place.lobe_lift_mm)},
            {"clearance_in", inches_of(place.clearance_mm)}};
}

QJsonObject cause_json(const Cause& cause, const EngineLayout& layout) {
    const EngineParameter& parameter = cause.parameter;
    return {
        {"parameter", words::token(parameter.kind)},
        {"thing", parameter.thing.empty() ? QJsonValue()
                                          : QJsonValue(QString::fromStdString(parameter.thing))},
        {"bank", parameter.valve
                     ? QJsonValue()
                     : QJsonValue(QString::fromStdString(layout.banks[parameter.bank].name))},
        {"per", is_angle(parameter.kind) ? "degree" : "thou"},
        {"lash_set_again", rate_json(cause.adjuster_reset, parameter.kind)},
        {"rod_chosen_again", rate_json(cause.rod_rechosen, parameter.kind)}};
}

/// `rodway causes`: why a clearance is what it is, and what changes it (question 1).
Shown show_causes(const Options& options, const BuildInHand& hand) {
    const auto train = train_asked_for(hand.engine, options.valve);
    const auto found = train ? causes_of(hand.engine, **train)
                             : Result<std::optional<MinimumCauses>>(train.error());
    if (!found) {
        return found.error();
    }
    if (!*found) {
        complain(CauseCommands::tr("rodway: %1 has no clearance; `rodway clearance` says why.")
                     .arg(words::valve((*train)->position)));
        return ExitCode::no_answer;
    }
    const MinimumCauses& causes = **found;
    if (options.json) {
        QJsonObject answer = head_json("rodway-causes", hand);
        answer["valve"] = words::valve((*train)->position);
        QJsonArray places;
        for (const ClearancePlace& place : causes.places) {
            places.append(place_json(place));
        }
        answer["places"] = places;
        QJsonArray list;
        for (const Cause& cause : causes.causes) {
            list.append(cause_json(cause, hand.engine.layout));
        }
        answer["causes"] = list;
        print_json(answer);
        return ExitCode::done;
    }
    print_head(hand);
    for (const ClearancePlace& place : causes.places) {
        print(CauseCommands::tr("%1: least %2, %3, %4.")
                  .arg(words::valve((*train)->position), words::inches(place.clearance_mm),
                       words::lift_of(place), words::place(place, hand.engine)));
    }
    if (causes.places.size() > 1) {
        print(CauseCommands::tr("These places tie, so more and less of a thing may act unlike."));
    }
    print({});
    print(
        CauseCommands::tr("Thou of clearance gained (+) or lost (-), for one thou or one degree:"));
    print(QString("%1 %2 %3 %4")
              .arg(QString(), -38)
              .arg(QString(), -11)
              .arg(CauseCommands::tr("lash set again,"), -20)
              .arg(CauseCommands::tr("adjuster unmoved,")));
    print(QString("%1 %2 %3 %4")
              .arg(QString(), -38)
              .arg(QString(), -11)
              .arg(CauseCommands::tr("same rod"), -20)
              .arg(CauseCommands::tr("another rod")));
    int shown = 0;
    for (const Cause& cause : causes.causes) {
        if (shown++ == options.most) {
            break;
        }
        const ParameterKind kind = cause.parameter.kind;
        print(QString("%1 %2 %3 %4")
                  .arg(words::growing(cause.parameter, hand.engine.layout), -38)
                  .arg(words::per_unit(kind), -11)
                  .arg(rate_text(cause.adjuster_reset, kind), -20)
                  .arg(rate_text(cause.rod_rechosen, kind)));
    }
    if (causes.causes.size() > static_cast<std::size_t>(options.most)) {
        print(CauseCommands::tr("… and %1 more (--most).")
                  .arg(causes.causes.size() - static_cast<std::size_t>(options.most)));
    }
    return ExitCode::done;
}

QJsonObject share_json(const DoubtContribution& share) {
    const bool lean = share.input && is_angle(share.input->kind);
    return {{"kind", words::token(share.kind)},
            {"input", share.input ? QJsonValue(words::token(share.input->kind)) : QJsonValue()},
            {lean ? "size_deg" : "size_in", lean ? degrees(share.size) : inches_of(share.size)},
            {"source", words::token(share.source)},
            {"takes_in", inches_of(share.takes_mm)},
            {"gives_in", inches_of(share.gives_mm)}};
}

QJsonObject doubt_json(const ValveClearance& line) {
    QJsonObject valve{{"valve", words::valve(line.position)},
                      {"doubt_in", inches_or_null(line.doubt_mm)},
                      {"worked_out", line.doubt.has_value()}};
    QJsonArray shares;
    if (line.doubt) {
        valve["minus_in"] = inches_of(line.doubt->minus_mm);
        valve["plus_in"] = inches_of(line.doubt->plus_mm);
        valve["chance_of_limit"] = line.doubt->chance_of_limit;
        for (const DoubtContribution& share : line.doubt->contributions) {
            shares.append(share_json(share));
        }
    }
    valve["shares"] = shares;
    return valve;
}

void print_doubt(const ValveClearance& line, const EngineLayout& layout) {
    if (!line.found.minimum) {
        print(QString("%1 %2").arg(words::valve(line.position), -5).arg(words::status(line)));
        return;
    }
    print(CauseCommands::tr("%1: %2, %3")
              .arg(words::valve(line.position), words::inches(line.found.minimum->clearance_mm),
                   words::doubt(line)));
    if (!line.doubt) {
        return;
    }
    print(CauseCommands::tr("    less by up to %1, more by up to %2; chance of reaching the limit "
                            "%3 %")
              .arg(words::inches(line.doubt->minus_mm), words::inches(line.doubt->plus_mm))
              .arg(100.0 * line.doubt->chance_of_limit, 0, 'f', 0));
    const auto thou = [](double mm) { return QString::number(inches_of(mm) * 1000.0, 'f', 1); };
    for (const DoubtContribution& share : line.doubt->contributions) {
        const bool lean = share.input && is_angle(share.input->kind);
        const QString size = lean ? QString("%1°").arg(degrees(share.size), 0, 'f', 2)
                                  : CauseCommands::tr("%1 thou").arg(thou(share.size));
        print(CauseCommands::tr("    -%1 +%2 thou  %3 (%4, %5)")
                  .arg(thou(share.takes_mm), 4)
                  .arg(thou(share.gives_mm), 4)
                  .arg(words::doubt_kind(share, layout), size, words::doubt_source(share.source)));
    }
}

/// `rodway doubt`: how well each clearance is known, and what spoils it.
Shown show_doubt(const Options& options, const BuildInHand& hand) {
    std::optional<ValvePosition> only;
    if (!options.valve.empty()) {
        const auto train = train_asked_for(hand.engine, options.valve);
        if (!train) {
            return train.error();
        }
        only = (*train)->position;
    }
    const auto lines = survey(hand.engine);
    if (!lines) {
        return lines.error();
    }
    bool answered = true;
    QJsonArray valves;
    if (!options.json) {
        print_head(hand);
        print(CauseCommands::tr("Intervals add up; inputs are combined by squares and doubled."));
        print({});
    }
    for (const ValveClearance& line : *lines) {
        if (only && line.position != *only) {
            continue;
        }
        answered = answered && line.found.minimum;
        if (options.json) {
            valves.append(doubt_json(line));
        } else {
            print_doubt(line, hand.engine.layout);
        }
    }
    if (options.json) {
        QJsonObject answer = head_json("rodway-doubt", hand);
        answer["valves"] = valves;
        print_json(answer);
    }
    return answered ? ExitCode::done : ExitCode::no_answer;
}

} // namespace

void add_cause_commands(CLI::App& program, CommandOutcome& outcome) {
    auto options = std::make_shared<Options>();
    const auto word = [](const QString& text) { return text.toStdString(); };
    auto* causes = program.add_subcommand(
        "causes",
        word(CauseCommands::tr("Why a rod's clearance is what it is, and what would change it")));
    add_build_options(*causes, *options);
    causes->add_option("valve", options->valve, word(CauseCommands::tr("Valve, such as 3I")))
        ->required();
    causes
        ->add_option("--most", options->most,
                     word(CauseCommands::tr("How many to print, the strongest first (12)")))
        ->check(CLI::Range(1, 1000));
    causes->callback([=, &outcome] {
        outcome.code = with_build(
            *options, [&](const BuildInHand& hand) { return show_causes(*options, hand); });
    });

    auto* doubt = program.add_subcommand(
        "doubt", word(CauseCommands::tr("How well each clearance is known, and what spoils it")));
    add_build_options(*doubt, *options);
    doubt->add_option("valve", options->valve,
                      word(CauseCommands::tr("Valve, such as 3I (left out: all)")));
    doubt->callback([=, &outcome] {
        outcome.code = with_build(
            *options, [&](const BuildInHand& hand) { return show_doubt(*options, hand); });
    });
}

} // namespace rodway
