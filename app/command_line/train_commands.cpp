#include <QCoreApplication>
#include <QJsonArray>
#include <cmath>

#include "app/command_line/build_commands.h"
#include "app/command_line/commands.h"
#include "app/command_line/output.h"
#include "app/words/clearance_words.h"
#include "app/words/lengths.h"
#include "app/words/train_words.h"
#include "app/work/build_in_hand.h"
#include "core/loads/shaft_load.h"
#include "core/units/force.h"
#include "core/units/typed_text.h"
#include "core/valvetrain/adjuster_setting.h"
#include "core/valvetrain/train_motion.h"

namespace rodway {
namespace {

struct TrainCommands {
    Q_DECLARE_TR_FUNCTIONS(TrainCommands)
};

struct Options : BuildOptions {
    std::string valve;
    std::string turns;
};

QString plain(double value, int decimals) {
    return QString::number(value, 'f', decimals);
}

/// How hard the rod pushes its rocker along the shaft at full lift, newton, above zero towards the
/// rear; nothing if the valve's spring isn't known.
std::optional<double> side_load_N(const Engine& engine, const ShaftLoads& loads,
                                  const Train& train) {
    const auto rockers = loads.rockers_at(engine.full_lift_angle(train.position));
    if (!rockers) {
        return std::nullopt;
    }
    for (const RockerLoad& rocker : *rockers) {
        if (rocker.position == train.position && rocker.forces) {
            const Vec3& axis_K = train.rocker.axis_K;
            const double along = rocker.forces->rod_on_rocker_K.dot(axis_K);
            return axis_K.x() < 0.0 ? -along : along;
        }
    }
    return std::nullopt;
}

QString side_text(const TrainMotion& motion, const Train& train,
                  const std::optional<double>& load_N) {
    const double share =
        motion.full_lift->side_share * (train.rocker.axis_K.x() < 0.0 ? -1.0 : 1.0);
    const QString percent = QString("%1 %").arg(plain(100.0 * std::abs(share), 0));
    if (!load_N) {
        return percent;
    }
    return (share < 0.0 ? TrainCommands::tr("%1, %2 lbf to the front")
                        : TrainCommands::tr("%1, %2 lbf to the rear"))
        .arg(percent, plain(Force::N(std::abs(*load_N)).in_lbf(), 0));
}

QJsonObject motion_json(const TrainMotion& motion, const Train& train,
                        const std::optional<double>& side_N) {
    QJsonObject valve{{"valve", words::valve(train.position)},
                      {"status", words::token(motion.status)},
                      {"status_lobe_lift_in", inches_or_null(motion.trouble_at_mm)},
                      {"adjuster_needed_in", inches_or_null(motion.adjuster_needed_mm)}};
    if (motion.status != TrainStatus::answered) {
        return valve;
    }
    const Sweep& sweep = *motion.sweep;
    const bool hydraulic = train.lifter.kind == LifterKind::hydraulic;
    valve["lobe_lift_in"] = inches_of(motion.full_lift->lobe_lift_mm);
    valve["gross_lift_in"] = inches_of(motion.full_lift->gross_lift_mm);
    valve["net_lift_in"] = inches_of(motion.full_lift->net_lift_mm);
    valve["lash_in"] = inches_of(motion.lash_mm);
    valve["preload_in"] = hydraulic ? QJsonValue(inches_of(motion.preload_mm)) : QJsonValue();
    valve["adjuster_in_in"] = inches_of(motion.adjuster_in_mm);
    valve["ratio_on_heel"] = motion.on_heel->gross_ratio;
    valve["ratio_half_lift"] = motion.half_lift->gross_ratio;
    valve["ratio_full_lift"] = motion.full_lift->gross_ratio;
    valve["sweep_width_in"] = inches_of(sweep.width_mm());
    valve["sweep_middle_in"] =
        train.valve.tip_K ? QJsonValue(inches_of(sweep.middle_mm())) : QJsonValue();
    valve["sweep_turns_back_at_net_lift_in"] = inches_or_null(sweep.turns_back_at_net_lift_mm);
    valve["rod_to_adjuster_deg"] = degrees(motion.steepest_rod_to_adjuster_rad);
    valve["cup_room_deg"] =
        motion.cup_room_rad ? QJsonValue(degrees(*motion.cup_room_rad)) : QJsonValue();
    valve["side_share"] = motion.full_lift->side_share;
    valve["side_load_rearward_lbf"] =
        side_N ? QJsonValue(Force::N(*side_N).in_lbf()) : QJsonValue();
    valve["end_float_in"] = inches_of(train.rocker.end_float_mm);
    return valve;
}

void print_motion_row(const QString& valve, const QString& lobe, const QString& gross,
                      const QString& net, const QString& ratio, const QString& sweep,
                      const QString& cup, const QString& side) {
    print(QString("%1 %2 %3 %4  %5  %6 %7  %8")
              .arg(valve, -5)
              .arg(lobe, 9)
              .arg(gross, 9)
              .arg(net, 9)
              .arg(ratio, -18)
              .arg(sweep, 9)
              .arg(cup, 10)
              .arg(side, -26));
}

void print_motion(const TrainMotion& motion, const Train& train,
                  const std::optional<double>& side_N) {
    if (motion.status != TrainStatus::answered) {
        print(QString("%1 %2")
                  .arg(words::valve(train.position), -5)
                  .arg(words::train_status(motion.status, motion.trouble_at_mm,
                                           motion.adjuster_needed_mm)));
        return;
    }
    print_motion_row(
        words::valve(train.position), words::inches(motion.full_lift->lobe_lift_mm),
        words::inches(motion.full_lift->gross_lift_mm),
        words::inches(motion.full_lift->net_lift_mm),
        QString("%1 / %2 / %3")
            .arg(plain(motion.on_heel->gross_ratio, 2), plain(motion.half_lift->gross_ratio, 2),
                 plain(motion.full_lift->gross_ratio, 2)),
        words::inches(motion.sweep->width_mm()),
        words::crank_degrees(degrees(motion.steepest_rod_to_adjuster_rad)),
        side_text(motion, train, side_N));
}

/// `rodway trains`: lift, ratio, sweep and angles of every train (question 15).
Shown show_trains(const Options& options, const BuildInHand& hand) {
    QJsonArray valves;
    bool all_answered = true;
    if (!options.json) {
        print(
            TrainCommands::tr("%1: %2. Lash taken off in net lift; ratio on the heel, at half and "
                              "at full lobe lift. What you measure is less by what the train "
                              "bends.")
                .arg(QString::fromStdString(hand.build.name),
                     QString::fromStdString(hand.engine.layout.name)));
        print({});
        print_motion_row(TrainCommands::tr("Valve"), TrainCommands::tr("lobe"),
                         TrainCommands::tr("gross"), TrainCommands::tr("net"),
                         TrainCommands::tr("ratio"), TrainCommands::tr("sweep"),
                         TrainCommands::tr("rod/screw"), TrainCommands::tr("pushed along"));
    }
    const ShaftLoads loads(hand.engine);
    for (const Train& train : hand.engine.trains) {
        const TrainMotion motion =
            train_motion(train, hand.engine.lobes(train.position).lobe.full_lift_mm());
        all_answered = all_answered && motion.status == TrainStatus::answered;
        const auto side_N = side_load_N(hand.engine, loads, train);
        if (options.json) {
            valves.append(motion_json(motion, train, side_N));
        } else {
            print_motion(motion, train, side_N);
        }
    }
    if (options.json) {
        print_json({{"format", "rodway-trains"}, {"version", 1}, {"valves", valves}});
    }
    return all_answered ? ExitCode::done : ExitCode::no_answer;
}

/// Turns as a builder says them: "3/4", "1-1/2", "0.5", "-1/4".
Result<double> turns_of(const std::string& text) {
    const bool out = !text.empty() && text.front() == '-';
    // A fraction reads alike whether of an inch or of a turn.
    const auto read = parse_length((out ? text.substr(1) : text) + " in", BareNumber::inches);
    if (!read || read->is_interval() || read->low.in_inches() > 20.0) {
        return Error{ErrorCode::not_a_number, "--turns", text, {}, {}, {}};
    }
    return (out ? -1.0 : 1.0) * read->low.in_inches();
}

QString adjuster_result(const Train& train, const AdjusterTurned& turned) {
    if (turned.preload_mm) {
        return TrainCommands::tr("Preload: %1, was %2.")
            .arg(words::inches(*turned.preload_mm), words::inches(train.lifter.preload_mm));
    }
    return *turned.lash_mm < 0.0
               ? TrainCommands::tr("No lash is left: the valve is held open by %1.")
                     .arg(words::inches(-*turned.lash_mm))
               : TrainCommands::tr("Lash: %1, was %2.")
                     .arg(words::inches(*turned.lash_mm), words::inches(train.valve.lash_mm));
}

/// `rodway turn-adjuster`: what so many turns do to lash or preload (question 11).
Shown show_adjuster(const Options& options, const BuildInHand& hand) {
    const auto valve = parse_position(options.valve);
    const auto turns = turns_of(options.turns);
    if (!valve || !turns) {
        return !valve ? valve.error() : turns.error();
    }
    const Train* train = hand.engine.train(*valve);
    if (!train) {
        return Error{ErrorCode::valve_unknown, "valve", options.valve, {}, {}, {}};
    }
    const std::string path = "trains/" + position_name(*valve) + "/adjuster/pitch";
    if (!train->adjuster.pitch_mm) {
        return Error{ErrorCode::missing_field, path, {}, {}, {}, {}};
    }
    const double in = *turns * *train->adjuster.pitch_mm;
    const AdjusterTurned turned = turn_adjuster(*train, in);
    const bool answered = turned.status == TrainStatus::answered;
    if (options.json) {
        print_json({{"format", "rodway-turn-adjuster"},
                    {"version", 1},
                    {"valve", words::valve(*valve)},
                    {"status", words::token(turned.status)},
                    {"turns", *turns},
                    {"adjuster_in_in", inches_of(in)},
                    {"lash_in", inches_or_null(turned.lash_mm)},
                    {"preload_in", inches_or_null(turned.preload_mm)}});
    } else if (!answered) {
        print(words::train_status(turned.status, {}, {}));
    } else {
        print(TrainCommands::tr("%1: %2 turns move the adjuster %3 from where it is set.")
                  .arg(words::valve(*valve), QString::fromStdString(options.turns),
                       words::signed_inches(in)));
        print(adjuster_result(*train, turned));
    }
    return answered ? ExitCode::done : ExitCode::no_answer;
}

} // namespace

void add_train_commands(CLI::App& program, CommandOutcome& outcome) {
    auto options = std::make_shared<Options>();
    const auto word = [](const QString& text) { return text.toStdString(); };
    const auto begin = [&](const char* name, const QString& what) {
        auto* command = program.add_subcommand(name, what.toStdString());
        add_build_options(*command, *options);
        return command;
    };
    auto* trains = begin("trains", TrainCommands::tr("Lift, ratio, sweep and angles of every "
                                                     "train"));
    trains->callback([=, &outcome] {
        outcome.code = with_build(
            *options, [&](const BuildInHand& hand) { return show_trains(*options, hand); });
    });

    auto* adjuster = begin("turn-adjuster",
                           TrainCommands::tr("What turning an adjuster does to lash or preload"));
    adjuster->add_option("valve", options->valve, word(TrainCommands::tr("Valve, such as 3I")))
        ->required();
    adjuster
        ->add_option("--turns", options->turns,
                     word(TrainCommands::tr("Turns in: 3/4, 1-1/2; a minus turns out")))
        ->required();
    adjuster->callback([=, &outcome] {
        outcome.code = with_build(
            *options, [&](const BuildInHand& hand) { return show_adjuster(*options, hand); });
    });
}

} // namespace rodway
