#include "app/words/describe_words.h"

#include <QCoreApplication>
#include <algorithm>
#include <array>

#include "app/words/clearance_words.h"
#include "app/words/lengths.h"
#include "core/engine/set_up_fields.h"

namespace rodway::words {
namespace {

struct Describe {
    Q_DECLARE_TR_FUNCTIONS(Describe)
};

struct DimensionWords {
    std::string_view name;
    const char* label;
    const char* how;
};

constexpr std::array all_dimensions{
    DimensionWords{
        "first_cylinder", QT_TRANSLATE_NOOP("Describe", "Front face to first cylinder"),
        QT_TRANSLATE_NOOP("Describe",
                          "Along the crank, from the front face of the block to the centre of the "
                          "bank's first cylinder. A rule does: nothing but the drawing goes by "
                          "it.")},
    DimensionWords{
        "spacing", QT_TRANSLATE_NOOP("Describe", "Cylinder to cylinder"),
        QT_TRANSLATE_NOOP("Describe",
                          "Between the centres of neighbouring cylinders of one bank: calipers "
                          "from wall to like wall of two bores.")},
    DimensionWords{
        "deck_height", QT_TRANSLATE_NOOP("Describe", "Crank's centre to deck"),
        QT_TRANSLATE_NOOP("Describe",
                          "Along the cylinders, from the crank's axis to the deck: from the main "
                          "journal's top to the deck with a height gauge, and half the journal.")},
    DimensionWords{
        "base_circle", QT_TRANSLATE_NOOP("Describe", "Base circle, across"),
        QT_TRANSLATE_NOOP("Describe",
                          "The lobe's diameter across the heel, where both jaws of the micrometer "
                          "touch the round part.")},
    DimensionWords{
        "lifter_along", QT_TRANSLATE_NOOP("Describe", "Cylinder's centre to lifter"),
        QT_TRANSLATE_NOOP("Describe",
                          "Along the crank, from the cylinder's centre to the centre of its "
                          "lifter bore: pins in both lifter bores, calipers across them, and "
                          "halves. Always as a plain number: the order of the valves says on "
                          "which side.")},
    DimensionWords{
        "lifter_lean", QT_TRANSLATE_NOOP("Describe", "Lifter leans from the cylinders"),
        QT_TRANSLATE_NOOP("Describe",
                          "Seen along the crank, the angle between lifter and cylinder; above 0 "
                          "if its top leans away from the cylinder. A protractor on a pin in the "
                          "bore, against the deck.")},
    DimensionWords{
        "seat_height", QT_TRANSLATE_NOOP("Describe", "Lifter's face to rod seat"),
        QT_TRANSLATE_NOOP("Describe",
                          "From the lifter's face to the centre of the rod's lower ball in its "
                          "seat: lay a ball of that size in, measure over all, take half the ball "
                          "off. A hydraulic lifter with its plunger at its stop.")},
    DimensionWords{
        "preload", QT_TRANSLATE_NOOP("Describe", "Preload"),
        QT_TRANSLATE_NOOP("Describe",
                          "How deep the plunger is to stand below its stop, as you set it.")},
    DimensionWords{"plunger_travel", QT_TRANSLATE_NOOP("Describe", "Plunger's travel"),
                   QT_TRANSLATE_NOOP("Describe", "How deep the plunger can go below its stop.")},
    DimensionWords{
        "rod_overall", QT_TRANSLATE_NOOP("Describe", "Rod, overall"),
        QT_TRANSLATE_NOOP("Describe",
                          "The whole length over the tips of both balls (of a rod with a cup, "
                          "over its ball and the cup's lip), in long calipers or against a gauge "
                          "rod. Measure a few: one odd rod can be told of its own valve.")},
    DimensionWords{
        "rod_ball", QT_TRANSLATE_NOOP("Describe", "Rod's ball"),
        QT_TRANSLATE_NOOP("Describe",
                          "Diameter of the balls at the rod's ends; of a rod with a cup, of its "
                          "lower one.")},
    DimensionWords{"rod_diameter", QT_TRANSLATE_NOOP("Describe", "Rod's diameter"),
                   QT_TRANSLATE_NOOP("Describe",
                                     "Of the tube, by micrometer, where it passes the port tube.")},
    DimensionWords{
        "adjuster_ball", QT_TRANSLATE_NOOP("Describe", "Ball of the adjuster"),
        QT_TRANSLATE_NOOP("Describe",
                          "The ball on the rocker's screw that sits in the rod's cup, by "
                          "micrometer.")},
    DimensionWords{
        "cup_depth", QT_TRANSLATE_NOOP("Describe", "Cup's depth"),
        QT_TRANSLATE_NOOP("Describe",
                          "From the cup's lip down to its bottom: put a ball of the adjuster's "
                          "size in, measure how far it stands out, take that from the ball's "
                          "diameter.")},
    DimensionWords{
        "head_gasket", QT_TRANSLATE_NOOP("Describe", "Head gasket, crushed"),
        QT_TRANSLATE_NOOP("Describe",
                          "The gasket on which the next two are measured: one that was crushed, "
                          "or the maker's figure for it.")},
    DimensionWords{
        "shaft_above_head", QT_TRANSLATE_NOOP("Describe", "Head's face to rocker shaft"),
        QT_TRANSLATE_NOOP("Describe",
                          "Along the cylinders, from the head's deck face to the centre of the "
                          "rocker shaft (of a stud rocker: to its pivot's centre): head on the "
                          "plate, height to the shaft's top, less half the shaft.")},
    DimensionWords{
        "shaft_beside", QT_TRANSLATE_NOOP("Describe", "Cylinders' line to rocker shaft"),
        QT_TRANSLATE_NOOP("Describe",
                          "Square to the crank, from the line of the cylinders' centres to the "
                          "shaft's centre; above 0 if the shaft is on the rods' side, below 0 on "
                          "the valves'.")},
    DimensionWords{
        "rocker_along", QT_TRANSLATE_NOOP("Describe", "Cylinder's centre to rocker"),
        QT_TRANSLATE_NOOP("Describe",
                          "Along the crank, from the cylinder's centre to the middle of the "
                          "rocker's arm.")},
    DimensionWords{
        "cup_outside", QT_TRANSLATE_NOOP("Describe", "Cup's outside"),
        QT_TRANSLATE_NOOP("Describe",
                          "The cup's diameter outside, where it is widest: it has to pass the tube "
                          "when the rod is drawn out.")},
    DimensionWords{
        "ball_offset", QT_TRANSLATE_NOOP("Describe", "Ball offset from the tip"),
        QT_TRANSLATE_NOOP("Describe",
                          "Along the crank, how much farther from the cylinder's centre the ball "
                          "or cup stands than the rocker's tip; below 0 if it is nearer. 0 for a "
                          "straight rocker.")},
    DimensionWords{
        "ball_arm", QT_TRANSLATE_NOOP("Describe", "Rocker: shaft to ball"),
        QT_TRANSLATE_NOOP("Describe",
                          "From the shaft's centre to the centre of the ball or cup that the rod "
                          "stands in, adjuster as it will run: over a pin in the bore, calipers, "
                          "halves.")},
    DimensionWords{
        "tip_arm", QT_TRANSLATE_NOOP("Describe", "Rocker: shaft to tip"),
        QT_TRANSLATE_NOOP("Describe",
                          "From the shaft's centre to the centre of the roller; of a pad, to the "
                          "centre of its curve.")},
    DimensionWords{
        "tip_above_shaft", QT_TRANSLATE_NOOP("Describe", "Tip above the shaft"),
        QT_TRANSLATE_NOOP("Describe",
                          "On the heel with the lash set: how much higher the roller's centre "
                          "stands than the shaft's, along the cylinders; below 0 if it is lower. "
                          "A depth gauge from a straight edge.")},
    DimensionWords{
        "valve_lean", QT_TRANSLATE_NOOP("Describe", "Valve leans from the cylinders"),
        QT_TRANSLATE_NOOP("Describe",
                          "Seen along the crank, the angle between stem and cylinder; above 0 if "
                          "the tip leans towards the rods.")},
    DimensionWords{
        "intake_face_lean", QT_TRANSLATE_NOOP("Describe", "Intake face looks up"),
        QT_TRANSLATE_NOOP("Describe",
                          "The head's intake face against the cylinders: 0 if it is parallel to "
                          "them, above 0 if it looks up and away from the crank.")},
    DimensionWords{"intake_gasket", QT_TRANSLATE_NOOP("Describe", "Intake gasket"),
                   QT_TRANSLATE_NOOP("Describe",
                                     "The gasket in place while the gaps were taken, as crushed.")},
    DimensionWords{"tube_length", QT_TRANSLATE_NOOP("Describe", "Tube's length"),
                   QT_TRANSLATE_NOOP("Describe", "From mouth to mouth.")},
    DimensionWords{
        "tube_bore", QT_TRANSLATE_NOOP("Describe", "Tube's bore"),
        QT_TRANSLATE_NOOP("Describe",
                          "Its inner diameter: a gauge or the largest drill shank that goes in.")},
    DimensionWords{
        "tube_long_bore", QT_TRANSLATE_NOOP("Describe", "Tube's bore, the long way"),
        QT_TRANSLATE_NOOP("Describe",
                          "Of an obround tube: its inner width from end to end the long way; the "
                          "bore above is the narrow way.")},
    DimensionWords{
        "tube_below_ball", QT_TRANSLATE_NOOP("Describe", "Rod's upper ball to tube"),
        QT_TRANSLATE_NOOP("Describe",
                          "On the heel, along the rod: from the upper ball's centre down to the "
                          "tube's upper mouth. A rule does.")},
    DimensionWords{
        "gap_front_top", QT_TRANSLATE_NOOP("Describe", "Gap in front, upper mouth"),
        QT_TRANSLATE_NOOP("Describe",
                          "On the heel, lash set, at the tube's upper mouth: the largest pin or "
                          "feeler that goes between the rod and the wall towards the front of the "
                          "engine. 0 if it touches.")},
    DimensionWords{
        "gap_outboard_top", QT_TRANSLATE_NOOP("Describe", "Gap outboard, upper mouth"),
        QT_TRANSLATE_NOOP("Describe",
                          "The same at the wall away from the engine's middle; on an upright "
                          "inline engine, away from the cylinders.")},
    DimensionWords{
        "gap_front_bottom", QT_TRANSLATE_NOOP("Describe", "Gap in front, lower mouth"),
        QT_TRANSLATE_NOOP("Describe",
                          "At the lower mouth, towards the front. Left empty, the tube is taken "
                          "to stand along the rod.")},
    DimensionWords{
        "gap_outboard_bottom", QT_TRANSLATE_NOOP("Describe", "Gap outboard, lower mouth"),
        QT_TRANSLATE_NOOP("Describe",
                          "At the lower mouth, away from the engine's middle. Left empty, the "
                          "tube is taken to stand along the rod.")},
};

const DimensionWords& words_for(const EngineDimension& dimension) {
    const auto found =
        std::find_if(all_dimensions.begin(), all_dimensions.end(),
                     [&](const DimensionWords& one) { return one.name == dimension.name; });
    RODWAY_ASSERT(found != all_dimensions.end());
    return *found;
}

QString degrees_text(double deg) {
    return QString::number(deg, 'g', 6) + QChar(u'°');
}

} // namespace

QString dimension(const EngineDimension& dimension) {
    return QCoreApplication::translate("Describe", words_for(dimension).label);
}

QString how_to_measure(const EngineDimension& dimension) {
    return QCoreApplication::translate("Describe", words_for(dimension).how);
}

QString size_owner(const std::string& owner) {
    if (owner == "intake") {
        return Describe::tr("intake");
    }
    if (owner == "exhaust") {
        return Describe::tr("exhaust");
    }
    const QString name = QString::fromStdString(owner);
    return parse_position(owner).ok() ? name : Describe::tr("bank %1").arg(name);
}

QString dimension_of(const EngineDimension& dimension, const std::string& owner) {
    return Describe::tr("%1 (%2)").arg(words::dimension(dimension), size_owner(owner));
}

QString measuring_tool(MeasuringTool tool) {
    switch (tool) {
        case MeasuringTool::rule:
            return Describe::tr("rule");
        case MeasuringTool::calipers:
            return Describe::tr("calipers");
        case MeasuringTool::micrometer:
            return Describe::tr("micrometer");
        case MeasuringTool::depth_gauge:
            return Describe::tr("depth gauge");
        case MeasuringTool::height_gauge:
            return Describe::tr("plate and height gauge");
        case MeasuringTool::pin_gauges:
            return Describe::tr("pins or feelers");
        case MeasuringTool::protractor:
            return Describe::tr("protractor");
    }
    return {};
}

QString size_value(const EngineDimension& dimension, double value) {
    return dimension.angle ? degrees_text(value) : size(value);
}

QString size_doubt(const EngineDimension& dimension, double doubt) {
    return Describe::tr("± %1").arg(dimension.angle ? degrees_text(doubt) : size(doubt));
}

QString size_stand(const EngineDimension& dimension, const DescribedSize& size) {
    const QString doubt = size_doubt(dimension, size.doubt);
    switch (size.stand) {
        case SizeStand::missing:
            return Describe::tr("needed");
        case SizeStand::assumed:
            return Describe::tr("assumed %1 %2").arg(size_value(dimension, size.value), doubt);
        case SizeStand::mate:
            return Describe::tr("assumed as %1: %2 %3")
                .arg(size_owner(size.from), size_value(dimension, size.value), doubt);
        case SizeStand::given:
            break;
    }
    switch (size.source) {
        case DoubtSource::measured:
            return Describe::tr("measured %1").arg(doubt);
        case DoubtSource::from_the_box:
            return Describe::tr("from the box %1").arg(doubt);
        case DoubtSource::assumed:
            return Describe::tr("a guess %1").arg(doubt);
        case DoubtSource::common_practice:
            return Describe::tr("common practice %1").arg(doubt);
    }
    return {};
}

QString stand_sign(const DescribedSize& size) {
    switch (size.stand) {
        case SizeStand::missing:
            return QStringLiteral("!");
        case SizeStand::assumed:
        case SizeStand::mate:
            return QString(QChar(u'○'));
        case SizeStand::given:
            break;
    }
    return QString(size.source == DoubtSource::measured ? QChar(u'●') : QChar(u'◐'));
}

QString worth(const std::optional<double>& worth_mm, const ValvePosition& valve) {
    const QString name = QString::fromStdString(position_name(valve));
    if (!worth_mm) {
        return Describe::tr("worth more than can be said, at %1").arg(name);
    }
    constexpr double thou_mm = 0.0254;
    return Describe::tr("worth %1 thou at %2")
        .arg(QString::number(*worth_mm / thou_mm, 'f', 1), name);
}

QString lobe_need(const std::string& path) {
    const auto parts = path_parts(path);
    const QString kind = size_owner(parts[1]);
    if (parts[2] == "lash") {
        return Describe::tr("Lash (%1)").arg(kind);
    }
    if (parts[2] == "centreline") {
        return Describe::tr("Full lift, crank degrees (%1)").arg(kind);
    }
    return Describe::tr("The lobe's card or lift table (%1)").arg(kind);
}

QString described_title(const std::string& path) {
    const auto parts = path_parts(path);
    if (parts.front() != "described" || parts.size() < 3) {
        return {};
    }
    if (parts[2] == "valves") {
        return Describe::tr("Valves, front to rear (%1)").arg(size_owner(parts[1]));
    }
    const EngineDimension* dimension = dimension_called(parts[2]);
    return dimension == nullptr ? QString() : dimension_of(*dimension, parts[1]);
}

} // namespace rodway::words
