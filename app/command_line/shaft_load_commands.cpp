#include <QCoreApplication>
#include <algorithm>

#include "app/command_line/build_commands.h"
#include "app/command_line/commands.h"
#include "app/words/barring_words.h"
#include "app/words/cautions.h"
#include "app/words/clearance_words.h"
#include "app/words/lengths.h"
#include "app/words/spring_words.h"
#include "core/loads/shaft_load.h"
#include "core/units/force.h"

namespace rodway {
namespace {

struct ShaftLoadCommands {
    Q_DECLARE_TR_FUNCTIONS(ShaftLoadCommands)
};

struct Options : BuildOptions {
    std::string shaft;
    double step_deg = 10.0;
};

/// Least and greatest are looked for no more coarsely than this, whatever the table's step.
constexpr double look_deg = 1.0;

/// One row of the table: a shaft at a crank angle.
struct ShaftRow {
    CrankAngle at;
    ShaftLoad load;
};

/// A shaft through the cycle.
struct ShaftThroughCycle {
    RockerShaft shaft;
    std::vector<ShaftRow> rows;
    std::optional<ShaftLoadPoint> least; ///< of those that are known
    std::optional<ShaftLoadPoint> greatest;
    bool known_everywhere = true;
    std::vector<ValvePosition> without_spring; ///< have a train
};

QJsonArray names(const std::vector<ValvePosition>& valves) {
    QJsonArray array;
    for (const ValvePosition& valve : valves) {
        array.append(words::valve(valve));
    }
    return array;
}

QJsonValue lbf_or_null(const std::optional<double>& load_N) {
    return load_N ? QJsonValue(Force::N(*load_N).in_lbf()) : QJsonValue();
}

/// Called by its own name, its bank's, or both: "front", "left", "left/front".
bool is_called(const RockerShaft& shaft, const EngineLayout& layout, const QString& name) {
    const QString bank = QString::fromStdString(layout.banks[shaft.bank].name);
    const QString own = QString::fromStdString(shaft.name);
    const auto same = [&](const QString& other) {
        return name.compare(other, Qt::CaseInsensitive) == 0;
    };
    return same(bank) || (!own.isEmpty() && (same(own) || same(bank + "/" + own)));
}

/// Places in `shafts` of those asked for, all if none was named. Error: no_such_record, with the
/// names there are.
Result<std::vector<std::size_t>> shafts_asked_for(const std::vector<RockerShaft>& shafts,
                                                  const EngineLayout& layout,
                                                  const std::string& name) {
    std::vector<std::size_t> found;
    QStringList there_are;
    for (std::size_t at = 0; at < shafts.size(); ++at) {
        if (name.empty() || is_called(shafts[at], layout, QString::fromStdString(name))) {
            found.push_back(at);
        }
        const QString bank = QString::fromStdString(layout.banks[shafts[at].bank].name);
        there_are << (shafts[at].name.empty()
                          ? bank
                          : bank + "/" + QString::fromStdString(shafts[at].name));
    }
    if (found.empty() && !name.empty()) {
        return Error{ErrorCode::no_such_record,          "--shaft", name,
                     there_are.join(", ").toStdString(), {},        {}};
    }
    return found;
}

void find_extremes(const std::vector<ShaftLoadPoint>& points, ShaftThroughCycle& through) {
    for (const ShaftLoadPoint& point : points) {
        if (!point.load_N) {
            through.known_everywhere = false;
            continue;
        }
        if (!through.least || *point.load_N < *through.least->load_N) {
            through.least = point;
        }
        if (!through.greatest || *point.load_N > *through.greatest->load_N) {
            through.greatest = point;
        }
    }
}

Result<ShaftThroughCycle> through_cycle(const Engine& engine, const ShaftLoads& loads,
                                        std::size_t shaft, double step_deg) {
    ShaftThroughCycle through;
    through.shaft = loads.shafts()[shaft];
    const auto table = loads.through_cycle(shaft, step_deg);
    if (!table) {
        return in_field(table.error(), "--step");
    }
    for (const ShaftLoadPoint& point : *table) {
        const auto load = loads.at(shaft, point.at);
        if (!load) {
            return load.error();
        }
        through.rows.push_back({point.at, *load});
    }
    const auto points = loads.through_cycle(shaft, std::min(step_deg, look_deg));
    if (!points) {
        return points.error();
    }
    find_extremes(*points, through);
    // A table's angle needn't be one that was looked at.
    find_extremes(*table, through);
    std::copy_if(through.shaft.valves.begin(), through.shaft.valves.end(),
                 std::back_inserter(through.without_spring),
                 [&](const ValvePosition& valve) { return !engine.spring(valve); });
    return through;
}

QJsonObject shaft_json(const ShaftThroughCycle& through, const EngineLayout& layout) {
    QJsonArray points;
    for (const ShaftRow& row : through.rows) {
        points.append(QJsonObject{{"crank_deg", row.at.in_deg()},
                                  {"open", names(row.load.open)},
                                  {"may_be_open", names(row.load.unknown)},
                                  {"load_lbf", lbf_or_null(row.load.load_N())}});
    }
    const auto& least = through.least;
    const auto& greatest = through.greatest;
    const QString own = QString::fromStdString(through.shaft.name);
    return {{"bank", QString::fromStdString(layout.banks[through.shaft.bank].name)},
            {"shaft", own.isEmpty() ? QJsonValue() : QJsonValue(own)},
            {"valves", names(through.shaft.valves)},
            {"perhaps", names(through.shaft.perhaps)},
            {"without_spring", names(through.without_spring)},
            {"known_everywhere", through.known_everywhere},
            {"least_lbf", lbf_or_null(least ? least->load_N : std::nullopt)},
            {"least_at_crank_deg", least ? QJsonValue(least->at.in_deg()) : QJsonValue()},
            {"greatest_lbf", lbf_or_null(greatest ? greatest->load_N : std::nullopt)},
            {"greatest_at_crank_deg", greatest ? QJsonValue(greatest->at.in_deg()) : QJsonValue()},
            {"points", points}};
}

void print_row(const QString& crank, const QString& load, const QString& open) {
    print(QString("  %1 %2  %3").arg(crank, 8).arg(load, 10).arg(open));
}

void print_shaft_rows(const ShaftThroughCycle& through) {
    print_row(ShaftLoadCommands::tr("crank at"), ShaftLoadCommands::tr("load"),
              ShaftLoadCommands::tr("open"));
    for (const ShaftRow& row : through.rows) {
        QString open = words::valves(row.load.open);
        if (!row.load.unknown.empty()) {
            open = ShaftLoadCommands::tr("%1; may be open: %2")
                       .arg(open, words::valves(row.load.unknown));
        }
        print_row(words::crank_degrees(row.at.in_deg()), words::load_or_unknown(row.load.load_N()),
                  open);
    }
}

void print_through(const ShaftThroughCycle& through, const EngineLayout& layout, double step_deg) {
    print({});
    print(ShaftLoadCommands::tr("%1, valves %2")
              .arg(words::shaft(through.shaft, layout), words::valves(through.shaft.valves)));
    if (!through.shaft.perhaps.empty()) {
        print(ShaftLoadCommands::tr("  Perhaps on it too, not in the set-up: %1")
                  .arg(words::valves(through.shaft.perhaps)));
    }
    if (!through.without_spring.empty()) {
        print(ShaftLoadCommands::tr("  Load UNKNOWN wherever one of these is open, for want of its "
                                    "spring in the set-up: %1")
                  .arg(words::valves(through.without_spring)));
    }
    if (through.least && through.greatest) {
        const QString range =
            ShaftLoadCommands::tr("least %1, at %2; greatest %3, at %4 (looked at every %5)")
                .arg(words::spring_load(*through.least->load_N),
                     words::crank_degrees(through.least->at.in_deg()),
                     words::spring_load(*through.greatest->load_N),
                     words::crank_degrees(through.greatest->at.in_deg()),
                     words::crank_degrees(std::min(step_deg, look_deg)));
        print("  " + (through.known_everywhere
                          ? ShaftLoadCommands::tr("Through the cycle: %1").arg(range)
                          : ShaftLoadCommands::tr("Only where the load is known: %1").arg(range)));
    } else {
        print("  " + ShaftLoadCommands::tr("The load isn't known anywhere in the cycle."));
    }
    print_shaft_rows(through);
}

void print_shafts(const BuildInHand& hand, const std::vector<ShaftThroughCycle>& shafts,
                  double step_deg) {
    print_head(hand);
    print(ShaftLoadCommands::tr("What rests on each rocker shaft, by crank angle from cylinder 1 "
                                "firing; the engine turns %1.")
              .arg(words::turning(hand.engine.layout.turning)));
    for (const ShaftThroughCycle& through : shafts) {
        print_through(through, hand.engine.layout, step_deg);
    }
    if (shafts.empty()) {
        print(ShaftLoadCommands::tr("No rocker of this set-up sits on a shaft."));
    }
    print({});
    const std::vector<ValvePosition> missing = hand.engine.valves_without_train();
    if (!missing.empty()) {
        print(ShaftLoadCommands::tr("Not in the set-up: %1").arg(words::valves(missing)));
    }
    print(words::shaft_load_caution());
    print(words::caution("barring_over"));
}

/// `rodway shaft-load`: what rests on a rocker shaft through the cycle.
Shown show_shaft_load(const Options& options, const BuildInHand& hand) {
    const ShaftLoads loads(hand.engine);
    const auto asked = shafts_asked_for(loads.shafts(), hand.engine.layout, options.shaft);
    if (!asked) {
        return asked.error();
    }
    std::vector<ShaftThroughCycle> shafts;
    QJsonArray array;
    const std::vector<ValvePosition> missing = hand.engine.valves_without_train();
    bool all_answered = missing.empty();
    for (const std::size_t shaft : *asked) {
        const auto through = through_cycle(hand.engine, loads, shaft, options.step_deg);
        if (!through) {
            return through.error();
        }
        all_answered = all_answered && through->known_everywhere;
        shafts.push_back(*through);
        array.append(shaft_json(*through, hand.engine.layout));
    }
    if (options.json) {
        QJsonObject answer = head_json("rodway-shaft-load", hand);
        answer["turns"] = words::token(hand.engine.layout.turning);
        answer["step_deg"] = options.step_deg;
        answer["looked_at_every_deg"] = std::min(options.step_deg, look_deg);
        answer["shafts"] = array;
        answer["not_in_set_up"] = names(missing);
        print_json(answer);
    } else {
        print_shafts(hand, shafts, options.step_deg);
    }
    return all_answered ? ExitCode::done : ExitCode::no_answer;
}

} // namespace

void add_shaft_load_commands(CLI::App& program, CommandOutcome& outcome) {
    auto options = std::make_shared<Options>();
    const auto word = [](const QString& text) { return text.toStdString(); };
    auto* loads = program.add_subcommand(
        "shaft-load", word(ShaftLoadCommands::tr("What rests on each rocker shaft, by crank")));
    add_build_options(*loads, *options);
    loads->add_option("--shaft", options->shaft,
                      word(ShaftLoadCommands::tr("Only this one: the shaft's name, its bank's, or "
                                                 "both (left/front)")));
    loads->add_option("--step", options->step_deg,
                      word(ShaftLoadCommands::tr("Crank degrees from row to row (10)")));
    loads->callback([=, &outcome] {
        outcome.code = with_build(
            *options, [&](const BuildInHand& hand) { return show_shaft_load(*options, hand); });
    });
}

} // namespace rodway
