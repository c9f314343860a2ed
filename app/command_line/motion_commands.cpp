#include <QCoreApplication>
#include <QJsonArray>

#include "app/command_line/build_commands.h"
#include "app/command_line/commands.h"
#include "app/words/clearance_words.h"
#include "app/words/hot_words.h"
#include "app/words/lengths.h"
#include "app/words/motion_words.h"
#include "app/words/spring_words.h"
#include "app/words/stated_words.h"
#include "core/engine/hot_fields.h"
#include "core/engine/running_fields.h"
#include "core/units/force.h"

namespace rodway {
namespace {

struct MotionCommands {
    Q_DECLARE_TR_FUNCTIONS(MotionCommands)
};

QJsonValue lbf_or_null(const std::optional<double>& load_N) {
    return number_or_null(load_N ? std::optional(Force::N(*load_N).in_lbf()) : std::nullopt);
}

QJsonValue verdict_or_null(const std::optional<Verdict>& verdict) {
    return verdict ? QJsonValue(words::token(*verdict)) : QJsonValue();
}

QJsonValue range_json(const std::optional<Interval>& range_mm) {
    return range_mm ? QJsonValue(QJsonArray{inches_of(range_mm->low), inches_of(range_mm->high)})
                    : QJsonValue();
}

QJsonObject place_json(const RunningPlace& place) {
    QJsonObject json{{"left_in", inches_of(place.left.clearance_mm)},
                     {"at_crank_deg", degrees_or_null(place.at)},
                     {"feature", QString::fromStdString(place.left.feature)},
                     {"bow_in", inches_of(place.bow_mm)},
                     {"load_lbf", lbf_or_null(place.load_N)}};
    if (place.left.in_passage) {
        json["wall"] = words::token(place.left.in_passage->wall);
        json["end"] = words::token(place.left.in_passage->end);
    }
    return json;
}

QJsonValue place_or_null(const std::optional<RunningPlace>& place) {
    return place ? QJsonValue(place_json(*place)) : QJsonValue();
}

QJsonObject motion_json(const ValveInMotion& valve) {
    return {{"valve", words::valve(valve.valve)},
            {"status", words::token(valve.status)},
            {"train", words::token(valve.train)},
            {"missing", array_of(valve.missing)},
            {"missing_for_inertia", array_of(valve.missing_for_inertia)},
            {"critical_load_lbf", lbf_or_null(valve.critical_N)},
            {"greatest_load_lbf", lbf_or_null(valve.greatest_N)},
            {"least_load_lbf", lbf_or_null(valve.least_N)},
            {"bow_at_rest_in", inches_or_null(valve.bow_rest_mm)},
            {"bow_most_in", inches_or_null(valve.bow_most_mm)},
            {"open", place_or_null(valve.open)},
            {"shut", place_or_null(valve.shut)},
            {"doubt_in", inches_or_null(valve.doubt_mm)},
            {"verdict", verdict_or_null(valve.verdict)}};
}

void print_motion_row(const QString& valve, const QString& load, const QString& of_critical,
                      const QString& bow, const QString& left, const QString& when,
                      const QString& verdict) {
    print(QString("%1 %2 %3 %4 %5  %6 %7")
              .arg(valve, -5)
              .arg(load, 9)
              .arg(of_critical, 11)
              .arg(bow, 9)
              .arg(left, 9)
              .arg(when, -12)
              .arg(verdict));
}

/// `rodway in-motion`: what clearance bowed rods have left under the load of a running engine.
Shown show_motion(const BuildOptions& options, const BuildInHand& hand) {
    const auto stated = read_running(hand.set_up.fields, hand.engine);
    if (!stated) {
        return stated.error();
    }
    const auto valves = running_clearances(hand.engine, *stated);
    if (!valves) {
        return valves.error();
    }
    if (options.json) {
        QJsonObject answer = head_json("rodway-in-motion", hand);
        answer["crank_rpm"] = number_or_null(stated->crank_rpm);
        answer["limit_in"] = inches_of(hand.engine.rod_clearance_limit_mm);
        QJsonArray lines;
        for (const ValveInMotion& valve : *valves) {
            lines.append(motion_json(valve));
        }
        answer["valves"] = lines;
        print_json(answer);
        return ExitCode::done;
    }
    print_head(hand);
    print(words::motion(*valves, *stated));
    print({});
    print_motion_row(MotionCommands::tr("Valve"), MotionCommands::tr("load"),
                     MotionCommands::tr("of critical"), MotionCommands::tr("bow"),
                     MotionCommands::tr("left"), MotionCommands::tr("when"),
                     MotionCommands::tr("verdict"));
    const QString none = MotionCommands::tr("–");
    for (const ValveInMotion& valve : *valves) {
        const RunningPlace* least = valve.least();
        print_motion_row(words::valve(valve.valve),
                         valve.greatest_N ? words::spring_load(*valve.greatest_N) : none,
                         words::load_share(valve),
                         valve.bow_most_mm ? words::inches(*valve.bow_most_mm) : none,
                         least ? words::inches(least->left.clearance_mm) : none,
                         least ? words::motion_at(*least) : none, words::motion_verdict(valve));
    }
    return ExitCode::done;
}

QJsonObject hot_json(const HotClearance& valve) {
    QJsonObject json{{"valve", words::valve(valve.valve)},
                     {"status", words::token(valve.status)},
                     {"cold_lash_in", inches_or_null(valve.cold_lash_mm)},
                     {"hot_lash_in", range_json(valve.hot_lash_mm)},
                     {"cold_in", inches_or_null(valve.cold ? std::optional(valve.cold->clearance_mm)
                                                           : std::nullopt)},
                     {"hot_in", inches_or_null(valve.hot ? std::optional(valve.hot->clearance_mm)
                                                         : std::nullopt)},
                     {"hot_range_in", range_json(valve.hot_least_mm)},
                     {"doubt_in", inches_or_null(valve.doubt_mm)},
                     {"verdict", verdict_or_null(valve.verdict)}};
    if (valve.hot) {
        json["feature"] = QString::fromStdString(valve.hot->feature);
    }
    return json;
}

QJsonObject part_json(const PartGrowth& part) {
    return {{"part", hot_part_name(part.part)},
            {"metal", part.metal ? QJsonValue(words::token(*part.metal)) : QJsonValue()},
            {"ppm_K", QJsonArray{1e6 * part.expansion_per_K.low, 1e6 * part.expansion_per_K.high}},
            {"warmed_K", part.warmed_K}};
}

QJsonObject hot_answer(const BuildInHand& hand, const HotStated& stated, const HotAndCold& found) {
    QJsonObject answer = head_json("rodway-hot-and-cold", hand);
    answer["cold_degC"] = stated.cold_degC;
    answer["limit_in"] = inches_of(hand.engine.rod_clearance_limit_mm);
    answer["missing"] = array_of(found.missing);
    QJsonArray parts;
    for (const PartGrowth& part : found.parts) {
        parts.append(part_json(part));
    }
    answer["parts"] = parts;
    QJsonArray valves;
    for (const HotClearance& valve : found.valves) {
        valves.append(hot_json(valve));
    }
    answer["valves"] = valves;
    return answer;
}

void print_hot_row(const QString& valve, const QString& cold_lash, const QString& hot_lash,
                   const QString& cold, const QString& hot, const QString& verdict) {
    print(QString("%1 %2  %3 %4  %5 %6")
              .arg(valve, -5)
              .arg(cold_lash, 9)
              .arg(hot_lash, -17)
              .arg(cold, 9)
              .arg(hot, -17)
              .arg(verdict));
}

/// `rodway hot-and-cold`: what lash and clearances become as the engine warms.
Shown show_hot(const BuildOptions& options, const BuildInHand& hand) {
    const auto stated = read_hot(hand.set_up.fields, hand.engine);
    if (!stated) {
        return stated.error();
    }
    const auto found = hot_and_cold(hand.engine, *stated);
    if (!found) {
        return found.error();
    }
    if (options.json) {
        print_json(hot_answer(hand, *stated, *found));
        return ExitCode::done;
    }
    print_head(hand);
    print(words::hot_and_cold(*found, stated->cold_degC));
    for (const PartGrowth& part : found->parts) {
        print(QString("    %1 %2")
                  .arg(words::hot_part(part.part), -14)
                  .arg(words::part_growth(part, stated->cold_degC)));
    }
    if (found->valves.empty()) {
        return ExitCode::done;
    }
    print({});
    print_hot_row(MotionCommands::tr("Valve"), MotionCommands::tr("lash"),
                  MotionCommands::tr("lash hot"), MotionCommands::tr("cold"),
                  MotionCommands::tr("hot"), MotionCommands::tr("verdict hot"));
    const QString none = MotionCommands::tr("–");
    for (const HotClearance& valve : found->valves) {
        print_hot_row(words::valve(valve.valve),
                      valve.cold_lash_mm ? words::inches(*valve.cold_lash_mm) : none,
                      words::hot_range(valve.hot_lash_mm),
                      valve.cold ? words::inches(valve.cold->clearance_mm) : none,
                      words::hot_range(valve.hot_least_mm), words::hot_verdict(valve));
    }
    return ExitCode::done;
}

} // namespace

void add_motion_commands(CLI::App& program, CommandOutcome& outcome) {
    const auto word = [](const QString& text) { return text.toStdString(); };
    const auto add = [&](const char* name, const QString& about,
                         Shown (*show)(const BuildOptions&, const BuildInHand&)) {
        auto options = std::make_shared<BuildOptions>();
        auto* command = program.add_subcommand(name, word(about));
        add_build_options(*command, *options);
        command->callback([options, show, &outcome] {
            outcome.code =
                with_build(*options, [&](const BuildInHand& hand) { return show(*options, hand); });
        });
    };
    add("in-motion",
        MotionCommands::tr("What clearance bowed rods have left under the load of a running "
                           "engine"),
        show_motion);
    add("hot-and-cold", MotionCommands::tr("What lash and clearances become as the engine warms"),
        show_hot);
}

} // namespace rodway
