#include "app/valvetrain/tube_pictures.h"

#include <QCoreApplication>
#include <algorithm>
#include <cmath>

#include "app/words/clearance_words.h"
#include "app/words/lengths.h"
#include "core/clearance/gap_at.h"

namespace rodway {
namespace {

struct TubePictures {
    Q_DECLARE_TR_FUNCTIONS(TubePictures)
};

/// The rod's way through a passage is one curve by lobe lift: so many places of it are drawn.
constexpr int lifts_drawn = 48;

/// A clearance this far up or down from a cut still belongs to it.
constexpr double same_cut_mm = 1.0;

/// One plane across a passage, and how its directions lie.
struct CutPlane {
    Vec3 middle_K;
    Vec3 axis_K;
    Vec3 twelve_K;
    Vec3 three_K;

    CutPlane(const Bore& bore, double depth_mm)
        : middle_K(bore.centre_K + (0.5 * bore.length_mm - depth_mm) * bore.axis_K),
          axis_K(bore.axis_K),
          twelve_K(clock_direction_K(bore, 12.0)),
          three_K(clock_direction_K(bore, 3.0)) {}

    [[nodiscard]] Vec2 flat(const Vec3& way_K) const {
        return {way_K.dot(three_K), way_K.dot(twelve_K)};
    }
    [[nodiscard]] Vec2 seen(const Vec3& point_K) const { return flat(point_K - middle_K); }
};

/// How far a rounded edge has opened the bore at a depth below (or above) its mouth.
double opened_mm(double edge_radius_mm, double from_mouth_mm) {
    if (from_mouth_mm >= edge_radius_mm) {
        return 0.0;
    }
    const double rest = edge_radius_mm - std::max(0.0, from_mouth_mm);
    return edge_radius_mm - std::sqrt(edge_radius_mm * edge_radius_mm - rest * rest);
}

BoreCut bore_cut(const Bore& bore, const CutPlane& plane, double depth_mm) {
    BoreCut cut;
    cut.radius_mm = bore.bore_radius_mm + opened_mm(bore.top_edge_radius_mm, depth_mm) +
                    opened_mm(bore.bottom_edge_radius_mm, bore.length_mm - depth_mm);
    cut.half_straight_mm = bore.half_straight_mm;
    const Vec2 way = plane.flat(bore.long_way_K);
    if (bore.half_straight_mm > 0.0 && way.norm() > 1e-9) {
        cut.long_way_mm = way.normalized();
    }
    return cut;
}

/// The rod where its axis crosses the plane; nothing where it ends short of it.
std::optional<RodCut> rod_cut(const CutPlane& plane, const Pose& pose, const RoundSections& rod) {
    const Vec3 along = (pose.upper_ball_K - pose.lower_ball_K).normalized();
    const double square = along.dot(plane.axis_K);
    if (std::abs(square) < 0.1) {
        return std::nullopt;
    }
    const double station = (plane.middle_K - pose.lower_ball_K).dot(plane.axis_K) / square;
    double radius = 0.0;
    for (const RoundSection& section : rod) {
        if (station >= section.from_mm && station <= section.to_mm) {
            radius = std::max(radius, section.radius_at(station));
        }
    }
    if (radius <= 0.0) {
        return std::nullopt;
    }
    RodCut cut;
    cut.at_mm = plane.seen(pose.lower_ball_K + station * along);
    cut.radius_mm = radius;
    cut.long_radius_mm = radius / std::abs(square);
    const Vec2 leans = plane.flat(along);
    cut.leans = leans.norm() > 1e-9 ? Vec2(leans.normalized()) : Vec2(Vec2::UnitX());
    return cut;
}

const ValveClearance* line_of_valve(const std::vector<ValveClearance>& lines,
                                    const ValvePosition& valve) {
    const auto found = std::find_if(lines.begin(), lines.end(), [&](const ValveClearance& line) {
        return line.position == valve;
    });
    return found == lines.end() ? nullptr : &*found;
}

const Passage* passage_of(const Train& train, std::size_t number) {
    if (number == 0) {
        return &train.tube;
    }
    return number <= train.further_passages.size() ? &train.further_passages[number - 1] : nullptr;
}

/// The rod's certified least clearance in that passage over the turn, or nothing.
const RodClearance* least_in(const std::vector<ValveClearance>& lines, const TubeChoice& choice) {
    const ValveClearance* line = line_of_valve(lines, choice.valve);
    std::size_t passage = 0;
    for (std::size_t at = 0; line != nullptr && at < line->all.size(); ++at) {
        const CertifiedMinimum& found = line->all[at];
        if (found.kind != FeatureKind::port_tube && found.kind != FeatureKind::passage) {
            continue;
        }
        if (passage++ == choice.passage) {
            return found.minimum ? &*found.minimum : nullptr;
        }
    }
    return nullptr;
}

QString said(const RodClearance& found, const Engine& engine) {
    return TubePictures::tr("%1, %2").arg(words::inches(found.clearance_mm),
                                          words::place(found, engine));
}

/// When the least is met: in words where it is the valve's own least, else by the lobe.
QString met(const ValveClearance& line, const RodClearance& least) {
    const bool own = line.found.minimum && line.found.minimum->feature == least.feature &&
                     line.found.minimum->lobe_lift_mm == least.lobe_lift_mm;
    return own ? words::when(line)
               : TubePictures::tr("at %1 of lobe lift").arg(words::inches(least.lobe_lift_mm));
}

/// Titles, notes and cuts of a train that closes.
struct TubeMaker {
    const Engine& engine;
    const Bore& bore;
    const TrainSurroundings& around;
    const RodClearance* least;

