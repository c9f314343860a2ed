#include <QCoreApplication>
#include <set>

#include "app/command_line/build_commands.h"
#include "app/command_line/cam_options.h"
#include "app/command_line/commands.h"
#include "app/words/clearance_words.h"
#include "app/words/lengths.h"
#include "app/words/timing_words.h"
#include "core/piston/piston_to_valve.h"

namespace rodway {
namespace {

struct PistonCommands {
    Q_DECLARE_TR_FUNCTIONS(PistonCommands)
};

struct Options : BuildOptions {
    std::string advance;
    bool aluminium_rods = false;
};

constexpr double intake_closing_lobe_lift_mm = 1.27;

/// One valve with the cam where it stands and, if asked for, moved.
struct OverPiston {
    ValvePosition valve;
    double limit_mm = 0.0;
    PistonToValve present;
    std::optional<PistonToValve> moved;
    std::optional<CrankAngle> closes; ///< intake, after bottom dead centre
    std::optional<CrankAngle> closes_moved;
};

/// Below its limit or not; empty where drops don't tell.
std::optional<bool> below(const std::optional<double>& least_mm,
                          const std::optional<double>& at_most_mm, double limit_mm) {
    if (at_most_mm && *at_most_mm < limit_mm) {
        return true;
    }
    return least_mm ? std::optional(*least_mm < limit_mm) : std::nullopt;
}

QJsonObject place_json(const PistonToValve& at, const std::optional<CrankAngle>& closes,
                       double limit_mm) {
    const auto is_below = below(at.least_mm, at.at_most_mm, limit_mm);
    return {{"status", words::token(at.status)},
            {"least_in", inches_or_null(at.least_mm)},
            {"at_most_in", inches_or_null(at.at_most_mm)},
            {"after_overlap_crank_deg", degrees_or_null(at.after_overlap)},
            {"valve_lift_in", inches_or_null(at.valve_lift_mm)},
            {"drop_in", inches_or_null(at.drop_mm)},
            {"drop_wanted_before", at.drop_wanted_before},
            {"drop_wanted_after", at.drop_wanted_after},
            {"below_limit", is_below ? QJsonValue(*is_below) : QJsonValue()},
            {"intake_closes_abdc_crank_deg", degrees_or_null(closes)}};
}

QJsonObject piston_json(const OverPiston& line, const PistonToValveLimits& limits) {
    const auto& gap = line.present.radial_gap_mm;
    return {
        {"valve", words::valve(line.valve)},
        {"limit_in", inches_of(line.limit_mm)},
        {"radial_gap_in", inches_or_null(gap)},
        {"radial_below_limit", gap ? QJsonValue(*gap < limits.radial_mm) : QJsonValue()},
        {"present", place_json(line.present, line.closes, line.limit_mm)},
        {"moved", line.moved ? QJsonValue(place_json(*line.moved, line.closes_moved, line.limit_mm))
                             : QJsonValue()}};
}

QString place_text(const PistonToValve& at, double limit_mm) {
    const auto is_below = below(at.least_mm, at.at_most_mm, limit_mm);
    QString text = words::piston_status(at);
    if (at.least_mm && at.after_overlap) {
        text = PistonCommands::tr("%1 at %2")
                   .arg(words::both_units(*at.least_mm), words::about_overlap(*at.after_overlap));
    }
    if (!is_below) {
        return text;
    }
    if (*is_below && at.at_most_mm.value_or(0.0) < 0.0) {
        return PistonCommands::tr("%1 VALVE AND PISTON MEET.").arg(text + (at.least_mm ? "." : ""));
    }
    return *is_below ? PistonCommands::tr("%1 BELOW the limit of %2.")
                           .arg(text + (at.least_mm ? "," : ""), words::inches(limit_mm))
                     : PistonCommands::tr("%1, clears the limit of %2.")
                           .arg(text, words::inches(limit_mm));
}

void print_over_piston(const OverPiston& line, const std::optional<double>& by,
                       const PistonToValveLimits& limits) {
    print(QString("%1 %2")
              .arg(words::valve(line.valve), -4)
              .arg(place_text(line.present, line.limit_mm)));
    if (line.moved && by) {
        print("     " + PistonCommands::tr("Moved by %1: %2")
                            .arg(words::advance(*by), place_text(*line.moved, line.limit_mm)));
    }
    if (line.closes && line.closes_moved) {
        print("     " +
              PistonCommands::tr("Intake closes %1, moved %2 (at %3 of lobe lift).")
                  .arg(words::cam_event(CamEvent::intake_closes, line.closes->in_deg()),
                       words::cam_event(CamEvent::intake_closes, line.closes_moved->in_deg()),
                       words::size(intake_closing_lobe_lift_mm)));
    }
    if (const auto& gap = line.present.radial_gap_mm) {
        print("     " + (*gap < limits.radial_mm
                             ? PistonCommands::tr("Beside the head %1, BELOW the limit of %2.")
                             : PistonCommands::tr("Beside the head %1, clears the limit of %2."))
                            .arg(words::inches(*gap), words::inches(limits.radial_mm)));
    }
}

Result<OverPiston> over_piston(const Engine& engine, const ValvePosition& valve, double limit_mm,
                               const std::optional<double>& by) {
    const auto present = piston_to_valve(engine, valve);
    if (!present) {
        return present.error();
    }
    OverPiston line{valve, limit_mm, *present, {}, {}, {}};
    line.closes = intake_closes_after_bottom(engine, valve, intake_closing_lobe_lift_mm);
    if (by) {
        const auto moved = piston_to_valve(engine, valve, CrankAngle::deg(*by));
        if (!moved) {
            return moved.error();
        }
        line.moved = *moved;
        line.closes_moved = intake_closes_after_bottom(engine, valve, intake_closing_lobe_lift_mm,
                                                       CrankAngle::deg(*by));
    }
    return line;
}

/// Valves that the set-up has drops of, and those that it has none of.
void sort_by_drops(const Engine& engine, std::vector<ValvePosition>& with, QStringList& without) {
    std::set<ValvePosition> valves;
    for (const Train& train : engine.trains) {
        valves.insert(train.position);
    }
    for (const auto& [valve, drops] : engine.valve_drops) {
        valves.insert(valve);
    }
    for (const ValvePosition& valve : valves) {
        if (engine.valve_drops.contains(valve)) {
            with.push_back(valve);
        } else {
            without << words::valve(valve);
        }
    }
}

void print_pistons(const BuildInHand& hand, const std::vector<OverPiston>& lines,
                   const QStringList& without, const std::optional<double>& by,
                   const PistonToValveLimits& limits) {
    print_head(hand);
    print(PistonCommands::tr("Least clearance of valve and piston, along the valve's axis:"));
    for (const OverPiston& line : lines) {
        print_over_piston(line, by, limits);
    }
    if (!without.isEmpty()) {
        print(PistonCommands::tr("No drops, so not checked: %1").arg(without.join(", ")));
    }
    print(words::piston_caution());
}

Shown show_pistons(const Options& options, const BuildInHand& hand) {
    const auto by = typed_advance(options.advance);
    if (!by) {
        return by.error();
    }
    const PistonToValveLimits limits;
    std::vector<ValvePosition> with;
    QStringList without;
    sort_by_drops(hand.engine, with, without);
    std::vector<OverPiston> lines;
    QJsonArray entries;
    bool all_answered = !with.empty();
    for (const ValvePosition& valve : with) {
        const auto line = over_piston(
            hand.engine, valve, limits.along_valve_mm(valve.kind, options.aluminium_rods), *by);
        if (!line) {
            return line.error();
        }
        all_answered = all_answered && line->present.least_mm.has_value() &&
                       (!line->moved || line->moved->least_mm.has_value());
        lines.push_back(*line);
        entries.append(piston_json(*line, limits));
    }
    if (options.json) {
        QJsonObject answer = head_json("rodway-piston-to-valve", hand);
        answer["moved_by_crank_deg"] = number_or_null(*by);
        answer["aluminium_rods"] = options.aluminium_rods;
        answer["lash"] = "as_set";
        answer["limits_from"] = "common_practice";
        answer["radial_limit_in"] = inches_of(limits.radial_mm);
        answer["intake_closing_lobe_lift_in"] = inches_of(intake_closing_lobe_lift_mm);
        answer["no_drops"] = QJsonArray::fromStringList(without);
        answer["valves"] = entries;
        print_json(answer);
    } else {
        print_pistons(hand, lines, without, *by, limits);
    }
    return all_answered ? ExitCode::done : ExitCode::no_answer;
}

} // namespace

void add_piston_commands(CLI::App& program, CommandOutcome& outcome) {
    auto options = std::make_shared<Options>();
    auto* pistons = program.add_subcommand(
        "piston-to-valve",
        PistonCommands::tr("Least clearance of valves and pistons").toStdString());
    add_build_options(*pistons, *options);
    add_advance_option(*pistons, options->advance);
    pistons->add_flag(
        "--aluminium-rods", options->aluminium_rods,
        PistonCommands::tr("Connecting rods are aluminium: 0.030 in more").toStdString());
    pistons->callback([=, &outcome] {
        outcome.code = with_build(
            *options, [&](const BuildInHand& hand) { return show_pistons(*options, hand); });
    });
}

} // namespace rodway
