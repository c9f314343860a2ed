#include "app/command_line/fit_answer.h"

#include <QCoreApplication>
#include <algorithm>
#include <cmath>

#include "app/first_run/new_build.h"
#include "app/words/clearance_words.h"
#include "core/clearance/doubt.h"
#include "core/units/typed_text.h"
#include "db/reading_store.h"

namespace rodway {
namespace {

struct FitAnswerWords {
    Q_DECLARE_TR_FUNCTIONS(FitAnswerWords)
};

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

} // namespace

Result<FitAnswer> prepared_fit(ShopFile& shop, const FitOptions& options) {
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
    return answer;
}

Result<FitAnswer> with_fit(FitAnswer answer) {
    std::vector<GapReading> gaps;
    for (const KeptGap& kept : answer.used) {
        gaps.push_back(*kept.gap);
        gaps.back().set_up_id = answer.request.set_up_id; // as good as taken in it
    }
    auto fit = fit_readings(answer.hand.engine, answer.request, gaps);
    if (!fit) {
        return fit.error();
    }
    answer.fit = *std::move(fit);
    return answer;
}

Result<FitAnswer> fitted_answer(ShopFile& shop, const FitOptions& options) {
    auto prepared = prepared_fit(shop, options);
    return prepared ? with_fit(*std::move(prepared)) : prepared;
}

bool has_fitted_place(const ReadingFit& fit) {
    return fit.outcome == FitOutcome::fitted || fit.outcome == FitOutcome::several_fit;
}

Result<QString> keep_fitted_place(ShopSession& session, const FitAnswer& answer) {
    const auto fields = fields_at_pose(
        answer.hand.set_up.fields, answer.hand.engine, answer.request.valve, answer.request.passage,
        answer.fit.poses.front().pose, answer.fit.poses.front().minimum.doubt_mm);
    if (!fields) {
        return fields.error();
    }
    const QString name = FitAnswerWords::tr("%1, %2 %3 fitted")
                             .arg(QString::fromStdString(answer.hand.set_up.name),
                                  words::valve(answer.request.valve),
                                  QString::fromStdString(answer.request.passage));
    const auto id = add_set_up(session, answer.hand.build.id, name, *fields);
    if (!id) {
        return id.error();
    }
    return name;
}

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
        const auto put_there = [&](Passage& passage) {
            if (passage.name == answer.request.passage) {
                passage.bore = at_pose(passage.bore, pose.pose);
                passage.fitted_doubt_mm.reset(); // of the fit before this one
            }
        };
        put_there(train.tube);
        std::for_each(train.further_passages.begin(), train.further_passages.end(), put_there);
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

std::optional<double> whole_doubt_mm(const FitAnswer& answer, const FittedPose& pose) {
    const RestOfEngine rest = rest_of_engine(answer, pose);
    if (!rest.doubt_mm || !pose.minimum.doubt_mm) {
        return std::nullopt;
    }
    return std::hypot(*rest.doubt_mm, *pose.minimum.doubt_mm);
}

std::optional<double> felt_at_most_mm(const FitAnswer& answer) {
    std::optional<double> most;
    for (const KeptGap& kept : answer.used) {
        if (kept.gap->high_mm) {
            const double here = *kept.gap->high_mm + two_sided_95 * answer.request.gauges.u_mm;
            most = std::min(most.value_or(here), here);
        }
    }
    return most;
}

std::optional<Verdict> verdict_of(const FitAnswer& answer, const FittedPose& pose) {
    const auto& minimum = pose.minimum.found.minimum;
    if (!minimum) {
        return std::nullopt;
    }
    const RodClearanceLimits limits{answer.hand.engine.rod_clearance_limit_mm};
    Verdict computed = judge(minimum->clearance_mm, whole_doubt_mm(answer, pose), limits);
    if (const auto felt = felt_at_most_mm(answer); felt && *felt < limits.least_mm) {
        computed = worse(computed, Verdict::failed);
    }
    const bool touched = std::any_of(
        answer.used.begin(), answer.used.end(),
        [](const KeptGap& kept) { return kept.gap->high_mm && *kept.gap->high_mm == 0.0; });
    return touched ? worse(computed, Verdict::contact) : computed;
}

MouthsMoved mouths_moved(const PassagePose& pose, const Bore& bore) {
    const Vec2 sideways(pose.towards_12_mm, pose.towards_3_mm);
    const Vec2 lean = Vec2(pose.lean_12_rad, pose.lean_3_rad) * bore.length_mm / 2.0;
    return {sideways + lean, sideways - lean};
}

} // namespace rodway