    [[nodiscard]] TubeSlice slice(const QString& title, double depth_mm, double lobe_lift_mm) const;
};

TubeSlice TubeMaker::slice(const QString& title, double depth_mm, double lobe_lift_mm) const {
    const CutPlane plane(bore, depth_mm);
    TubeSlice made;
    made.title = title;
    made.bore = bore_cut(bore, plane, depth_mm);
    if (const auto pose = around.linkage.at(lobe_lift_mm)) {
        made.rod = rod_cut(plane, *pose, around.rod);
    }
    for (int at = 0; at <= lifts_drawn; ++at) {
        if (const auto pose = around.linkage.at(around.full_lift_mm * at / lifts_drawn)) {
            if (const auto cut = rod_cut(plane, *pose, around.rod)) {
                made.turn.push_back(*cut);
            }
        }
    }
    return made;
}

void mark_closest(std::vector<TubeSlice>& slices, const std::vector<double>& depths,
                  const Bore& bore, const RodClearance& least) {
    if (!least.in_passage) {
        return;
    }
    std::size_t nearest = 0;
    for (std::size_t at = 1; at < depths.size(); ++at) {
        if (std::abs(depths[at] - least.in_passage->depth_mm) <
            std::abs(depths[nearest] - least.in_passage->depth_mm)) {
            nearest = at;
        }
    }
    if (std::abs(depths[nearest] - least.in_passage->depth_mm) > same_cut_mm) {
        return;
    }
    const CutPlane plane(bore, depths[nearest]);
    slices[nearest].closest = ClosestInCut{plane.seen(least.p_rod_K), plane.seen(least.p_wall_K),
                                           words::inches(least.clearance_mm)};
}

/// Both ends, and one cut between them unless that is an end.
std::vector<double> cut_depths(const Bore& bore, double middle_mm) {
    std::vector<double> depths{0.0};
    if (middle_mm > same_cut_mm && middle_mm < bore.length_mm - same_cut_mm) {
        depths.push_back(middle_mm);
    }
    depths.push_back(bore.length_mm);
    return depths;
}

QString title_of(const Bore& bore, double depth_mm) {
    if (depth_mm <= 0.0) {
        return TubePictures::tr("Rocker end");
    }
    return depth_mm >= bore.length_mm
               ? TubePictures::tr("Lifter end, %1 down").arg(words::size(depth_mm))
               : TubePictures::tr("%1 down").arg(words::size(depth_mm));
}

QString size_words(const Bore& bore) {
    const QString narrow = words::size(2.0 * bore.bore_radius_mm);
    return bore.half_straight_mm > 0.0
               ? TubePictures::tr("obround %1 by %2")
                     .arg(narrow, words::size(2.0 * (bore.bore_radius_mm + bore.half_straight_mm)))
               : TubePictures::tr("round %1").arg(narrow);
}

} // namespace

QStringList passage_words(const Engine& engine, const ValvePosition& valve) {
    const Train* train = engine.train(valve);
    if (train == nullptr) {
        return {};
    }
    QStringList names{TubePictures::tr("Port tube")};
    for (const Passage& passage : train->further_passages) {
        names << QString::fromStdString(passage.name);
    }
    return names;
}

std::optional<Bore> passage_in_place(const Engine& engine, const ValvePosition& valve,
                                     std::size_t passage) {
    const Train* train = engine.train(valve);
    const Passage* found = train != nullptr ? passage_of(*train, passage) : nullptr;
    if (found == nullptr) {
        return std::nullopt;
    }
    const Result<Bore> stands = engine.bore_in_place(*train, *found);
    return stands ? *stands : found->bore;
}

double middle_depth_mm(const Engine& engine, const std::vector<ValveClearance>& lines,
                       const TubeChoice& choice) {
    const auto bore = passage_in_place(engine, choice.valve, choice.passage);
    if (!bore) {
        return 0.0;
    }
    if (choice.depth_mm) {
        return std::clamp(*choice.depth_mm, 0.0, bore->length_mm);
    }
    const RodClearance* least = least_in(lines, choice);
    const double closest =
        least != nullptr && least->in_passage ? least->in_passage->depth_mm : 0.0;
    const bool between = closest > same_cut_mm && closest < bore->length_mm - same_cut_mm;
    return between ? closest : 0.5 * bore->length_mm;
}

TubeContent tube_content(const Engine& engine, const std::vector<ValveClearance>& lines,
                         const TubeChoice& choice) {
    TubeContent content;
    const Train* train = engine.train(choice.valve);
    const auto bore = passage_in_place(engine, choice.valve, choice.passage);
    if (train == nullptr || !bore) {
        content.heading = words::valve(choice.valve);
        content.empty_text =
            TubePictures::tr("%1 has no tube in this set-up. A tube is described with its train.")
                .arg(words::valve(choice.valve));
        return content;
    }
    content.heading =
        TubePictures::tr("%1, %2, %3")
            .arg(words::valve(choice.valve),
                 passage_words(engine, choice.valve)[static_cast<qsizetype>(choice.passage)],
                 size_words(*bore));
    const auto closed = train_surroundings(engine, *train);
    const ValveClearance* line = line_of_valve(lines, choice.valve);
    if (!closed || !closed->surroundings) {
        content.empty_text =
            line != nullptr ? words::status(*line) : TubePictures::tr("This train doesn't close.");
        return content;
    }
    content.front_label = TubePictures::tr("front");
    content.right_label =
        words::wall(engine.outboard_y_sign(*train) > 0.0 ? Wall::outboard : Wall::inboard, engine);
    const RodClearance* least = least_in(lines, choice);
    const TubeMaker maker{engine, *bore, *closed->surroundings, least};
    const double lift = engine.lobe_lift_mm(choice.valve, choice.crank);
    const std::vector<double> depths = cut_depths(*bore, middle_depth_mm(engine, lines, choice));
    for (const double depth : depths) {
        content.slices.push_back(maker.slice(title_of(*bore, depth), depth, lift));
    }
    if (least != nullptr) {
        mark_closest(content.slices, depths, *bore, *least);
        content.notes
            << TubePictures::tr("Least: %1, %2").arg(said(*least, engine), met(*line, *least));
    } else if (line != nullptr) {
        content.notes << words::status(*line);
    }
    const auto now =
        pair_clearance_at(*closed->surroundings, {choice.passage, MovedPart::rod}, lift);
    const QString crank = words::crank_degrees(choice.crank.in_deg());
    content.notes << (now ? TubePictures::tr("Now, crank at %1: %2").arg(crank, said(*now, engine))
                          : TubePictures::tr("Now, crank at %1: no answer").arg(crank));
    content.notes << TubePictures::tr(
        "Seen from the rocker. Filled: the rod now. Shaded: all it takes up through a turn, with "
        "the way of its middle.");
    return content;
}

} // namespace rodway
