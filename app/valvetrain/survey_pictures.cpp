#include "app/valvetrain/survey_pictures.h"

#include <QCoreApplication>
#include <algorithm>
#include <limits>

#include "app/words/clearance_words.h"
#include "app/words/lengths.h"
#include "core/units/length.h"

namespace rodway {
namespace {

struct Pictures {
    Q_DECLARE_TR_FUNCTIONS(Pictures)
};

/// Every second crank degree: a curve drawn some 700 pixels wide shows no more.
constexpr int curve_steps = 360;

const ValveClearance* line_of(const std::vector<ValveClearance>& lines,
                              const ValvePosition& valve) {
    const auto found = std::find_if(lines.begin(), lines.end(), [&](const ValveClearance& line) {
        return line.position == valve;
    });
    return found == lines.end() ? nullptr : &*found;
}

QString thousandths(double mm) {
    QString text = words::inches(mm);
    text.chop(text.size() - text.indexOf(' '));
    return text.replace("0.", ".");
}

/// The engine's own limit, and above it what a builder would rather have.
std::vector<CurveLimit> curve_limits(const Engine& engine) {
    const RodClearanceLimits limits{engine.rod_clearance_limit_mm};
    const auto line = [](const QString& words, double mm, bool wish) {
        return CurveLimit{words.arg(thousandths(mm)), Length::mm(mm).in_inches(), wish};
    };
    std::vector<CurveLimit> lines{line(Pictures::tr("limit %1"), limits.least_mm, false)};
    if (limits.wanted_mm > limits.least_mm) {
        lines.push_back(line(Pictures::tr("wanted at mock-up %1"), limits.wanted_mm, true));
    }
    return lines;
}

} // namespace

CheckState check_state(const std::optional<Verdict>& verdict) {
    if (!verdict) {
        return CheckState::no_answer;
    }
    switch (*verdict) {
        case Verdict::passed:
        case Verdict::passed_little_room:
        case Verdict::passed_for_now:
            return CheckState::passed;
        case Verdict::too_close_to_call:
            return CheckState::too_close;
        case Verdict::failed:
        case Verdict::contact:
            return CheckState::failed;
        case Verdict::no_doubt_given:
            return CheckState::not_yet;
    }
    return CheckState::not_yet;
}

PlanContent survey_plan(const Engine& engine, const std::vector<ValveClearance>& lines,
                        const ByHand& by_hand) {
    PlanContent plan = places_of(engine);
    plan.front_label = Pictures::tr("Front");
    plan.intake_letter = Pictures::tr("I");
    plan.exhaust_letter = Pictures::tr("E");
    for (PlanValve& valve : plan.valves) {
        if (const ValveClearance* line = line_of(lines, valve.position)) {
            valve.state = check_state(
                ruling(*line, by_hand, RodClearanceLimits{engine.rod_clearance_limit_mm}));
            if (line->found.minimum) {
                valve.value = thousandths(line->found.minimum->clearance_mm);
            }
        }
    }
    return plan;
}

ClearanceCurveContent survey_curves(const Engine& engine, const std::vector<ValveClearance>& lines,
                                    const std::vector<ValvePosition>& valves) {
    ClearanceCurveContent content;
    content.crank_title = Pictures::tr("Crank, degrees from cylinder 1 firing");
    content.clearance_title = Pictures::tr("Clearance, in");
    content.lift_title = Pictures::tr("Valve lift, in");
    content.limits = curve_limits(engine);
    for (const ValvePosition& position : valves) {
        const Train* train = engine.train(position);
        if (!train) {
            continue;
        }
        const auto closed = train_surroundings(engine, *train);
        if (!closed || !closed->surroundings) {
            continue;
        }
        CurveSeries clearance{words::valve(position), {}, {}};
        CurveSeries lift = clearance;
        for (int at = 0; at <= curve_steps; ++at) {
            const double deg = 720.0 * at / curve_steps;
            const double lobe = engine.lobe_lift_mm(position, CrankAngle::deg(deg));
            const auto found = least_clearance_at(*closed->surroundings, lobe);
            const auto pose = closed->surroundings->linkage.at(lobe);
            constexpr double gap = std::numeric_limits<double>::quiet_NaN();
            clearance.crank_deg.push_back(deg);
            clearance.value.push_back(found ? Length::mm(found->clearance_mm).in_inches() : gap);
            lift.crank_deg.push_back(deg);
            lift.value.push_back(
                pose ? Length::mm(closed->surroundings->linkage.valve_lift_mm(*pose)).in_inches()
                     : gap);
        }
        const ValveClearance* line = line_of(lines, position);
        if (line && line->found.minimum) {
            content.marks.push_back(
                {content.clearance.size(), angle_of_minimum(engine, *line).in_deg(),
                 Length::mm(line->found.minimum->clearance_mm).in_inches(),
                 line->doubt_mm ? std::optional(Length::mm(*line->doubt_mm).in_inches())
                                : std::nullopt});
        }
        content.clearance.push_back(clearance);
        content.lift.push_back(lift);
    }
    return content;
}

ClosestSpot closest_spot(const Engine& engine, const ValveClearance& line) {
    RODWAY_ASSERT(line.found.minimum.has_value());
    const RodClearance& minimum = *line.found.minimum;
    const BankFrame& frame = engine.layout.bank_of(line.position.cylinder).frame;
    ClosestSpot spot;
    spot.valve = line.position;
    spot.p_rod_E = frame.to_block(minimum.p_rod_K);
    spot.p_wall_E = frame.to_block(minimum.p_wall_K);
    spot.label = Pictures::tr("%1: %2\n%3\n%4")
                     .arg(words::valve(line.position), words::inches(minimum.clearance_mm),
                          words::place(minimum, engine), words::when(line));
    return spot;
}

CrankAngle angle_of_minimum(const Engine& engine, const ValveClearance& line) {
    // Opposite full lift, the lobe stands in the middle of its heel.
    return line.opening
               ? *line.opening
               : (engine.full_lift_angle(line.position) + CrankAngle::deg(360.0)).in_cycle();
}

PictureRequest survey_picture(const Engine& engine, const ValveClearance* line, PictureSize size,
                              const Palette& palette) {
    PictureRequest request;
    request.frame.scene = Scene::build(engine);
    request.frame.palette = palette;
    request.frame.size = size;
    request.frame.camera = framed(Camera{}, request.frame.scene->bounds(), size);
    if (line && line->found.minimum) {
        request.frame.crank = angle_of_minimum(engine, *line);
        request.frame.show.selected = line->position;
        request.frame.show.others = Others::faded;
        request.closest = closest_spot(engine, *line);
        if (const auto box = request.frame.scene->bounds(line->position)) {
            request.frame.camera = framed(request.frame.camera, *box, size);
        }
    }
    return request;
}

} // namespace rodway
