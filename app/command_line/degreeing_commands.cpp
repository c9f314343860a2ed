#include <QCoreApplication>

#include "app/command_line/build_commands.h"
#include "app/command_line/cam_options.h"
#include "app/command_line/commands.h"
#include "app/words/clearance_words.h"
#include "app/words/lengths.h"
#include "app/words/timing_words.h"
#include "core/cam/degreeing.h"
#include "core/cam/typed_timing.h"
#include "core/units/typed_text.h"

namespace rodway {
namespace {

struct DegreeingCommands {
    Q_DECLARE_TR_FUNCTIONS(DegreeingCommands)
};

struct Options : BuildOptions {
    std::string lift = ".050";
    std::string tolerance;
    std::vector<std::string> stops;
    std::vector<std::string> readings;
};

struct Reading {
    ValvePosition valve;
    WheelReading marks;
};

/// Reads "1I=20 BTDC,60 ABDC"; with decimal commas a semicolon stands between the two marks.
Result<Reading> read_reading(const std::string& text) {
    const Error unread{ErrorCode::not_an_angle, "--reading", text, "1I=20 BTDC,60 ABDC", {}, {}};
    const auto equals = text.find('=');
    if (equals == std::string::npos) {
        return unread;
    }
    const auto valve = parse_position(text.substr(0, equals));
    if (!valve) {
        return in_field(valve.error(), "--reading");
    }
    const std::string marks = text.substr(equals + 1);
    const char between = marks.find(';') != std::string::npos ? ';' : ',';
    const auto comma = marks.find(between);
    if (comma == std::string::npos || marks.find(between, comma + 1) != std::string::npos) {
        return unread;
    }
    const auto opening = parse_wheel_mark(marks.substr(0, comma));
    const auto closing = parse_wheel_mark(marks.substr(comma + 1));
    if (!opening || !closing) {
        return in_field(!opening ? opening.error() : closing.error(), "--reading");
    }
    return Reading{*valve,
                   {valve->kind, CentrelineMethod::off_the_heel, opening->deg, closing->deg}};
}

Result<TrueTopDeadCentre> top_dead_centre(const Options& options) {
    std::vector<double> marks;
    for (const std::string& stop : options.stops) {
        const auto mark = parse_wheel_mark(stop);
        if (!mark) {
            return in_field(mark.error(), "--stop");
        }
        marks.push_back(mark->deg);
    }
    if (marks.size() != 2) {
        return Error{ErrorCode::too_few_rows, "--stop", std::to_string(marks.size()), "2", {}, {}};
    }
    const auto centre = true_top_dead_centre(marks[0], marks[1]);
    return centre ? centre : in_field(centre.error(), "--stop");
}

/// One valve as found and as the set-up has it.
struct Degreed {
    Reading reading;
    FoundCentreline found;
    ValveTiming wanted;
    std::optional<CamStanding> standing; ///< empty if the set-up has no such centreline
};

Result<Degreed> degreed(const Engine& engine, const std::string& text,
                        const TrueTopDeadCentre& centre, const CheckingLift& checking) {
    const auto reading = read_reading(text);
    if (!reading) {
        return reading.error();
    }
    if (reading->valve.which != 1 && !engine.train(reading->valve)) {
        return Error{
            ErrorCode::valve_unknown, "--reading", position_name(reading->valve), {}, {}, {}};
    }
    const auto wanted = valve_timing(engine, reading->valve, checking);
    if (!wanted) {
        const bool lift = wanted.error().field == "checking_lift";
        return in_field(wanted.error(), lift ? "--at" : "--reading");
    }
    const auto found = found_centreline(reading->marks, centre);
    if (!found) {
        return in_field(found.error(),
                        "--reading " + position_name(reading->valve) + " " + found.error().field);
    }
    Degreed valve{*reading, *found, *wanted, {}};
    if (wanted->centreline_off_the_heel_crank_deg) {
        const auto standing = cam_standing(*found, *wanted->centreline_off_the_heel_crank_deg);
        if (!standing) {
            return in_field(standing.error(), position_name(reading->valve));
        }
        valve.standing = *standing;
    }
    return valve;
}

QJsonObject degreed_json(const Degreed& valve, const std::optional<DegreeingFindings>& findings) {
    const auto standing = [&](double CamStanding::*figure) {
        return valve.standing ? QJsonValue(*valve.standing.*figure) : QJsonValue();
    };
    const ValveEvents events = valve.found.events.value_or(ValveEvents());
    const auto of_events = [&](double value) {
        return valve.found.events ? QJsonValue(value) : QJsonValue();
    };
    QJsonObject object{{"valve", words::valve(valve.reading.valve)},
                       {"status", words::token(valve.wanted.status)},
                       {"estimated", valve.wanted.estimated},
                       {"opening_mark_deg", valve.reading.marks.opening_mark_deg},
                       {"closing_mark_deg", valve.reading.marks.closing_mark_deg},
                       {"opens_before_dead_centre_crank_deg", of_events(events.opens_crank_deg)},
                       {"closes_after_dead_centre_crank_deg", of_events(events.closes_crank_deg)},
                       {"duration_crank_deg", valve.found.between_marks_crank_deg},
                       {"set_up_duration_crank_deg",
                        valve.wanted.events ? QJsonValue(valve.wanted.events->duration_crank_deg())
                                            : QJsonValue()},
                       {"centreline_crank_deg", valve.found.centreline_crank_deg},
                       {"set_up_centreline_crank_deg",
                        number_or_null(valve.wanted.centreline_off_the_heel_crank_deg)},
                       {"advance_crank_deg", standing(&CamStanding::advanced_crank_deg)},
                       {"turn_crank_deg", standing(&CamStanding::turn_crank_deg)},
                       {"turn_cam_deg", standing(&CamStanding::turn_cam_deg)},
                       {"own_crank_deg", QJsonValue()},
                       {"off", QJsonValue()}};
    for (const ValveDeparture& departure :
         findings ? findings->valves : std::vector<ValveDeparture>()) {
        if (departure.valve == valve.reading.valve) {
            object["own_crank_deg"] = departure.own_crank_deg;
            object["off"] = departure.off;
        }
    }
    return object;
}

void print_degreed(const Degreed& valve) {
    const QString side = valve.found.kind == ValveKind::intake ? "ATDC" : "BTDC";
    QString line = DegreeingCommands::tr("%1: centreline %2 %3, duration %4")
                       .arg(words::valve(valve.reading.valve),
                            words::crank_degrees(valve.found.centreline_crank_deg), side,
                            words::crank_degrees(valve.found.between_marks_crank_deg));
    if (valve.standing && valve.wanted.events) {
        line = DegreeingCommands::tr("%1; set-up %2 %3, duration %4: %5")
                   .arg(line, words::crank_degrees(*valve.wanted.centreline_off_the_heel_crank_deg),
                        side, words::crank_degrees(valve.wanted.events->duration_crank_deg()),
                        words::advance(valve.standing->advanced_crank_deg));
    } else {
        line = DegreeingCommands::tr("%1; nothing to compare with. %2")
                   .arg(line, words::timing_status(valve.wanted));
    }
    print(valve.wanted.estimated
              ? DegreeingCommands::tr("%1 (%2)").arg(line, words::estimated_lobe())
              : line);
}

void print_degreeing(const BuildInHand& hand, const CheckingLift& checking,
                     const TrueTopDeadCentre& centre, const std::vector<Degreed>& valves,
                     const std::optional<DegreeingFindings>& findings) {
    print_head(hand);
    print(DegreeingCommands::tr(
              "True top dead centre is at %1 on the wheel; add %2 to every mark. The "
              "stop held the piston %3 either side of it.")
              .arg(words::crank_degrees(centre.mark_deg), words::crank_degrees(-centre.mark_deg),
                   words::crank_degrees(centre.stop_deg)));
    print(DegreeingCommands::tr("Centrelines off the heel, at %1 of lobe lift:")
              .arg(words::size(checking.lift_mm)));
    for (const Degreed& valve : valves) {
        print_degreed(valve);
    }
    if (findings) {
        for (const DegreeingFinding finding : findings->findings) {
            print(words::finding(finding, *findings));
        }
    }
    print(words::degreeing_caution());
}

QJsonObject degreeing_json(const BuildInHand& hand, const CheckingLift& checking,
                           const TrueTopDeadCentre& centre, const std::vector<Degreed>& valves,
                           double tolerance_deg, const std::optional<DegreeingFindings>& findings) {
    QJsonArray entries;
    for (const Degreed& valve : valves) {
        entries.append(degreed_json(valve, findings));
    }
    QJsonArray found;
    for (const DegreeingFinding finding :
         findings ? findings->findings : std::vector<DegreeingFinding>()) {
        found.append(words::token(finding));
    }
    QJsonObject answer = head_json("rodway-degree-in", hand);
    answer["checking_lift_in"] = inches_of(checking.lift_mm);
    answer["tolerance_crank_deg"] = tolerance_deg;
    answer["true_top_dead_centre_mark_deg"] = centre.mark_deg;
    answer["stop_crank_deg"] = centre.stop_deg;
    answer["valves"] = entries;
    answer["findings"] = found;
    answer["common_advance_crank_deg"] =
        findings ? QJsonValue(findings->common_advanced_crank_deg) : QJsonValue();
    answer["lobe_separation_error_cam_deg"] =
        findings ? number_or_null(findings->lobe_separation_error_cam_deg) : QJsonValue();
    answer["spread_crank_deg"] = findings ? QJsonValue(findings->spread_crank_deg) : QJsonValue();
    return answer;
}

Shown degree_in(const Options& options, const BuildInHand& hand) {
    const auto checking = checking_lift(options.lift, LiftOf::lobe);
    const auto centre = top_dead_centre(options);
    const auto tolerance = options.tolerance.empty() ? Result<double>(usual_wheel_doubt_crank_deg)
                                                     : parse_number(options.tolerance);
    if (!checking || !centre) {
        return !checking ? checking.error() : centre.error();
    }
    if (!tolerance) {
        return in_field(tolerance.error(), "--tolerance");
    }
    std::vector<Degreed> valves;
    std::vector<DegreedValve> compared;
    for (const std::string& text : options.readings) {
        const auto valve = degreed(hand.engine, text, *centre, *checking);
        if (!valve) {
            return valve.error();
        }
        valves.push_back(*valve);
        if (valve->standing) {
            compared.push_back({valve->reading.valve, valve->standing->advanced_crank_deg});
        }
    }
    std::optional<DegreeingFindings> findings;
    if (!compared.empty()) {
        const auto concluded = degreeing_findings(compared, *tolerance);
        if (!concluded) {
            return concluded.error();
        }
        findings = *concluded;
    }
    if (options.json) {
        print_json(degreeing_json(hand, *checking, *centre, valves, *tolerance, findings));
    } else {
        print_degreeing(hand, *checking, *centre, valves, findings);
    }
    return compared.size() == valves.size() ? ExitCode::done : ExitCode::no_answer;
}

} // namespace

void add_degreeing_commands(CLI::App& program, CommandOutcome& outcome) {
    auto options = std::make_shared<Options>();
    const auto word = [](const QString& text) { return text.toStdString(); };
    auto* command = program.add_subcommand(
        "degree-in",
        word(DegreeingCommands::tr("Where the cam stands, from marks on a degree wheel")));
    add_build_options(*command, *options);
    command
        ->add_option(
            "--stop", options->stops,
            word(DegreeingCommands::tr("Mark where the piston meets the stop; once for each "
                                       "way round")))
        ->required()
        ->allow_extra_args(false);
    command
        ->add_option("--reading", options->readings,
                     word(DegreeingCommands::tr("A valve's two marks: 1I=2 BTDC,41 ABDC (with a "
                                                "decimal comma put ; between them)")))
        ->required()
        ->allow_extra_args(false);
    command->add_option("--at", options->lift,
                        word(DegreeingCommands::tr("Lobe lift of the marks (.050, 1 mm)")));
    command->add_option("--tolerance", options->tolerance,
                        word(DegreeingCommands::tr("Crank degrees that a reading may be off (1)")));
    command->callback([=, &outcome] {
        outcome.code = with_build(
            *options, [&](const BuildInHand& hand) { return degree_in(*options, hand); });
    });
}

} // namespace rodway
