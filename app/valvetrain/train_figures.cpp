#include "app/valvetrain/train_figures.h"

#include <QCoreApplication>
#include <cmath>

#include "app/words/clearance_words.h"
#include "app/words/lengths.h"
#include "core/clearance/clearance_place.h"
#include "core/units/angle.h"

namespace rodway {
namespace {

struct Figures {
    Q_DECLARE_TR_FUNCTIONS(Figures)
};

QString with_doubt(double mm, const std::optional<double>& doubt_mm) {
    return doubt_mm ? Figures::tr("%1 ± %2 (%3 mm)")
                          .arg(words::inches(mm).remove(" in"), words::inches(*doubt_mm),
                               QString::number(mm, 'f', 2))
                    : words::both_units(mm);
}

QString angle(double rad) {
    return words::crank_degrees(degrees(rad));
}

QString ratio(double value) {
    return QString::number(value, 'f', 2);
}

FigureGroup clearances(const Engine& engine, const ValveClearance& line) {
    FigureGroup group{Figures::tr("Clearance"), {}};
    const Train& train = *engine.train(line.position);
    const auto closed = train_surroundings(engine, train);
    const auto there = [&](const std::optional<RodClearance>& found) {
        const auto doubt_mm = closed && closed->surroundings
                                  ? doubt_there_mm(engine, train, *closed->surroundings, *found)
                                  : std::nullopt;
        return with_doubt(found->clearance_mm, doubt_mm);
    };
    const RodClearance& minimum = *line.found.minimum;
    group.figures = {{Figures::tr("On the heel"), there(line.found.on_heel)},
                     {Figures::tr("At full lift"), there(line.found.at_full_lift)},
                     {Figures::tr("Least"), with_doubt(minimum.clearance_mm, line.doubt_mm)},
                     {Figures::tr("Least at"), words::when(line)},
                     {Figures::tr("Nearest"), words::place(minimum, engine)},
                     {Figures::tr("Depth"),
                      minimum.in_passage ? Figures::tr("%1 from the rocker end")
                                               .arg(words::inches(minimum.in_passage->depth_mm))
                                         : QString()}};
    return group;
}

QString turns_back(const Sweep& sweep) {
    return sweep.turns_back_at_net_lift_mm
               ? Figures::tr("turns back at %1 of lift")
                     .arg(words::inches(*sweep.turns_back_at_net_lift_mm))
               : Figures::tr("doesn't turn back");
}

QString cup_room(const TrainMotion& motion) {
    if (!motion.cup_room_rad) {
        return Figures::tr("no limit stated");
    }
    return *motion.cup_room_rad < 0.0
               ? Figures::tr("BINDS: %1 too steep").arg(angle(-*motion.cup_room_rad))
               : Figures::tr("%1 to spare").arg(angle(*motion.cup_room_rad));
}

QString adjuster_moved(double in_mm) {
    if (std::abs(in_mm) < 0.0127) { // half a thou
        return Figures::tr("adjuster as it was found");
    }
    return in_mm > 0.0 ? Figures::tr("adjuster turned in %1").arg(words::inches(in_mm))
                       : Figures::tr("adjuster backed off %1").arg(words::inches(-in_mm));
}

FigureGroup movement(const TrainMotion& motion, const Train& train) {
    const auto three = [](const QString& heel, const QString& half, const QString& full) {
        return QString("%1 / %2 / %3").arg(heel, half, full);
    };
    const TrainAtLift& heel = *motion.on_heel;
    const TrainAtLift& half = *motion.half_lift;
    const TrainAtLift& full = *motion.full_lift;
    const Sweep& sweep = *motion.sweep;
    const QString set =
        train.lifter.kind == LifterKind::hydraulic
            ? Figures::tr("preload %1").arg(words::inches(motion.preload_mm))
            : Figures::tr("lash %1, %2")
                  .arg(words::inches(motion.lash_mm), adjuster_moved(motion.adjuster_in_mm));
    return {Figures::tr("Train: on the heel / half / full lift"),
            {{Figures::tr("Lift"),
              Figures::tr("lobe %1, valve %2 net")
                  .arg(words::inches(full.lobe_lift_mm), words::inches(full.net_lift_mm))},
             {Figures::tr("Ratio"),
              three(ratio(heel.gross_ratio), ratio(half.gross_ratio), ratio(full.gross_ratio))},
             {Figures::tr("Rod to lifter"),
              three(angle(heel.rod_to_lifter_rad), angle(half.rod_to_lifter_rad),
                    angle(full.rod_to_lifter_rad))},
             {Figures::tr("Rod to cup"),
              Figures::tr("%1; %2").arg(
                  three(angle(heel.rod_to_adjuster_rad), angle(half.rod_to_adjuster_rad),
                        angle(full.rod_to_adjuster_rad)),
                  cup_room(motion))},
             {Figures::tr("Tip's sweep"),
              Figures::tr("%1 wide, %2").arg(words::inches(sweep.width_mm()), turns_back(sweep))},
             {Figures::tr("Set"), set}}};
}

} // namespace

std::optional<double> doubt_there_mm(const Engine& engine, const Train& train,
                                     const TrainSurroundings& surroundings,
                                     const RodClearance& found) {
    const auto doubt = doubt_at(engine, train, surroundings.linkage,
                                {place_beside(engine, train, surroundings, found)}, engine.doubt);
    return minimum_doubt_mm(engine, train, doubt, found.feature);
}

std::vector<FigureGroup> train_figures(const Engine& engine, const ValveClearance& line) {
    if (!line.found.minimum) {
        return {};
    }
    std::vector<FigureGroup> groups{clearances(engine, line)};
    const Train& train = *engine.train(line.position);
    const TrainMotion motion = train_motion(train, engine.lobes(line.position).lobe.full_lift_mm());
    if (motion.status == TrainStatus::answered) {
        groups.push_back(movement(motion, train));
    }
    return groups;
}

} // namespace rodway
