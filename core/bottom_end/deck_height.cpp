#include "core/bottom_end/deck_height.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>

#include "core/units/within.h"

namespace rodway {
namespace {

using Bank = std::vector<DeckReading>;

std::optional<Error> wrong_bank(const Bank& bank) {
    if (bank.empty()) {
        return Error{ErrorCode::too_few_rows, "deck", "0", "1", {}, {}};
    }
    const Limits depths{-50.0, 50.0, "mm"};
    for (std::size_t at = 0; at < bank.size(); ++at) {
        const int line = static_cast<int>(at) + 1;
        if (auto bad = outside("along", bank[at].along_mm, {-5000.0, 5000.0, "mm"}, line)) {
            return bad;
        }
        for (const auto& rocked : {bank[at].rocked_one_way_mm, bank[at].rocked_other_way_mm}) {
            if (rocked) {
                if (auto bad = wrong_interval("deck", *rocked, depths, line)) {
                    return bad;
                }
            }
        }
        for (std::size_t before = 0; before < at; ++before) {
            if (bank[before].cylinder == bank[at].cylinder) {
                return Error{ErrorCode::duplicate_field,
                             "cylinder",
                             std::to_string(bank[at].cylinder),
                             {},
                             line,
                             {}};
            }
        }
    }
    return std::nullopt;
}

DeckCylinder cylinder_of(const DeckReading& reading) {
    DeckCylinder cylinder{reading.cylinder, {}, {}};
    const auto& one = reading.rocked_one_way_mm;
    const auto& other = reading.rocked_other_way_mm;
    if (one && other) {
        cylinder.below_mm = (*one + *other) * 0.5;
        const Interval both[] = {*one, *other};
        cylinder.rocked_mm = reading_spread(both);
    }
    return cylinder;
}

/// A measured piston: where along the block, and how far below.
struct Point {
    double along_mm = 0.0;
    double below_mm = 0.0;
    int cylinder = 0;
};

std::vector<Point> points_of(const DeckSurvey& survey, const Bank& bank) {
    std::vector<Point> points;
    for (std::size_t at = 0; at < bank.size(); ++at) {
        if (const auto& below = survey.cylinders[at].below_mm) {
            points.push_back({bank[at].along_mm, below->middle(), bank[at].cylinder});
        }
    }
    return points;
}

/// Least squares; nothing if all stand at one place, or there are fewer than three.
std::optional<DeckLine> line_through(const std::vector<Point>& points) {
    if (points.size() < 3) {
        return std::nullopt;
    }
    const auto count = static_cast<double>(points.size());
    double along_mm = 0.0;
    double below_mm = 0.0;
    for (const Point& point : points) {
        along_mm += point.along_mm / count;
        below_mm += point.below_mm / count;
    }
    double squares = 0.0;
    double products = 0.0;
    for (const Point& point : points) {
        squares += (point.along_mm - along_mm) * (point.along_mm - along_mm);
        products += (point.along_mm - along_mm) * (point.below_mm - below_mm);
    }
    if (squares <= 0.0) {
        return std::nullopt;
    }
    const auto at = [&](double place_mm) {
        return below_mm + products / squares * (place_mm - along_mm);
    };
    DeckLine line;
    const auto [front, rear] =
        std::minmax_element(points.begin(), points.end(),
                            [](const Point& a, const Point& b) { return a.along_mm < b.along_mm; });
    line.front_mm = at(front->along_mm);
    line.rear_mm = at(rear->along_mm);
    line.worst_cylinder = points.front().cylinder;
    for (const Point& point : points) {
        const double off_mm = std::abs(point.below_mm - at(point.along_mm));
        if (off_mm > line.worst_off_mm) {
            line.worst_off_mm = off_mm;
            line.worst_cylinder = point.cylinder;
        }
    }
    return line;
}

void compare_cylinders(DeckSurvey& survey, const Bank& bank) {
    std::vector<Interval> measured;
    std::size_t front = 0;
    std::size_t rear = 0;
    double nearest_mm = std::numeric_limits<double>::infinity();
    double furthest_mm = -nearest_mm;
    for (std::size_t at = 0; at < bank.size(); ++at) {
        const auto& below = survey.cylinders[at].below_mm;
        if (!below) {
            continue;
        }
        if (measured.empty() || bank[at].along_mm < bank[front].along_mm) {
            front = at;
        }
        if (measured.empty() || bank[at].along_mm > bank[rear].along_mm) {
            rear = at;
        }
        measured.push_back(*below);
        if (below->middle() < nearest_mm) {
            nearest_mm = below->middle();
            survey.nearest = bank[at].cylinder;
        }
        if (below->middle() > furthest_mm) {
            furthest_mm = below->middle();
            survey.furthest = bank[at].cylinder;
        }
    }
    survey.measured = static_cast<int>(measured.size());
    survey.spread_mm = reading_spread(measured);
    if (front != rear) {
        survey.taper_mm = *survey.cylinders[rear].below_mm - *survey.cylinders[front].below_mm;
    }
}

} // namespace

Result<DeckSurvey> survey_deck(const std::vector<DeckReading>& bank) {
    if (const auto bad = wrong_bank(bank)) {
        return *bad;
    }
    DeckSurvey survey;
    for (const DeckReading& reading : bank) {
        survey.cylinders.push_back(cylinder_of(reading));
    }
    compare_cylinders(survey, bank);
    survey.line = line_through(points_of(survey, bank));
    return survey;
}

Result<DeckCut> deck_cut(const std::vector<DeckReading>& bank, double target_mm) {
    const auto survey = survey_deck(bank);
    if (!survey) {
        return survey.error();
    }
    if (auto bad = outside("target", target_mm, {-20.0, 20.0, "mm"})) {
        return *bad;
    }
    const std::vector<Point> points = points_of(*survey, bank);
    if (points.empty()) {
        return Error{ErrorCode::missing_field, "deck", {}, {}, {}, {}};
    }
    const auto shallower = [](const Point& a, const Point& b) { return a.below_mm < b.below_mm; };
    DeckCut cut;
    cut.parallel_mm =
        std::min_element(points.begin(), points.end(), shallower)->below_mm - target_mm;
    if (!survey->line) {
        return cut;
    }
    cut.front_mm = survey->line->front_mm - target_mm;
    cut.rear_mm = survey->line->rear_mm - target_mm;
    const auto [front, rear] =
        std::minmax_element(points.begin(), points.end(),
                            [](const Point& a, const Point& b) { return a.along_mm < b.along_mm; });
    double nearest_mm = std::numeric_limits<double>::infinity();
    for (const Point& point : points) {
        const double share =
            (point.along_mm - front->along_mm) / (rear->along_mm - front->along_mm);
        const double taken_mm = *cut.front_mm + share * (*cut.rear_mm - *cut.front_mm);
        nearest_mm = std::min(nearest_mm, point.below_mm - taken_mm);
    }
    cut.nearest_below_mm = nearest_mm;
    return cut;
}

Result<DeckLie> deck_lie(const DeckCorners& corners) {
    const auto& fi = corners.front_inboard_mm;
    const auto& fo = corners.front_outboard_mm;
    const auto& ri = corners.rear_inboard_mm;
    const auto& ro = corners.rear_outboard_mm;
    std::vector<Interval> measured;
    for (const auto& corner : {fi, fo, ri, ro}) {
        if (corner) {
            if (auto bad = wrong_interval("corner", *corner, {20.0, 2000.0, "mm"})) {
                return *bad;
            }
            measured.push_back(*corner);
        }
    }
    DeckLie lie;
    lie.spread_mm = reading_spread(measured);
    if (fi && fo && ri && ro) {
        lie.rear_higher_mm = ((*ri + *ro) - (*fi + *fo)) * 0.5;
        lie.outboard_higher_mm = ((*fo + *ro) - (*fi + *ri)) * 0.5;
        lie.twist_mm = (*fi + *ro) - (*fo + *ri);
    }
    return lie;
}

Result<SizeStack> expected_below_deck(const Interval& deck_height_mm, const Interval& stroke_mm,
                                      const Interval& rod_mm,
                                      const Interval& compression_height_mm) {
    return stack_of({{deck_height_mm, false},
                     {stroke_mm * 0.5, true},
                     {rod_mm, true},
                     {compression_height_mm, true}});
}

} // namespace rodway
