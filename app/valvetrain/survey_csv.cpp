#include "app/valvetrain/survey_csv.h"

#include <cmath>

#include "app/words/clearance_words.h"
#include "core/files/readings_csv.h"
#include "core/units/length.h"
#include "core/units/typed_text.h"

namespace rodway {
namespace {

const char* const byte_order_mark = "\xEF\xBB\xBF"; // or spreadsheets take it for another encoding

void put_line(std::string& out, const std::vector<std::string>& cells) {
    for (std::size_t at = 0; at < cells.size(); ++at) {
        out += (at == 0 ? "" : ",") + csv_cell(cells[at]);
    }
    out += "\r\n";
}

/// To a millionth of an inch: far less than anything is known to.
std::string inch_cell(std::optional<double> mm) {
    constexpr double steps = 1e6;
    return mm ? exact_text(std::round(Length::mm(*mm).in_inches() * steps) / steps) : std::string();
}

std::string degree_cell(const std::optional<CrankAngle>& angle) {
    return angle ? exact_text(std::round(1e3 * angle->in_deg()) / 1e3) : std::string();
}

std::optional<double> clearance_of(const std::optional<RodClearance>& found) {
    return found ? std::optional(found->clearance_mm) : std::nullopt;
}

std::string number_cell(double value) {
    return std::isnan(value) ? std::string() : exact_text(std::round(1e6 * value) / 1e6);
}

} // namespace

QByteArray survey_csv(const Engine& engine, const std::vector<ValveClearance>& lines,
                      const ByHand& by_hand) {
    std::string out = byte_order_mark;
    put_line(out, {"valve", "status", "on_heel_in", "at_full_lift_in", "least_in", "doubt_in",
                   "opening_crank_deg", "closing_crank_deg", "thing", "wall", "end", "clock_hours",
                   "depth_in", "limit_in", "verdict", "by_hand_verdict"});
    const RodClearanceLimits limits{engine.rod_clearance_limit_mm};
    for (const ValveClearance& line : lines) {
        const CertifiedMinimum& found = line.found;
        const PlaceInPassage* place =
            found.minimum && found.minimum->in_passage ? &*found.minimum->in_passage : nullptr;
        const auto hand = by_hand.find(line.position);
        put_line(
            out,
            {position_name(line.position), words::token(found.status).toStdString(),
             inch_cell(clearance_of(found.on_heel)), inch_cell(clearance_of(found.at_full_lift)),
             inch_cell(clearance_of(found.minimum)), inch_cell(line.doubt_mm),
             degree_cell(line.opening), degree_cell(line.closing),
             found.minimum ? words::feature_token(found).toStdString() : std::string(),
             place != nullptr ? words::token(place->wall).toStdString() : std::string(),
             place != nullptr ? words::token(place->end).toStdString() : std::string(),
             place != nullptr ? number_cell(place->clock_hours) : std::string(),
             place != nullptr ? inch_cell(place->depth_mm) : std::string(),
             inch_cell(engine.rod_clearance_limit_mm),
             line.verdict ? words::token(*line.verdict).toStdString() : std::string(),
             hand != by_hand.end() ? words::token(judge(hand->second, limits)).toStdString()
                                   : std::string()});
    }
    return QByteArray::fromStdString(out);
}

QByteArray curves_csv(const ClearanceCurveContent& content) {
    std::string out = byte_order_mark;
    std::vector<std::string> head{"crank_deg"};
    for (const CurveSeries& series : content.clearance) {
        head.push_back(series.name.toStdString() + "_clearance_in");
    }
    for (const CurveSeries& series : content.lift) {
        head.push_back(series.name.toStdString() + "_lift_in");
    }
    put_line(out, head);
    const std::size_t rows =
        content.clearance.empty() ? 0 : content.clearance.front().crank_deg.size();
    for (std::size_t row = 0; row < rows; ++row) {
        std::vector<std::string> cells{number_cell(content.clearance.front().crank_deg[row])};
        for (const auto* curves : {&content.clearance, &content.lift}) {
            for (const CurveSeries& series : *curves) {
                cells.push_back(number_cell(series.value[row]));
            }
        }
        put_line(out, cells);
    }
    return QByteArray::fromStdString(out);
}

} // namespace rodway
