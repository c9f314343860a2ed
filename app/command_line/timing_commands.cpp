#include <QCoreApplication>
#include <algorithm>
#include <cmath>

#include "app/command_line/build_commands.h"
#include "app/command_line/cam_options.h"
#include "app/command_line/commands.h"
#include "app/words/clearance_words.h"
#include "app/words/lengths.h"
#include "app/words/timing_words.h"

namespace rodway {
namespace {

struct TimingCommands {
    Q_DECLARE_TR_FUNCTIONS(TimingCommands)
};

struct Options : BuildOptions {
    std::string lift = ".050";
    bool at_valve = false;
};

/// Cylinders are alike where their angles differ by no more.
constexpr double alike_deg = 0.01;

bool alike(const std::optional<double>& one, const std::optional<double>& other) {
    return one && other ? std::abs(*one - *other) <= alike_deg
                        : one.has_value() == other.has_value();
}

bool alike(const ValveTiming& one, const ValveTiming& other) {
    const bool events =
        one.events && other.events
            ? alike(one.events->opens_crank_deg, other.events->opens_crank_deg) &&
                  alike(one.events->closes_crank_deg, other.events->closes_crank_deg)
            : one.events.has_value() == other.events.has_value();
    return events && one.status == other.status && one.train == other.train &&
           one.estimated == other.estimated &&
           alike(one.centreline_at_full_lift_crank_deg, other.centreline_at_full_lift_crank_deg) &&
           alike(one.centreline_below_the_peak_crank_deg,
                 other.centreline_below_the_peak_crank_deg);
}

bool alike(const CylinderTiming& one, const CylinderTiming& other) {
    return alike(one.intake, other.intake) && alike(one.exhaust, other.exhaust);
}

QJsonObject valve_json(const ValveTiming& timing) {
    const auto& events = timing.events;
    const auto of_events = [&](double value) { return events ? QJsonValue(value) : QJsonValue(); };
    const ValveEvents known = events.value_or(ValveEvents());
    const bool no_close = timing.status == TimingStatus::train_does_not_close;
    return {
        {"status", words::token(timing.status)},
        {"train_status", no_close ? QJsonValue(words::token(timing.train)) : QJsonValue()},
        {"estimated", timing.estimated},
        {"lobe_lift_in", inches_or_null(timing.lobe_lift_mm)},
        {"opens_before_dead_centre_crank_deg", of_events(known.opens_crank_deg)},
        {"closes_after_dead_centre_crank_deg", of_events(known.closes_crank_deg)},
        {"duration_crank_deg", of_events(known.duration_crank_deg())},
    };
}

QJsonValue figures_json(const std::optional<double>& intake_deg,
                        const std::optional<double>& exhaust_deg) {
    QJsonObject figures{{"intake_centreline_crank_deg", number_or_null(intake_deg)},
                        {"exhaust_centreline_crank_deg", number_or_null(exhaust_deg)},
                        {"lobe_separation_cam_deg", QJsonValue()},
                        {"advance_crank_deg", QJsonValue()}};
    if (intake_deg && exhaust_deg) {
        const CamFigures cam = cam_figures(*intake_deg, *exhaust_deg);
        figures["lobe_separation_cam_deg"] = cam.lobe_separation_cam_deg;
        figures["advance_crank_deg"] = cam.advance_crank_deg;
    }
    return figures;
}

QJsonObject cylinder_json(int cylinder, const CylinderTiming& timing) {
    const ValveTiming& in = timing.intake;
    const ValveTiming& ex = timing.exhaust;
    return {{"cylinder", cylinder},
            {"intake", valve_json(in)},
            {"exhaust", valve_json(ex)},
            {"overlap_crank_deg", number_or_null(timing.overlap_crank_deg)},
            {"off_the_heel", figures_json(in.centreline_off_the_heel_crank_deg,
                                          ex.centreline_off_the_heel_crank_deg)},
            {"below_the_peak", figures_json(in.centreline_below_the_peak_crank_deg,
                                            ex.centreline_below_the_peak_crank_deg)},
            {"at_full_lift", figures_json(in.centreline_at_full_lift_crank_deg,
                                          ex.centreline_at_full_lift_crank_deg)}};
}

void print_valve(const ValveTiming& timing) {
    const bool intake = timing.kind == ValveKind::intake;
    const QString name = intake ? TimingCommands::tr("Intake") : TimingCommands::tr("Exhaust");
    QString line;
    if (timing.events) {
        const ValveEvents& events = *timing.events;
        line =
            TimingCommands::tr("opens %1, closes %2, duration %3")
                .arg(words::cam_event(intake ? CamEvent::intake_opens : CamEvent::exhaust_opens,
                                      events.opens_crank_deg),
                     words::cam_event(intake ? CamEvent::intake_closes : CamEvent::exhaust_closes,
                                      events.closes_crank_deg),
                     words::crank_degrees(events.duration_crank_deg()));
    } else {
        line = words::timing_status(timing);
    }
    if (timing.estimated) {
        line = TimingCommands::tr("%1 (%2)").arg(line, words::estimated_lobe());
    }
    print(QString("  %1 %2").arg(name, -8).arg(line));
}

void print_figures(const QString& method, const std::optional<double>& intake_deg,
                   const std::optional<double>& exhaust_deg) {
    const auto shown = [](const std::optional<double>& deg, const QString& side) {
        return deg ? words::crank_degrees(*deg) + " " + side : TimingCommands::tr("unknown");
    };
    QString line = TimingCommands::tr("%1: intake %2, exhaust %3")
                       .arg(method, shown(intake_deg, "ATDC"), shown(exhaust_deg, "BTDC"));
    if (intake_deg && exhaust_deg) {
        const CamFigures cam = cam_figures(*intake_deg, *exhaust_deg);
        line = TimingCommands::tr("%1; lobe separation %2, %3")
                   .arg(line, words::cam_degrees(cam.lobe_separation_cam_deg),
                        words::advance(cam.advance_crank_deg));
    }
    print("  " + line);
}

void print_cylinder(const CylinderTiming& timing) {
    const ValveTiming& in = timing.intake;
    const ValveTiming& ex = timing.exhaust;
    print_valve(in);
    print_valve(ex);
    print("  " + TimingCommands::tr("Overlap: %1")
                     .arg(timing.overlap_crank_deg ? words::overlap(*timing.overlap_crank_deg)
                                                   : TimingCommands::tr("unknown")));
    print_figures(TimingCommands::tr("Centrelines off the heel"),
                  in.centreline_off_the_heel_crank_deg, ex.centreline_off_the_heel_crank_deg);
    print_figures(TimingCommands::tr("Centrelines below the peak"),
                  in.centreline_below_the_peak_crank_deg, ex.centreline_below_the_peak_crank_deg);
    print_figures(TimingCommands::tr("Centrelines at full lift"),
                  in.centreline_at_full_lift_crank_deg, ex.centreline_at_full_lift_crank_deg);
}

void print_timing(const BuildInHand& hand, const CheckingLift& checking, bool all_alike,
                  const std::vector<CylinderTiming>& cylinders) {
    print_head(hand);
    const QString lift = words::size(checking.lift_mm);
    print(
        checking.of == LiftOf::lobe
            ? TimingCommands::tr("Timing at %1 of lobe lift; crank degrees of each cylinder's own.")
                  .arg(lift)
            : TimingCommands::tr(
                  "Timing at %1 of valve lift, lash off; crank degrees of each cylinder's own.")
                  .arg(lift));
    for (std::size_t at = 0; at < cylinders.size(); ++at) {
        const int number = hand.engine.layout.cylinders[at].number;
        print(all_alike ? TimingCommands::tr("All %1 cylinders:").arg(cylinders.size())
                        : TimingCommands::tr("Cylinder %1:").arg(number));
        print_cylinder(cylinders[at]);
        if (all_alike) {
            return;
        }
    }
}

Shown show_timing(const Options& options, const BuildInHand& hand) {
    const auto checking =
        checking_lift(options.lift, options.at_valve ? LiftOf::valve : LiftOf::lobe);
    if (!checking) {
        return checking.error();
    }
    std::vector<CylinderTiming> cylinders;
    QJsonArray entries;
    bool all_answered = true;
    for (const Cylinder& cylinder : hand.engine.layout.cylinders) {
        const auto timing = cylinder_timing(hand.engine, cylinder.number, *checking);
        if (!timing) {
            return timing.error().field == "checking_lift" ? in_field(timing.error(), "--at")
                                                           : timing.error();
        }
        all_answered = all_answered && timing->intake.events && timing->exhaust.events;
        cylinders.push_back(*timing);
        entries.append(cylinder_json(cylinder.number, *timing));
    }
    const bool all_alike =
        std::all_of(cylinders.begin(), cylinders.end(),
                    [&](const CylinderTiming& one) { return alike(one, cylinders.front()); });
    if (options.json) {
        QJsonObject answer = head_json("rodway-timing", hand);
        answer["checking_lift_in"] = inches_of(checking->lift_mm);
        answer["lift_of"] = checking->of == LiftOf::lobe ? "lobe" : "valve";
        answer["all_alike"] = all_alike;
        answer["cylinders"] = entries;
        print_json(answer);
    } else {
        print_timing(hand, *checking, all_alike, cylinders);
    }
    return all_answered ? ExitCode::done : ExitCode::no_answer;
}

} // namespace

void add_timing_commands(CLI::App& program, CommandOutcome& outcome) {
    auto options = std::make_shared<Options>();
    const auto word = [](const QString& text) { return text.toStdString(); };
    auto* timing = program.add_subcommand(
        "timing", word(TimingCommands::tr("Valve events, centrelines and overlap")));
    add_build_options(*timing, *options);
    timing->add_option("--at", options->lift,
                       word(TimingCommands::tr("Checking lift (.050, 1 mm)")));
    timing->add_flag("--at-valve", options->at_valve,
                     word(TimingCommands::tr("The lift is the valve's, lash off, not the lobe's")));
    timing->callback([=, &outcome] {
        outcome.code = with_build(
            *options, [&](const BuildInHand& hand) { return show_timing(*options, hand); });
    });
}

} // namespace rodway
