#include <QCoreApplication>
#include <QJsonArray>
#include <algorithm>
#include <cmath>

#include "app/command_line/build_commands.h"
#include "app/command_line/commands.h"
#include "app/command_line/output.h"
#include "app/edit_stack/shop_session.h"
#include "app/first_run/new_build.h"
#include "app/words/clearance_words.h"
#include "app/words/gap_words.h"
#include "app/words/lengths.h"
#include "core/clearance/doubt.h"
#include "core/clearance/passage_place.h"
#include "core/units/typed_text.h"
#include "db/reading_store.h"

namespace rodway {
namespace {

struct FitCommands {
    Q_DECLARE_TR_FUNCTIONS(FitCommands)
};

struct FitOptions : BuildOptions {
    std::string valve;
    std::string passage = "tube";
    std::string sideways;
    std::string lean;
    std::string who = qEnvironmentVariable("USER", "shop").toStdString();
    bool keep = false;
};

/// What was fitted, and all that it takes to say what came of it.
struct FitAnswer {
    BuildInHand hand;
    std::vector<SetUpRecord> set_ups;
    FitRequest request;
    std::vector<KeptGap> used;
    std::vector<KeptGap> left_out; ///< of this valve, or of none that can be read
    ReadingFit fit;
    std::optional<QString> kept_as; ///< the set-up into which the place was written

