#include <QCoreApplication>
#include <algorithm>
#include <cmath>

#include "app/command_line/build_commands.h"
#include "app/command_line/commands.h"
#include "app/words/barring_words.h"
#include "app/words/clearance_words.h"
#include "app/words/lengths.h"
#include "app/words/lobe_words.h"
#include "app/work/lobe_report.h"
#include "core/barring/valve_arcs.h"
#include "core/units/length.h"

namespace rodway {
namespace {

struct LobeCommands {
    Q_DECLARE_TR_FUNCTIONS(LobeCommands)
};

struct Options : BuildOptions {
    std::string valves;
};

/// Lobe lifts at which flanks are given, inches: those that the trade measures at.
constexpr double flank_lifts_in[] = {0.006, 0.020, 0.050, 0.100, 0.200};

std::vector<ValvePosition> sharing_a_lobe(const Engine& engine, ValveKind kind) {
    std::vector<ValvePosition> valves = all_valves(engine);
    std::erase_if(valves, [&](const ValvePosition& valve) {
        return valve.kind != kind || engine.own_lobes.contains(valve);
    });
    return valves;
}

/// Error: not_a_position, valve_unknown.
Result<LobeReport> report_of_valve(const Engine& engine, const std::string& text) {
    const auto valve = parse_position(text);
    if (!valve) {
        return in_field(valve.error(), "--valves");
    }
    const std::vector<ValvePosition> valves = all_valves(engine);
    if (std::find(valves.begin(), valves.end(), *valve) == valves.end()) {
        return Error{ErrorCode::valve_unknown, "--valves", text, {}, {}, {}};
    }
    return lobe_report(engine, engine.lobes(*valve), {*valve});
}

/// The lobes asked for: one kind's, one valve's, or, if none was named, all there are.
Result<std::vector<LobeReport>> reports(const Engine& engine, const std::string& valves) {
    std::vector<LobeReport> found;
    if (!valves.empty() && valves != "intake" && valves != "exhaust") {
        const auto report = report_of_valve(engine, valves);
        if (!report) {
            return report.error();
        }
        found.push_back(*report);
        return found;
    }
    for (const ValveKind kind : {ValveKind::intake, ValveKind::exhaust}) {
        const bool asked =
            valves.empty() || valves == (kind == ValveKind::intake ? "intake" : "exhaust");
        const std::vector<ValvePosition> sharing = sharing_a_lobe(engine, kind);
        if (!asked || (valves.empty() && sharing.empty())) {
            continue;
        }
        const auto report = lobe_report(engine, engine.lobes(kind), sharing);
        if (!report) {
            return report.error();
        }
        found.push_back(*report);
    }
    for (const auto& [valve, lobes] : engine.own_lobes) {
        if (valves.empty()) {
            const auto report = lobe_report(engine, lobes, {valve});
            if (!report) {
                return report.error();
            }
            found.push_back(*report);
        }
    }
    return found;
}

QJsonArray names(const std::vector<ValvePosition>& valves) {
    QJsonArray array;
    for (const ValvePosition& valve : valves) {
        array.append(words::valve(valve));
    }
    return array;
}

/// By the cam's own degree, inches; `order` is the power of the angle.
double by_degree(double mm_by_rad, int order) {
    return inches_of(mm_by_rad) * std::pow(radians(1.0), order);
}

/// "…" and "…_at_cam_deg", from full lift.
void add_at(QJsonObject& object, const QString& key, double value, CamAngle at) {
    object[key] = value;
    object[key + "_at_cam_deg"] = at.in_deg();
}

QJsonValue smoothing_json(const std::optional<SmoothingReport>& report) {
    if (!report) {
        return {};
    }
    return QJsonObject{{"noise_in", inches_of(report->noise_mm)},
                       {"residual_rms_in", inches_of(report->residual_rms_mm)},
                       {"worst_residual_in", inches_of(report->worst_residual_mm)},
                       {"worst_row", report->worst_row},
                       {"worst_at_cam_deg", report->worst_at.in_deg()},
                       {"rows", report->rows},
                       {"zero_shift_in", inches_of(report->zero_shift_mm)},
                       {"heel_wander_in", inches_of(report->heel_wander_mm)},
                       {"opening_ramp_estimated", report->opening_ramp_estimated},
                       {"closing_ramp_estimated", report->closing_ramp_estimated}};
}

/// A flank below what was measured is made up, or the whole lobe is.
bool flank_estimated(const Lobe& lobe, const Flanks& flanks) {
    return lobe.estimated() || flanks.opening < lobe.measured_span().opening ||
           flanks.closing > lobe.measured_span().closing;
}

QJsonArray flanks_json(const Lobe& lobe) {
    QJsonArray array;
    for (const double lift_in : flank_lifts_in) {
        const double lift_mm = Length::inches(lift_in).in_mm();
        if (lift_mm <= lobe.full_lift_mm()) {
            const Flanks flanks = lobe.at_lift(lift_mm);
            array.append(QJsonObject{
                {"lobe_lift_in", lift_in},
                {"opening_cam_deg", flanks.opening.in_deg()},
                {"closing_cam_deg", flanks.closing.in_deg()},
                {"duration_crank_deg", crank_angle(flanks.closing - flanks.opening).in_deg()},
                {"estimated", flank_estimated(lobe, flanks)}});
        }
    }
    return array;
}

QJsonObject flat_json(const LobeFollower& follower) {
    QJsonObject object{{"follower", words::token(follower.kind)},
                       {"valves", names(follower.valves)},
                       {"face_diameter_in", inches_or_null(follower.face_diameter_mm)}};
    const FlatFaceSurvey& survey = *follower.flat;
    add_at(object, "opening_offset_in", inches_of(survey.opening_offset_mm.value),
           survey.opening_offset_mm.at);
    add_at(object, "closing_offset_in", inches_of(survey.closing_offset_mm.value),
           survey.closing_offset_mm.at);
    add_at(object, "least_radius_in", inches_of(survey.least_radius_mm.value),
           survey.least_radius_mm.at);
    object["undercut"] = survey.undercut();
    object["least_face_diameter_in"] = inches_of(survey.least_face_diameter_mm());
    const auto& face = follower.face_diameter_mm;
    object["edge_margin_in"] =
        face ? QJsonValue(inches_of(survey.edge_margin_mm(*face))) : QJsonValue();
    object["runs_on_the_edge"] =
        face ? QJsonValue(survey.edge_margin_mm(*face) < 0.0) : QJsonValue();
    return object;
}

QJsonObject roller_json(const LobeFollower& follower) {
    QJsonObject object{{"follower", words::token(follower.kind)},
                       {"valves", names(follower.valves)},
                       {"roller_radius_in", inches_or_null(follower.roller_radius_mm)}};
    if (!follower.roller) {
        for (const QString key : {"opening_pressure_angle_deg", "closing_pressure_angle_deg",
                                  "least_radius_in", "least_hollow_radius_in"}) {
            object[key] = QJsonValue();
            object[key + "_at_cam_deg"] = QJsonValue();
        }
        object["undercut"] = QJsonValue();
        return object;
    }
    const RollerSurvey& survey = *follower.roller;
    const auto& hollow = survey.least_hollow_radius_mm;
    add_at(object, "opening_pressure_angle_deg", degrees(survey.opening_pressure_angle_rad.value),
           survey.opening_pressure_angle_rad.at);
    add_at(object, "closing_pressure_angle_deg", degrees(survey.closing_pressure_angle_rad.value),
           survey.closing_pressure_angle_rad.at);
    add_at(object, "least_radius_in", inches_of(survey.least_lobe_radius_mm()),
           survey.least_pitch_radius_mm.at);
    object["undercut"] = survey.undercut();
    object["least_hollow_radius_in"] = hollow ? QJsonValue(inches_of(hollow->value)) : QJsonValue();
    object["least_hollow_radius_in_at_cam_deg"] =
        hollow ? QJsonValue(hollow->at.in_deg()) : QJsonValue();
    return object;
}

QJsonObject lobe_json(const LobeReport& report) {
    const Lobe& lobe = report.lobes->lobe;
    QJsonArray followers;
    for (const LobeFollower& follower : report.followers) {
        followers.append(follower.flat ? flat_json(follower) : roller_json(follower));
    }
    QJsonObject object{{"valves", names(report.valves)},
                       {"source", words::token(report.source)},
                       {"estimated", lobe.estimated()},
                       {"full_lift_in", inches_of(lobe.full_lift_mm())},
                       {"base_circle_radius_in", inches_of(report.lobes->base_circle_radius_mm)},
                       {"off_heel_from_cam_deg", lobe.span().opening.in_deg()},
                       {"off_heel_to_cam_deg", lobe.span().closing.in_deg()},
                       {"measured_from_cam_deg", lobe.measured_span().opening.in_deg()},
                       {"measured_to_cam_deg", lobe.measured_span().closing.in_deg()},
                       {"ramps_estimated", lobe.estimated() || lobe.ramps_estimated()},
                       {"smoothing", smoothing_json(lobe.smoothing())},
                       {"flanks", flanks_json(lobe)},
                       {"caliper_reads_less_by_in", inches_of(lobe.caliper_lift_error_mm())},
                       {"followers", followers},
                       {"without_train", names(report.without_train)}};
    if (lobe.estimated()) {
        object["measured_from_cam_deg"] = QJsonValue();
        object["measured_to_cam_deg"] = QJsonValue();
    }
    const LobePeaks& peaks = report.peaks;
    add_at(object, "opening_velocity_in_per_deg", by_degree(peaks.opening_velocity.value, 1),
           peaks.opening_velocity.at);
    add_at(object, "closing_velocity_in_per_deg", by_degree(peaks.closing_velocity.value, 1),
           peaks.closing_velocity.at);
    add_at(object, "greatest_acceleration_in_per_deg2",
           by_degree(peaks.greatest_acceleration.value, 2), peaks.greatest_acceleration.at);
    add_at(object, "least_acceleration_in_per_deg2", by_degree(peaks.least_acceleration.value, 2),
           peaks.least_acceleration.at);
    add_at(object, "greatest_jerk_in_per_deg3", by_degree(peaks.greatest_jerk.value, 3),
           peaks.greatest_jerk.at);
    return object;
}

void print_from_table(const Lobe& lobe) {
    if (!lobe.smoothing()) {
        return;
    }
    const SmoothingReport& report = *lobe.smoothing();
    print("  " + words::smoothing(report));
    print("  " + LobeCommands::tr("On the heel the dial read %1, and wandered by %2.")
                     .arg(words::fine_inches(report.zero_shift_mm),
                          words::fine_inches(report.heel_wander_mm)));
    if (report.opening_ramp_estimated) {
        print("  " + LobeCommands::tr("The opening ramp is ESTIMATED: the table begins %1.")
                         .arg(words::about_full_lift(lobe.measured_span().opening)));
    }
    if (report.closing_ramp_estimated) {
        print("  " + LobeCommands::tr("The closing ramp is ESTIMATED: the table ends %1.")
                         .arg(words::about_full_lift(lobe.measured_span().closing)));
    }
}

void print_flanks(const Lobe& lobe) {
    print("  " + LobeCommands::tr("Off the heel from %1 to %2 (cam degrees).")
                     .arg(words::about_full_lift(lobe.span().opening),
                          words::about_full_lift(lobe.span().closing)));
    for (const double lift_in : flank_lifts_in) {
        const double lift_mm = Length::inches(lift_in).in_mm();
        if (lift_mm > lobe.full_lift_mm()) {
            continue;
        }
        const Flanks flanks = lobe.at_lift(lift_mm);
        const QString duration =
            words::crank_degrees(crank_angle(flanks.closing - flanks.opening).in_deg());
        const QString row = LobeCommands::tr("At %1: %2 to %3, %4 of crank")
                                .arg(words::inches(lift_mm), words::about_full_lift(flanks.opening),
                                     words::about_full_lift(flanks.closing), duration);
        print("  " +
              (flank_estimated(lobe, flanks) ? LobeCommands::tr("%1 (estimated)").arg(row) : row));
    }
}

void print_peaks(const LobePeaks& peaks) {
    print("  " + LobeCommands::tr("Velocity at most %1 opening, %2; %3 closing, %4.")
                     .arg(words::lobe_velocity(peaks.opening_velocity.value),
                          words::about_full_lift(peaks.opening_velocity.at),
                          words::lobe_velocity(peaks.closing_velocity.value),
                          words::about_full_lift(peaks.closing_velocity.at)));
    print("  " + LobeCommands::tr("Acceleration at most %1, %2; over the nose %3, %4.")
                     .arg(words::lobe_acceleration(peaks.greatest_acceleration.value),
                          words::about_full_lift(peaks.greatest_acceleration.at),
                          words::lobe_acceleration(peaks.least_acceleration.value),
                          words::about_full_lift(peaks.least_acceleration.at)));
    print("  " + LobeCommands::tr("Jerk at most %1, %2.")
                     .arg(words::lobe_jerk(peaks.greatest_jerk.value),
                          words::about_full_lift(peaks.greatest_jerk.at)));
}

void print_flat(const LobeFollower& follower) {
    const FlatFaceSurvey& survey = *follower.flat;
    const auto& face = follower.face_diameter_mm;
    const QString valves = words::valves(follower.valves);
    print("  " +
          (face ? LobeCommands::tr("Flat lifters of %1 face (%2):").arg(words::size(*face), valves)
                : LobeCommands::tr("Flat lifters, face diameter not in the set-up (%1):")
                      .arg(valves)));
    print("    " + LobeCommands::tr("contact wanders %1 from the lifter's axis opening, %2; %3 "
                                    "closing, %4")
                       .arg(words::inches(survey.opening_offset_mm.value),
                            words::about_full_lift(survey.opening_offset_mm.at),
                            words::inches(survey.closing_offset_mm.value),
                            words::about_full_lift(survey.closing_offset_mm.at)));
    print("    " + (face ? words::edge_margin(survey.edge_margin_mm(*face))
                         : LobeCommands::tr("needs a face of %1 at least, without any margin")
                               .arg(words::inches(survey.least_face_diameter_mm()))));
    print("    " + words::flat_face_curvature(survey));
}

void print_roller(const LobeFollower& follower) {
    const QString valves = words::valves(follower.valves);
    if (!follower.roller) {
        print("  " + LobeCommands::tr("Roller lifters, roller radius not in the set-up, so not "
                                      "looked at (%1).")
                         .arg(valves));
        return;
    }
    const RollerSurvey& survey = *follower.roller;
    const auto angle = [](const AtCamAngle& at) { return words::crank_degrees(degrees(at.value)); };
    print("  " + LobeCommands::tr("Roller lifters of %1 radius (%2):")
                     .arg(words::size(survey.roller_radius_mm), valves));
    print("    " + LobeCommands::tr("pressure angle at most %1 opening, %2; %3 closing, %4")
                       .arg(angle(survey.opening_pressure_angle_rad),
                            words::about_full_lift(survey.opening_pressure_angle_rad.at),
                            angle(survey.closing_pressure_angle_rad),
                            words::about_full_lift(survey.closing_pressure_angle_rad.at)));
    print("    " + words::roller_curvature(survey));
}

void print_report(const LobeReport& report) {
    const Lobe& lobe = report.lobes->lobe;
    print({});
    print(LobeCommands::tr("Lobes of %1: %2")
              .arg(words::valves(report.valves), words::lobe_source(report.source)));
    print("  " + LobeCommands::tr("Full lift %1; base circle radius %2.")
                     .arg(words::size(lobe.full_lift_mm()),
                          words::size(report.lobes->base_circle_radius_mm)));
    print_from_table(lobe);
    print_flanks(lobe);
    constexpr double tenth_thou_mm = 0.00254;
    if (lobe.caliper_lift_error_mm() >= tenth_thou_mm) {
        print("  " + LobeCommands::tr("A caliper over this lobe reads its lift short by %1.")
                         .arg(words::fine_inches(lobe.caliper_lift_error_mm())));
    }
    print_peaks(report.peaks);
    for (const LobeFollower& follower : report.followers) {
        if (follower.flat) {
            print_flat(follower);
        } else {
            print_roller(follower);
        }
    }
    if (!report.without_train.empty()) {
        print("  " + LobeCommands::tr("No train in the set-up, so the lifter isn't known: %1")
                         .arg(words::valves(report.without_train)));
    }
    const QString caution = words::lobe_caution(report.source);
    if (!caution.isEmpty()) {
        print("  " + caution);
    }
}

/// Every lifter on the lobe could be looked at.
bool answered(const LobeReport& report) {
    return report.without_train.empty() &&
           std::all_of(
               report.followers.begin(), report.followers.end(),
               [](const LobeFollower& follower) { return follower.flat || follower.roller; });
}

/// `rodway lobe`: a lobe's curve, and what a lifter meets on it.
Shown show_lobes(const Options& options, const BuildInHand& hand) {
    const auto lobes = reports(hand.engine, options.valves);
    if (!lobes) {
        return lobes.error();
    }
    QJsonArray array;
    for (const LobeReport& report : *lobes) {
        array.append(lobe_json(report));
    }
    if (options.json) {
        QJsonObject answer = head_json("rodway-lobe", hand);
        answer["lobes"] = array;
        print_json(answer);
    } else {
        print_head(hand);
        for (const LobeReport& report : *lobes) {
            print_report(report);
        }
    }
    return std::all_of(lobes->begin(), lobes->end(), answered) ? ExitCode::done
                                                               : ExitCode::no_answer;
}

} // namespace

void add_lobe_commands(CLI::App& program, CommandOutcome& outcome) {
    auto options = std::make_shared<Options>();
    auto* lobe = program.add_subcommand(
        "lobe",
        LobeCommands::tr("Lobes: curve, smoothing, and what lifters meet on them").toStdString());
    add_build_options(*lobe, *options);
    lobe->add_option(
        "--valves", options->valves,
        LobeCommands::tr("Whose lobe: intake, exhaust, or one valve's, such as 3I").toStdString());
    lobe->callback([=, &outcome] {
        outcome.code = with_build(
            *options, [&](const BuildInHand& hand) { return show_lobes(*options, hand); });
    });
}

} // namespace rodway
