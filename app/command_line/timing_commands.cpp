#include <QCoreApplication>
#include <QJsonArray>
#include <algorithm>
#include <cmath>
#include <set>

#include "app/command_line/commands.h"
#include "app/command_line/output.h"
#include "app/words/clearance_words.h"
#include "app/words/lengths.h"
#include "app/words/timing_words.h"
#include "app/work/build_in_hand.h"
#include "core/cam/cam_timing.h"
#include "core/cam/degreeing.h"
#include "core/cam/typed_timing.h"
#include "core/piston/piston_to_valve.h"
#include "core/units/length.h"
#include "core/units/typed_text.h"

namespace rodway {
namespace {

struct TimingCommands {
    Q_DECLARE_TR_FUNCTIONS(TimingCommands)
};

struct Options {
    std::string shop;
    std::string build;
    std::string card;
    std::string lift = ".050";
    std::string advance;
    std::string tolerance;
    std::vector<std::string> stops;
    std::vector<std::string> readings;
    bool at_valve = false;
    bool aluminium_rods = false;
    bool json = false;
};

/// Cylinders are alike where their angles differ by no more.
constexpr double alike_deg = 0.01;
constexpr double intake_closing_lobe_lift_mm = 1.27;
constexpr double furthest_moved_crank_deg = 60.0;

double inches_of(double mm) {
    return Length::mm(mm).in_inches();
}

QJsonValue number_or_null(const std::optional<double>& value) {
    return value ? QJsonValue(*value) : QJsonValue();
}

QJsonValue inches_or_null(const std::optional<double>& mm) {
    return mm ? QJsonValue(inches_of(*mm)) : QJsonValue();
}

QJsonValue degrees_or_null(const std::optional<CrankAngle>& angle) {
    return angle ? QJsonValue(angle->in_deg()) : QJsonValue();
}

Error in_field(Error error, const std::string& field) {
    error.field = field;
    return error;
}

/// Opens the shop and takes the build in hand; `answer` gets that, or what is wrong is said.
template <typename Answer>
ExitCode with_build(const Options& options, const Answer& answer) {
    auto opened = ShopFile::open(options.shop);
    if (!opened) {
        return refuse(opened.error(), QString::fromStdString(options.shop));
    }
    ShopFile shop = std::move(opened).value();
    const auto build = find_build(shop, QString::fromStdString(options.build));
    const auto hand = build ? build_in_hand(shop, *build) : Result<BuildInHand>(build.error());
    return hand ? answer(*hand) : refuse(hand.error());
}

QJsonObject head_json(const char* format, const BuildInHand& hand) {
    return {{"format", format},
            {"version", 1},
            {"build", QString::fromStdString(hand.build.name)},
            {"set_up", QString::fromStdString(hand.set_up.name)},
            {"engine", QString::fromStdString(hand.engine.layout.name)}};
}

void print_head(const BuildInHand& hand) {
    print(TimingCommands::tr("%1: %2, set-up “%3”")
              .arg(QString::fromStdString(hand.build.name),
                   QString::fromStdString(hand.engine.layout.name),
                   QString::fromStdString(hand.set_up.name)));
}

Result<CheckingLift> checking_lift(const Options& options) {
    const auto typed = parse_length(options.lift, BareNumber::inches);
    if (!typed) {
        return in_field(typed.error(), "--at");
    }
    return CheckingLift{typed->middle().in_mm(), options.at_valve ? LiftOf::valve : LiftOf::lobe};
}

/// How far the cam is to be moved; empty if nobody asks.
Result<std::optional<double>> typed_advance(const Options& options) {
    if (options.advance.empty()) {
        return std::optional<double>();
    }
    const auto typed = parse_number(options.advance);
    if (!typed) {
        return in_field(typed.error(), "--advance");
    }
    if (!(std::abs(*typed) <= furthest_moved_crank_deg)) {
        return Error{ErrorCode::out_of_range,
                     "--advance",
                     options.advance,
                     {},
                     {},
                     Limits{-furthest_moved_crank_deg, furthest_moved_crank_deg, "crank_deg"}};
    }
    return std::optional(*typed);
}

// timing

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

ExitCode show_timing(const Options& options, const BuildInHand& hand) {
    const auto checking = checking_lift(options);
    if (!checking) {
        return refuse(checking.error());
    }
    std::vector<CylinderTiming> cylinders;
    QJsonArray entries;
    bool all_answered = true;
    for (const Cylinder& cylinder : hand.engine.layout.cylinders) {
        const auto timing = cylinder_timing(hand.engine, cylinder.number, *checking);
        if (!timing) {
            return refuse(timing.error().field == "checking_lift" ? in_field(timing.error(), "--at")
                                                                  : timing.error());
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

// read-card

/// What a card's text gives: events and what follows from them, or centrelines alone.
struct ReadCard {
    CardEvents events;
    CardFigures figures;
};

CardFigures figures_of(const TypedCentreline& typed) {
    CardFigures figures;
    figures.intake_centreline_crank_deg = typed.centreline_crank_deg;
    figures.lobe_separation_cam_deg = typed.lobe_separation_cam_deg;
    figures.advance_crank_deg = typed.advance_crank_deg;
    if (typed.lobe_separation_cam_deg && typed.advance_crank_deg) {
        figures.exhaust_centreline_crank_deg =
            *typed.lobe_separation_cam_deg + *typed.advance_crank_deg;
    }
    return figures;
}

Result<ReadCard> read(const std::string& text) {
    const auto card = parse_card(text);
    if (card) {
        const auto figures = timing_from_events(card->events());
        return figures ? Result<ReadCard>(ReadCard{card->events(), *figures}) : figures.error();
    }
    const auto centreline = parse_centreline(text, ValveKind::intake);
    if (centreline) {
        return ReadCard{{}, figures_of(*centreline)};
    }
    // A stroke stands between the two valves of a card only.
    return text.find('/') == std::string::npos ? centreline.error() : card.error();
}

Result<ReadCard> moved_by(const ReadCard& card, double by_crank_deg) {
    if (card.events.intake_opens_crank_deg) {
        const CardEvents events = advanced(card.events, by_crank_deg);
        const auto figures = timing_from_events(events);
        return figures ? Result<ReadCard>(ReadCard{events, *figures}) : figures.error();
    }
    ReadCard moved = card;
    const auto shift = [](std::optional<double>& value, double by_deg) {
        if (value) {
            *value += by_deg;
        }
    };
    shift(moved.figures.intake_centreline_crank_deg, -by_crank_deg);
    shift(moved.figures.exhaust_centreline_crank_deg, by_crank_deg);
    shift(moved.figures.advance_crank_deg, by_crank_deg);
    return moved;
}

QJsonObject card_json(const ReadCard& card) {
    const CardEvents& events = card.events;
    const CardFigures& figures = card.figures;
    return {
        {"intake_opens_btdc_crank_deg", number_or_null(events.intake_opens_crank_deg)},
        {"intake_closes_abdc_crank_deg", number_or_null(events.intake_closes_crank_deg)},
        {"exhaust_opens_bbdc_crank_deg", number_or_null(events.exhaust_opens_crank_deg)},
        {"exhaust_closes_atdc_crank_deg", number_or_null(events.exhaust_closes_crank_deg)},
        {"intake_duration_crank_deg", number_or_null(figures.intake_duration_crank_deg)},
        {"exhaust_duration_crank_deg", number_or_null(figures.exhaust_duration_crank_deg)},
        {"intake_centreline_crank_deg", number_or_null(figures.intake_centreline_crank_deg)},
        {"exhaust_centreline_crank_deg", number_or_null(figures.exhaust_centreline_crank_deg)},
        {"lobe_separation_cam_deg", number_or_null(figures.lobe_separation_cam_deg)},
        {"overlap_crank_deg", number_or_null(figures.overlap_crank_deg)},
        {"advance_crank_deg", number_or_null(figures.advance_crank_deg)},
    };
}

void print_card(const ReadCard& card) {
    const CardEvents& events = card.events;
    const CardFigures& figures = card.figures;
    const auto valve = [](const QString& name, CamEvent opens,
                          const std::optional<double>& opens_deg, CamEvent closes,
                          const std::optional<double>& closes_deg,
                          const std::optional<double>& duration_deg) {
        if (opens_deg && closes_deg && duration_deg) {
            print("  " + TimingCommands::tr("%1 opens %2, closes %3, duration %4")
                             .arg(name, words::cam_event(opens, *opens_deg),
                                  words::cam_event(closes, *closes_deg),
                                  words::crank_degrees(*duration_deg)));
        }
    };
    valve(TimingCommands::tr("Intake"), CamEvent::intake_opens, events.intake_opens_crank_deg,
          CamEvent::intake_closes, events.intake_closes_crank_deg,
          figures.intake_duration_crank_deg);
    valve(TimingCommands::tr("Exhaust"), CamEvent::exhaust_opens, events.exhaust_opens_crank_deg,
          CamEvent::exhaust_closes, events.exhaust_closes_crank_deg,
          figures.exhaust_duration_crank_deg);
    const auto line = [](const QString& text) { print("  " + text); };
    if (figures.intake_centreline_crank_deg) {
        line(TimingCommands::tr("Intake centreline %1 ATDC")
                 .arg(words::crank_degrees(*figures.intake_centreline_crank_deg)));
    }
    if (figures.exhaust_centreline_crank_deg) {
        line(TimingCommands::tr("Exhaust centreline %1 BTDC")
                 .arg(words::crank_degrees(*figures.exhaust_centreline_crank_deg)));
    }
    if (figures.lobe_separation_cam_deg) {
        line(TimingCommands::tr("Lobe separation %1")
                 .arg(words::cam_degrees(*figures.lobe_separation_cam_deg)));
    }
    if (figures.advance_crank_deg) {
        line(TimingCommands::tr("Cam stands %1").arg(words::advance(*figures.advance_crank_deg)));
    }
    if (figures.overlap_crank_deg) {
        line(TimingCommands::tr("Overlap: %1").arg(words::overlap(*figures.overlap_crank_deg)));
    }
}

ExitCode show_card(const Options& options) {
    const auto card = read(options.card);
    if (!card) {
        return refuse(card.error());
    }
    const auto by = typed_advance(options);
    if (!by) {
        return refuse(by.error());
    }
    const auto moved = moved_by(*card, by->value_or(0.0));
    if (!moved) {
        return refuse(moved.error());
    }
    const bool asked = by->has_value();
    if (options.json) {
        print_json({{"format", "rodway-cam-card"},
                    {"version", 1},
                    {"text", QString::fromStdString(options.card)},
                    {"card", card_json(*card)},
                    {"moved_by_crank_deg", number_or_null(*by)},
                    {"moved", asked ? QJsonValue(card_json(*moved)) : QJsonValue()}});
        return ExitCode::done;
    }
    print(TimingCommands::tr("The card “%1”, in crank degrees:")
              .arg(QString::fromStdString(options.card)));
    print_card(*card);
    if (asked) {
        print(TimingCommands::tr("Moved by %1:").arg(words::advance(**by)));
        print_card(*moved);
    }
    if (card->events.intake_opens_crank_deg) {
        print(
            TimingCommands::tr("Centrelines are midpoints of the events; on an asymmetric lobe "
                               "full lift falls elsewhere."));
    }
    return ExitCode::done;
}

// degree-in

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
    QString line = TimingCommands::tr("%1: centreline %2 %3, duration %4")
                       .arg(words::valve(valve.reading.valve),
                            words::crank_degrees(valve.found.centreline_crank_deg), side,
                            words::crank_degrees(valve.found.between_marks_crank_deg));
    if (valve.standing && valve.wanted.events) {
        line = TimingCommands::tr("%1; set-up %2 %3, duration %4: %5")
                   .arg(line, words::crank_degrees(*valve.wanted.centreline_off_the_heel_crank_deg),
                        side, words::crank_degrees(valve.wanted.events->duration_crank_deg()),
                        words::advance(valve.standing->advanced_crank_deg));
    } else {
        line = TimingCommands::tr("%1; nothing to compare with. %2")
                   .arg(line, words::timing_status(valve.wanted));
    }
    print(valve.wanted.estimated ? TimingCommands::tr("%1 (%2)").arg(line, words::estimated_lobe())
                                 : line);
}

void print_degreeing(const BuildInHand& hand, const CheckingLift& checking,
                     const TrueTopDeadCentre& centre, const std::vector<Degreed>& valves,
                     const std::optional<DegreeingFindings>& findings) {
    print_head(hand);
    print(
        TimingCommands::tr("True top dead centre is at %1 on the wheel; add %2 to every mark. The "
                           "stop held the piston %3 either side of it.")
            .arg(words::crank_degrees(centre.mark_deg), words::crank_degrees(-centre.mark_deg),
                 words::crank_degrees(centre.stop_deg)));
    print(TimingCommands::tr("Centrelines off the heel, at %1 of lobe lift:")
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

ExitCode degree_in(const Options& options, const BuildInHand& hand) {
    const auto checking = checking_lift(options);
    const auto centre = top_dead_centre(options);
    const auto tolerance = options.tolerance.empty() ? Result<double>(usual_wheel_doubt_crank_deg)
                                                     : parse_number(options.tolerance);
    if (!checking || !centre) {
        return refuse(!checking ? checking.error() : centre.error());
    }
    if (!tolerance) {
        return refuse(in_field(tolerance.error(), "--tolerance"));
    }
    std::vector<Degreed> valves;
    std::vector<DegreedValve> compared;
    for (const std::string& text : options.readings) {
        const auto valve = degreed(hand.engine, text, *centre, *checking);
        if (!valve) {
            return refuse(valve.error());
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
            return refuse(concluded.error());
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

// piston-to-valve

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
        text = TimingCommands::tr("%1 at %2")
                   .arg(words::both_units(*at.least_mm), words::about_overlap(*at.after_overlap));
    }
    if (!is_below) {
        return text;
    }
    if (*is_below && at.at_most_mm.value_or(0.0) < 0.0) {
        return TimingCommands::tr("%1 VALVE AND PISTON MEET.").arg(text + (at.least_mm ? "." : ""));
    }
    return *is_below ? TimingCommands::tr("%1 BELOW the limit of %2.")
                           .arg(text + (at.least_mm ? "," : ""), words::inches(limit_mm))
                     : TimingCommands::tr("%1, clears the limit of %2.")
                           .arg(text, words::inches(limit_mm));
}

void print_over_piston(const OverPiston& line, const std::optional<double>& by,
                       const PistonToValveLimits& limits) {
    print(QString("%1 %2")
              .arg(words::valve(line.valve), -4)
              .arg(place_text(line.present, line.limit_mm)));
    if (line.moved && by) {
        print("     " + TimingCommands::tr("Moved by %1: %2")
                            .arg(words::advance(*by), place_text(*line.moved, line.limit_mm)));
    }
    if (line.closes && line.closes_moved) {
        print("     " +
              TimingCommands::tr("Intake closes %1, moved %2 (at %3 of lobe lift).")
                  .arg(words::cam_event(CamEvent::intake_closes, line.closes->in_deg()),
                       words::cam_event(CamEvent::intake_closes, line.closes_moved->in_deg()),
                       words::size(intake_closing_lobe_lift_mm)));
    }
    if (const auto& gap = line.present.radial_gap_mm) {
        print("     " + (*gap < limits.radial_mm
                             ? TimingCommands::tr("Beside the head %1, BELOW the limit of %2.")
                             : TimingCommands::tr("Beside the head %1, clears the limit of %2."))
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
    print(TimingCommands::tr("Least clearance of valve and piston, along the valve's axis:"));
    for (const OverPiston& line : lines) {
        print_over_piston(line, by, limits);
    }
    if (!without.isEmpty()) {
        print(TimingCommands::tr("No drops, so not checked: %1").arg(without.join(", ")));
    }
    print(words::piston_caution());
}

ExitCode show_pistons(const Options& options, const BuildInHand& hand) {
    const auto by = typed_advance(options);
    if (!by) {
        return refuse(by.error());
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
            return refuse(line.error());
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

// the commands

using SharedOptions = std::shared_ptr<Options>;

CLI::App* begin(CLI::App& program, const SharedOptions& options, const char* name,
                const QString& what) {
    auto* command = program.add_subcommand(name, what.toStdString());
    command->add_flag("--json", options->json, TimingCommands::tr("Answer as JSON").toStdString());
    return command;
}

CLI::App* begin_with_build(CLI::App& program, const SharedOptions& options, const char* name,
                           const QString& what) {
    auto* command = begin(program, options, name, what);
    command->add_option("shop", options->shop, TimingCommands::tr("Shop file").toStdString())
        ->required();
    command
        ->add_option("build", options->build,
                     TimingCommands::tr("Build's number or name").toStdString())
        ->required();
    return command;
}

void add_advance(CLI::App& command, const SharedOptions& options) {
    command.add_option(
        "--advance", options->advance,
        TimingCommands::tr(
            "What if the cam were advanced by this many crank degrees (-4: retarded)")
            .toStdString());
}

void add_degree_in(CLI::App& program, CommandOutcome& outcome, const SharedOptions& options) {
    const auto word = [](const QString& text) { return text.toStdString(); };
    auto* command =
        begin_with_build(program, options, "degree-in",
                         TimingCommands::tr("Where the cam stands, from marks on a degree wheel"));
    command
        ->add_option("--stop", options->stops,
                     word(TimingCommands::tr("Mark where the piston meets the stop; once for each "
                                             "way round")))
        ->required()
        ->allow_extra_args(false);
    command
        ->add_option("--reading", options->readings,
                     word(TimingCommands::tr("A valve's two marks: 1I=2 BTDC,41 ABDC (with a "
                                             "decimal comma put ; between them)")))
        ->required()
        ->allow_extra_args(false);
    command->add_option("--at", options->lift,
                        word(TimingCommands::tr("Lobe lift of the marks (.050, 1 mm)")));
    command->add_option("--tolerance", options->tolerance,
                        word(TimingCommands::tr("Crank degrees that a reading may be off (1)")));
    command->callback([options, &outcome] {
        outcome.code = with_build(
            *options, [&](const BuildInHand& hand) { return degree_in(*options, hand); });
    });
}

} // namespace

void add_timing_commands(CLI::App& program, CommandOutcome& outcome) {
    auto options = std::make_shared<Options>();
    const auto word = [](const QString& text) { return text.toStdString(); };

    auto* timing = begin_with_build(program, options, "timing",
                                    TimingCommands::tr("Valve events, centrelines and overlap"));
    timing->add_option("--at", options->lift,
                       word(TimingCommands::tr("Checking lift (.050, 1 mm)")));
    timing->add_flag("--at-valve", options->at_valve,
                     word(TimingCommands::tr("The lift is the valve's, lash off, not the lobe's")));
    timing->callback([=, &outcome] {
        outcome.code = with_build(
            *options, [&](const BuildInHand& hand) { return show_timing(*options, hand); });
    });

    auto* card = begin(program, options, "read-card",
                       TimingCommands::tr("What a cam card says: 20-60/60-20, 31/77/63/29, 110+4"));
    card->add_option("card", options->card, word(TimingCommands::tr("The card as typed")))
        ->required();
    add_advance(*card, options);
    card->callback([=, &outcome] { outcome.code = show_card(*options); });

    add_degree_in(program, outcome, options);

    auto* pistons = begin_with_build(program, options, "piston-to-valve",
                                     TimingCommands::tr("Least clearance of valves and pistons"));
    add_advance(*pistons, options);
    pistons->add_flag("--aluminium-rods", options->aluminium_rods,
                      word(TimingCommands::tr("Connecting rods are aluminium: 0.030 in more")));
    pistons->callback([=, &outcome] {
        outcome.code = with_build(
            *options, [&](const BuildInHand& hand) { return show_pistons(*options, hand); });
    });
}

} // namespace rodway