    [[nodiscard]] const Train& train() const { return *hand.engine.train(request.valve); }
    [[nodiscard]] const Passage& passage() const { return *find_passage(train(), request.passage); }
};

/// A ± that holds 19 times in 20 is two standard deviations.
constexpr double two_sided_95 = 2.0;

Result<StatedPlace> stated_place(const FitOptions& options) {
    constexpr double most_sideways_mm = 50.0;
    constexpr double most_lean_deg = 20.0;
    StatedPlace stated;
    if (!options.sideways.empty()) {
        const auto typed = parse_length(options.sideways, BareNumber::inches);
        if (!typed) {
            return in_field(typed.error(), "--stated-sideways");
        }
        if (typed->is_interval() || typed->firmness != Firmness::plain) {
            return Error{
                ErrorCode::not_a_length, "--stated-sideways", options.sideways, {}, {}, {}};
        }
        const double mm = typed->low.in_mm();
        if (mm < 0.0 || mm > most_sideways_mm) {
            const Limits limits{0.0, inches_of(most_sideways_mm), "in"};
            return Error{
                ErrorCode::out_of_range, "--stated-sideways", options.sideways, {}, {}, limits};
        }
        stated.sideways_u_mm = mm / two_sided_95;
    }
    if (!options.lean.empty()) {
        const auto deg = parse_number(options.lean);
        if (!deg) {
            return in_field(deg.error(), "--stated-lean");
        }
        if (!(*deg >= 0.0 && *deg <= most_lean_deg)) {
            const Limits limits{0.0, most_lean_deg, "deg"};
            return Error{ErrorCode::out_of_range, "--stated-lean", options.lean, {}, {}, limits};
        }
        stated.lean_u_rad = radians(*deg) / two_sided_95;
    }
    return stated;
}

Result<FitRequest> fit_request(const FitOptions& options, const BuildInHand& hand) {
    const auto valve = parse_position(options.valve);
    if (!valve) {
        return in_field(valve.error(), "valve");
    }
    const Train* train = hand.engine.train(*valve);
    if (!train) {
        return Error{ErrorCode::valve_unknown, "valve", options.valve, {}, {}, {}};
    }
    if (!find_passage(*train, options.passage)) {
        std::string names = train->tube.name;
        for (const Passage& passage : train->further_passages) {
            names += ' ' + passage.name;
        }
        return Error{ErrorCode::not_a_choice, "--passage", options.passage, names, {}, {}};
    }
    const auto stated = stated_place(options);
    if (!stated) {
        return stated.error();
    }
    FitRequest request;
    request.valve = *valve;
    request.passage = options.passage;
    request.set_up_id = hand.set_up.id;
    request.stated = *stated;
    return request;
}

/// Sorts what is kept of this valve into what counts and what is left out. Readings of earlier
/// set-ups count where nothing that acts on them has changed since.
void sort_readings(FitAnswer& answer, const std::vector<KeptGap>& all) {
    for (const KeptGap& kept : all) {
        const auto position = parse_rod_gap_position(kept.reading.position);
        if (position && position->valve != answer.request.valve) {
            continue;
        }
        const bool counts = kept.standing == GapStanding::holds && kept.gap &&
                            kept.gap->passage == answer.request.passage;
        (counts ? answer.used : answer.left_out).push_back(kept);
    }
}

Result<FitAnswer> fitted_answer(ShopFile& shop, const FitOptions& options) {
    const auto build = find_build(shop, QString::fromStdString(options.build));
    const auto hand = build ? build_in_hand(shop, *build) : Result<BuildInHand>(build.error());
    const auto request = hand ? fit_request(options, *hand) : Result<FitRequest>(hand.error());
    if (!request) {
        return request.error();
    }
    const auto set_ups = load_set_ups(shop, build->id);
    const auto taken =
        set_ups ? readings(shop, build->id) : Result<std::vector<Reading>>(set_ups.error());
    if (!taken) {
        return taken.error();
    }
    FitAnswer answer{*hand, *set_ups, *request, {}, {}, {}, {}};
    sort_readings(answer, kept_gaps(*taken, *set_ups));
    std::vector<GapReading> gaps;
    for (const KeptGap& kept : answer.used) {
        gaps.push_back(*kept.gap);
        gaps.back().set_up_id = request->set_up_id; // as good as taken in it
    }
    auto fit = fit_readings(hand->engine, *request, gaps);
    if (!fit) {
        return fit.error();
    }
    answer.fit = *std::move(fit);
    return answer;
}

/// ± of what is in doubt beside the passage's own place, which the readings fix.
struct RestOfEngine {
    std::optional<double> doubt_mm;
    bool worked_out = false; ///< from what the set-up states; else as it assumes
};

RestOfEngine rest_of_engine(const FitAnswer& answer, const FittedPose& pose) {
    Engine engine = answer.hand.engine;
    EngineDoubt stated = engine.doubt;
    for (const ParameterKind kind :
         {ParameterKind::passage_rearward, ParameterKind::passage_outboard,
          ParameterKind::passage_lean_rearward, ParameterKind::passage_lean_outboard}) {
        stated.inputs.erase(kind);
    }
    for (Train& train : engine.trains) {
        if (train.position != answer.request.valve) {
            continue;
        }
        if (train.tube.name == answer.request.passage) {
            train.tube.bore = at_pose(train.tube.bore, pose.pose);
        }
        for (Passage& passage : train.further_passages) {
            if (passage.name == answer.request.passage) {
                passage.bore = at_pose(passage.bore, pose.pose);
            }
        }
        const auto closed = train_surroundings(engine, train);
        if (closed && closed->surroundings) {
            const auto doubt = doubt_of(engine, train, *closed->surroundings,
                                        certified_minima(*closed->surroundings), stated);
            if (doubt) {
                return {doubt->guard_band_mm(), true};
            }
        }
    }
    return {engine.assumed_doubt_mm, false};
}

/// The ± of a predicted minimum: the place's and that of the rest, combined by squares (JCGM 100,
/// 5.1.2: they have nothing to do with each other). Nothing if either isn't known.
std::optional<double> whole_doubt_mm(const FitAnswer& answer, const FittedPose& pose) {
    const RestOfEngine rest = rest_of_engine(answer, pose);
    if (!rest.doubt_mm || !pose.minimum.doubt_mm) {
        return std::nullopt;
    }
    return std::hypot(*rest.doubt_mm, *pose.minimum.doubt_mm);
}

/// Of a pose that fits. A reading 'touch' is contact whatever is computed.
std::optional<Verdict> verdict_of(const FitAnswer& answer, const FittedPose& pose) {
    const auto& minimum = pose.minimum.found.minimum;
    if (!minimum) {
        return std::nullopt;
    }
    const RodClearanceLimits limits{answer.hand.engine.rod_clearance_limit_mm};
    const Verdict computed = judge(minimum->clearance_mm, whole_doubt_mm(answer, pose), limits);
    const bool touched = std::any_of(
        answer.used.begin(), answer.used.end(),
        [](const KeptGap& kept) { return kept.gap->high_mm && *kept.gap->high_mm == 0.0; });
    return touched ? worse(computed, Verdict::contact) : computed;
}

/// How the passage's two mouths move with a pose, towards 12 and towards 3 o'clock.
struct MouthsMoved {
    Vec2 top_mm;
    Vec2 bottom_mm;
};

MouthsMoved mouths_moved(const PassagePose& pose, const Bore& bore) {
    const Vec2 sideways(pose.towards_12_mm, pose.towards_3_mm);
    const Vec2 lean = Vec2(pose.lean_12_rad, pose.lean_3_rad) * bore.length_mm / 2.0;
    return {sideways + lean, sideways - lean};
}

// JSON

QJsonObject mouths_json(const FitAnswer& answer, const Vec2& top_mm, const Vec2& bottom_mm) {
    const double outboard = answer.hand.engine.outboard_y_sign(answer.train());
    return {{"top_forward_in", inches_of(top_mm[0])},
            {"top_outboard_in", inches_of(outboard * top_mm[1])},
            {"bottom_forward_in", inches_of(bottom_mm[0])},
            {"bottom_outboard_in", inches_of(outboard * bottom_mm[1])}};
}

qint64 reading_number(const std::string& name) {
    return QString::fromStdString(name).toLongLong();
}

QJsonObject pose_json(const FitAnswer& answer, const FittedPose& pose, bool fits) {
    const MouthsMoved moved = mouths_moved(pose.pose, answer.passage().bore);
    QJsonObject object = mouths_json(answer, moved.top_mm, moved.bottom_mm);
    QJsonArray gaps;
    for (const GapAtPose& gap : pose.gaps) {
        gaps.append(QJsonObject{{"reading", reading_number(gap.name)},
                                {"gap_in", inches_of(gap.gap_mm)},
                                {"outside_in", inches_of(gap.outside_mm)}});
    }
    QJsonArray weak;
    for (const WeakMovement& movement : pose.weak) {
        QJsonObject each = mouths_json(answer, movement.top_mm, movement.bottom_mm);
        each["left"] = movement.left;
        weak.append(each);
    }
    const CertifiedMinimum& found = pose.minimum.found;
    const auto verdict = fits ? verdict_of(answer, pose) : std::nullopt;
    object["status"] = words::token(found.status);
    object["minimum_in"] =
        found.minimum ? QJsonValue(inches_of(found.minimum->clearance_mm)) : QJsonValue();
    object["lobe_lift_in"] =
        found.minimum ? QJsonValue(inches_of(found.minimum->lobe_lift_mm)) : QJsonValue();
    object["place_doubt_in"] = inches_or_null(pose.minimum.doubt_mm);
    object["engine_doubt_in"] = inches_or_null(rest_of_engine(answer, pose).doubt_mm);
    object["doubt_in"] = inches_or_null(whole_doubt_mm(answer, pose));
    object["verdict"] = verdict ? QJsonValue(words::token(*verdict)) : QJsonValue();
    object["reading_misfit"] = pose.reading_misfit;
    object["stated_misfit"] = pose.stated_misfit;
    object["one_of_a_line"] = pose.one_of_a_line;
    object["gaps"] = gaps;
    object["weak"] = weak;
    return object;
}

QJsonObject gauge_json(const GaugePlace& at) {
    return {{"end", words::token(at.end)},
            {"clock_hours", at.clock_hours},
            {"at", words::token(at.place)}};
}

QJsonValue next_json(const ReadingFit& fit) {
    if (fit.deciding) {
        QJsonObject next = gauge_json(fit.deciding->at);
        QJsonArray expected;
        for (const double mm : fit.deciding->expected_mm) {
            expected.append(inches_of(mm));
        }
        next["expected_in"] = expected;
        next["decides"] = fit.deciding->decides;
        next["doubt_after_in"] = QJsonValue();
        return next;
    }
    if (fit.helpful) {
        QJsonObject next = gauge_json(fit.helpful->at);
        next["expected_in"] = QJsonArray{inches_of(fit.helpful->expected_mm)};
        next["decides"] = QJsonValue();
        next["doubt_after_in"] = inches_of(fit.helpful->doubt_after_mm);
        return next;
    }
    return {};
}

QJsonArray readings_json(const FitAnswer& answer, const std::vector<KeptGap>& gaps) {
    QJsonArray rows;
    for (const KeptGap& kept : gaps) {
        const bool other_passage =
            kept.standing == GapStanding::holds && kept.gap->passage != answer.request.passage;
        QJsonArray fields;
        for (const std::string& field : kept.stale_fields) {
            fields.append(QString::fromStdString(field));
        }
        rows.append(QJsonObject{
            {"reading", static_cast<qint64>(kept.reading.id)},
            {"position", QString::fromStdString(kept.reading.position)},
            {"text", QString::fromStdString(kept.reading.text)},
            {"of_earlier_set_up", kept.reading.set_up_id != answer.request.set_up_id},
            {"standing", other_passage ? QString("other_passage") : words::token(kept.standing)},
            {"stale_fields", fields}});
    }
    return rows;
}

QJsonObject fit_json(const FitAnswer& answer) {
    const ReadingFit& fit = answer.fit;
    const StatedPlace& stated = answer.request.stated;
    QJsonObject object = head_json("rodway-fit", answer.hand);
    object["valve"] = words::valve(answer.request.valve);
    object["passage"] = QString::fromStdString(answer.request.passage);
    object["stated_sideways_in"] = inches_of(two_sided_95 * stated.sideways_u_mm);
    object["stated_lean_deg"] = degrees(two_sided_95 * stated.lean_u_rad);
    object["outcome"] = words::token(fit.outcome);
    object["train_status"] = words::token(fit.train);
    object["used"] = readings_json(answer, answer.used);
    object["left_out"] = readings_json(answer, answer.left_out);
    QJsonArray poses;
    for (const FittedPose& pose : fit.poses) {
        poses.append(pose_json(answer, pose, true));
    }
    object["poses"] = poses;
    object["nearest"] =
        fit.nearest ? QJsonValue(pose_json(answer, *fit.nearest, false)) : QJsonValue();
    object["told_apart_by_readings"] = fit.told_apart_by_readings;
    object["next_reading"] = next_json(fit);
    QJsonArray disagreeing;
    for (const DisagreeingReading& reading : fit.disagreeing) {
        disagreeing.append(QJsonObject{{"reading", reading_number(reading.name)},
                                       {"rest_agrees", reading.rest_agrees},
                                       {"expected_in", inches_of(reading.expected_mm)},
                                       {"off_in", inches_of(reading.off_mm)}});
    }
    object["disagreeing"] = disagreeing;
    object["kept_as"] = answer.kept_as ? QJsonValue(*answer.kept_as) : QJsonValue();
    return object;
}

// Words

const KeptGap* used_reading(const FitAnswer& answer, const std::string& name) {
    for (const KeptGap& kept : answer.used) {
        if (kept.gap->name == name) {
            return &kept;
        }
    }
    return nullptr;
}

/// "reading 4 (rocker end, 3 o'clock, at full lift: .008-.010)".
QString reading_named(const KeptGap& kept) {
    return FitCommands::tr("reading %1 (%2: %3)")
        .arg(QString::number(kept.reading.id),
             kept.gap ? words::gap_place(*kept.gap) : QString::fromStdString(kept.reading.position),
             QString::fromStdString(kept.reading.text));
}

void print_readings(const FitAnswer& answer) {
    for (const KeptGap& kept : answer.used) {
        print(kept.reading.set_up_id == answer.request.set_up_id
                  ? FitCommands::tr("   %1").arg(reading_named(kept))
                  : FitCommands::tr("   %1, taken in an earlier set-up: nothing that acts on it "
                                    "has changed since")
                        .arg(reading_named(kept)));
    }
    for (const KeptGap& kept : answer.left_out) {
        const QString why = kept.standing == GapStanding::holds ? FitCommands::tr("another passage")
                                                                : words::standing(kept);
        print(FitCommands::tr("   left out: %1: %2").arg(reading_named(kept), why));
    }
}

/// A pose's clearance with its doubt, and what that comes to.
QString minimum_text(const FitAnswer& answer, const FittedPose& pose) {
    const CertifiedMinimum& found = pose.minimum.found;
    if (!found.minimum) {
        return words::train_status(found.status, found.status_at_mm, {});
    }
    const QString least = words::inches(found.minimum->clearance_mm);
    const QString place =
        pose.minimum.doubt_mm
            ? FitCommands::tr("the place ± %1").arg(words::inches(*pose.minimum.doubt_mm))
            : FitCommands::tr("the place's doubt not known");
    const RestOfEngine rest = rest_of_engine(answer, pose);
    const QString engine =
        !rest.doubt_mm ? FitCommands::tr("the rest of the engine's doubt not stated")
        : rest.worked_out
            ? FitCommands::tr("the rest of the engine ± %1").arg(words::inches(*rest.doubt_mm))
            : FitCommands::tr("the rest of the engine ± %1, assumed")
                  .arg(words::inches(*rest.doubt_mm));
    const auto whole = whole_doubt_mm(answer, pose);
    return whole ? FitCommands::tr("%1 ± %2 (%3; %4)")
                       .arg(least, words::inches(*whole), place, engine)
                 : FitCommands::tr("%1 (%2; %3)").arg(least, place, engine);
}

void print_pose(const FitAnswer& answer, const FittedPose& pose, const QString& name, bool fits) {
    const auto moved_text = [&](const Vec2& moved_mm) {
        return words::movement(moved_mm, answer.hand.engine, answer.train());
    };
    const MouthsMoved moved = mouths_moved(pose.pose, answer.passage().bore);
    print(FitCommands::tr("%1: rocker end %2; lifter end %3; from where the set-up puts them.")
              .arg(name, moved_text(moved.top_mm), moved_text(moved.bottom_mm)));
    const auto verdict = fits ? verdict_of(answer, pose) : std::nullopt;
    print(verdict ? FitCommands::tr("   Least clearance over the turn: %1. %2.")
                        .arg(minimum_text(answer, pose), words::verdict(*verdict))
                  : FitCommands::tr("   Least clearance over the turn: %1")
                        .arg(minimum_text(answer, pose)));
    for (const GapAtPose& gap : pose.gaps) {
        if (std::abs(gap.outside_mm) < 0.00127) { // a twentieth of a thou
            continue;
        }
        print((gap.outside_mm > 0.0
                   ? FitCommands::tr("   Its gap at reading %1 is %2: %3 more than was felt.")
                   : FitCommands::tr("   Its gap at reading %1 is %2: %3 less than was felt."))
                  .arg(QString::fromStdString(gap.name), words::size(gap.gap_mm),
                       words::size(std::abs(gap.outside_mm))));
    }
    if (pose.one_of_a_line) {
        print(FitCommands::tr(
            "   Places all along a line through it fit as well; its ± takes them in."));
    }
    for (const WeakMovement& weak : pose.weak) {
        print(FitCommands::tr("   Hardly known from these readings: the rocker end %1 with the "
                              "lifter end %2, or both the other way (so much is one standard "
                              "deviation).")
                  .arg(moved_text(weak.top_mm), moved_text(weak.bottom_mm)));
    }
}

void print_next(const FitAnswer& answer) {
    const ReadingFit& fit = answer.fit;
    if (fit.deciding) {
        QStringList expected;
        for (std::size_t at = 0; at < fit.deciding->expected_mm.size(); ++at) {
            expected << FitCommands::tr("%1 by place %2")
                            .arg(words::inches(fit.deciding->expected_mm[at]))
                            .arg(at + 1);
        }
        print(FitCommands::tr("Next: try a gauge at the %1: %2.")
                  .arg(words::gauge_place(fit.deciding->at), expected.join(", ")));
        print(fit.deciding->decides
                  ? FitCommands::tr("   Whatever is felt there leaves one place.")
                  : FitCommands::tr("   It may not decide by itself, but no other one reading "
                                    "tells them apart better."));
    } else if (fit.poses.size() > 1 && !fit.told_apart_by_readings) {
        print(FitCommands::tr("No one more gap would tell these places apart."));
    }
    if (fit.helpful) {
        print(FitCommands::tr("Next, if it is to be known better: try a gauge at the %1: about %2. "
                              "It would bring the place's ± down to %3.")
                  .arg(words::gauge_place(fit.helpful->at), words::inches(fit.helpful->expected_mm),
                       words::inches(fit.helpful->doubt_after_mm)));
    }
}

void print_disagreeing(const FitAnswer& answer) {
    for (const DisagreeingReading& reading : answer.fit.disagreeing) {
        const KeptGap* kept = used_reading(answer, reading.name);
        const QString doubt =
            reading.expected_u_mm
                ? FitCommands::tr(" ± %1").arg(words::inches(two_sided_95 * *reading.expected_u_mm))
                : QString();
        const QString off = words::inches(std::abs(reading.off_mm));
        print(
            (reading.rest_agrees
                 ? FitCommands::tr("   Disagrees: %1. By all the others the gap there is %2%3: %4.")
                 : FitCommands::tr(
                       "   Misses: %1. By the nearest place the gap there is %2%3: %4."))
                .arg(kept ? reading_named(*kept) : QString::fromStdString(reading.name),
                     words::inches(reading.expected_mm), doubt,
                     reading.off_mm > 0.0 ? FitCommands::tr("%1 more than was felt").arg(off)
                                          : FitCommands::tr("%1 less than was felt").arg(off)));
    }
}

void print_fit(const FitAnswer& answer) {
    const ReadingFit& fit = answer.fit;
    const StatedPlace& stated = answer.request.stated;
    print_head(answer.hand);
    print(FitCommands::tr("%1, %2: readings that count: %3. The set-up's place is taken as ± %4 "
                          "sideways and ± %5 of lean.")
              .arg(words::valve(answer.request.valve),
                   QString::fromStdString(answer.request.passage),
                   QString::number(answer.used.size()),
                   words::inches(two_sided_95 * stated.sideways_u_mm),
                   words::crank_degrees(degrees(two_sided_95 * stated.lean_u_rad))));
    print_readings(answer);
    print({});
    print(words::fit_outcome(fit));
    for (std::size_t at = 0; at < fit.poses.size(); ++at) {
        print_pose(answer, fit.poses[at], FitCommands::tr("Place %1").arg(at + 1), true);
    }
    if (fit.nearest) {
        print_pose(answer, *fit.nearest, FitCommands::tr("Nearest"), false);
    }
    print_disagreeing(answer);
    print_next(answer);
}

/// Whether there is a place to keep.
bool has_fitted_place(const ReadingFit& fit) {
    return fit.outcome == FitOutcome::fitted || fit.outcome == FitOutcome::several_fit;
}

/// Writes the first place into a new set-up, which becomes the one in hand, as one act.
Result<QString> keep_place(ShopSession& session, const FitAnswer& answer) {
    const auto fields =
        fields_at_pose(answer.hand.set_up.fields, answer.hand.engine, answer.request.valve,
                       answer.request.passage, answer.fit.poses.front().pose);
    if (!fields) {
        return fields.error();
    }
    const QString name = FitCommands::tr("%1, %2 %3 fitted")
                             .arg(QString::fromStdString(answer.hand.set_up.name),
                                  words::valve(answer.request.valve),
                                  QString::fromStdString(answer.request.passage));
    const auto id = add_set_up(session, answer.hand.build.id, name, *fields);
    if (!id) {
        return id.error();
    }
    return name;
}

void print_kept(const FitAnswer& answer) {
    print({});
    print(FitCommands::tr("Place 1 is kept: “%1” is now the set-up in hand; the ones before are "
                          "kept. The readings it was fitted to have had their say and count as "
                          "stale from now on; fit again with new ones, and say how well the place "
                          "is known now (--stated-sideways, --stated-lean).")
              .arg(*answer.kept_as));
    if (answer.fit.outcome == FitOutcome::several_fit && !answer.fit.told_apart_by_readings) {
        print(
            FitCommands::tr("It is not the only place that fits: nothing that was felt speaks "
                            "against the others."));
    }
}

/// `rodway fit`: where one passage stands, by the gaps felt round its rod.
Shown fit_command(ShopSession& session, const FitOptions& options) {
    auto found = fitted_answer(session.shop(), options);
    if (!found) {
        return found.error();
    }
    FitAnswer answer = *std::move(found);
    const ReadingFit& fit = answer.fit;
    if (options.keep && has_fitted_place(fit)) {
        const auto name = keep_place(session, answer);
        if (!name) {
            return name.error();
        }
        answer.kept_as = *name;
    }
    if (options.json) {
        print_json(fit_json(answer));
    } else {
        print_fit(answer);
        if (answer.kept_as) {
            print_kept(answer);
        }
    }
    if (options.keep && !answer.kept_as) {
        complain(FitCommands::tr("rodway: nothing is kept: no place was fitted."));
        return ExitCode::no_answer;
    }
    const bool answered = !fit.poses.empty() && fit.poses.front().minimum.found.minimum.has_value();
    return answered ? ExitCode::done : ExitCode::no_answer;
}

} // namespace

void add_fit_commands(CLI::App& program, CommandOutcome& outcome) {
    auto options = std::make_shared<FitOptions>();
    const auto word = [](const QString& text) { return text.toStdString(); };
    auto* fit = program.add_subcommand(
        "fit", word(FitCommands::tr("Where a tube stands, by the gaps felt round its rod")));
    add_build_options(*fit, *options);
    fit->add_option("valve", options->valve, word(FitCommands::tr("Valve, such as 3I")))
        ->required();
    fit->add_option("--passage", options->passage,
                    word(FitCommands::tr("Passage, if not the port tube")));
    fit->add_option("--stated-sideways", options->sideways,
                    word(FitCommands::tr("How well the set-up's place is known sideways: ± this, "
                                         "19 times in 20 (.020; left out: .039)")));
    fit->add_option("--stated-lean", options->lean,
                    word(FitCommands::tr("How well its lean is known: ± degrees, 19 times in 20 "
                                         "(left out: 1.1)")));
    fit->add_flag("--keep", options->keep,
                  word(FitCommands::tr("Write the first place that fits into a new set-up, which "
                                       "becomes the one in hand")));
    fit->add_option("--by", options->who, word(FitCommands::tr("Who does this (initials)")));
    fit->callback([=, &outcome] {
        auto shop = ShopFile::open(options->shop);
        if (!shop) {
            outcome.code = refuse(shop.error(), QString::fromStdString(options->shop));
            return;
        }
        ShopSession session(std::move(shop).value(), QString::fromStdString(options->who));
        const Shown shown = fit_command(session, *options);
        outcome.code = shown ? *shown : refuse(shown.error());
    });
}

} // namespace rodway
