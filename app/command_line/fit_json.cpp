#include "app/command_line/fit_json.h"

#include <QJsonArray>

#include "app/words/clearance_words.h"

namespace rodway {
namespace {

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
    object["felt_at_most_in"] = inches_or_null(fits ? felt_at_most_mm(answer) : std::nullopt);
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

} // namespace

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

} // namespace rodway
