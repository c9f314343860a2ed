#include "app/words/cause_words.h"

#include <QCoreApplication>
#include <cmath>
#include "app/words/clearance_words.h"
#include "app/words/lengths.h"
#include "core/units/angle.h"
#include "core/units/length.h"

namespace rodway::words {
namespace {

struct Causes {
    Q_DECLARE_TR_FUNCTIONS(Causes)
};

struct KindWords {
    QString growing;
    QString dimension;
};

KindWords lifter_words(ParameterKind kind) {
    switch (kind) {
        case ParameterKind::lifter_height:
            return {Causes::tr("lifter taller"), Causes::tr("lifter's height to its seat")};
        case ParameterKind::lifter_rearward:
            return {Causes::tr("lifter farther to the rear"),
                    Causes::tr("lifter's place, rearward")};
        case ParameterKind::lifter_outboard:
            return {Causes::tr("lifter farther outboard"), Causes::tr("lifter's place, outboard")};
        case ParameterKind::lifter_lean_rearward:
            return {Causes::tr("lifter leaning to the rear"),
                    Causes::tr("lifter's lean, rearward")};
        case ParameterKind::lifter_lean_outboard:
            return {Causes::tr("lifter leaning outboard"), Causes::tr("lifter's lean, outboard")};
        case ParameterKind::base_circle:
            return {Causes::tr("larger base circle (radius)"), Causes::tr("base circle, radius")};
        case ParameterKind::lobe_lift:
            return {Causes::tr("more lobe lift"), Causes::tr("lobe lift")};
        case ParameterKind::rod_length:
            return {Causes::tr("longer rod"), Causes::tr("rod's length")};
        default:
            return {Causes::tr("thicker rod"), Causes::tr("rod's diameter")};
    }
}

KindWords rocker_words(ParameterKind kind) {
    switch (kind) {
        case ParameterKind::pivot_height:
            return {Causes::tr("rocker's pivot higher"), Causes::tr("pivot's height")};
        case ParameterKind::pivot_outboard:
            return {Causes::tr("rocker's pivot farther outboard"),
                    Causes::tr("pivot's place, outboard")};
        case ParameterKind::pivot_rearward:
            return {Causes::tr("rocker farther to the rear"),
                    Causes::tr("rocker's place, rearward")};
        case ParameterKind::tip_arm_length:
            return {Causes::tr("longer tip arm"), Causes::tr("tip arm's length")};
        case ParameterKind::shaft_tilt_up:
            return {Causes::tr("shaft's rear end up"), Causes::tr("shaft's tilt, up")};
        case ParameterKind::shaft_tilt_outboard:
            return {Causes::tr("shaft's rear end outboard"), Causes::tr("shaft's tilt, outboard")};
        case ParameterKind::ball_arm_length:
            return {Causes::tr("longer ball arm"), Causes::tr("ball arm's length")};
        case ParameterKind::lash:
            return {Causes::tr("more lash"), Causes::tr("lash")};
        default:
            return {Causes::tr("adjuster turned in"), Causes::tr("adjuster")};
    }
}

KindWords casting_words(const EngineParameter& parameter, const EngineLayout& layout) {
    const QString thing = QString::fromStdString(parameter.thing);
    const QString bank = parameter.bank < layout.banks.size()
                             ? QString::fromStdString(layout.banks[parameter.bank].name)
                             : QString();
    switch (parameter.kind) {
        case ParameterKind::intake_gasket:
            return {Causes::tr("thicker intake gasket, %1").arg(bank),
                    Causes::tr("intake gasket, %1").arg(bank)};
        case ParameterKind::head_gasket:
            return {Causes::tr("thicker head gasket, %1").arg(bank),
                    Causes::tr("head gasket, %1").arg(bank)};
        case ParameterKind::passage_rearward:
            return {Causes::tr("%1 farther to the rear").arg(thing),
                    Causes::tr("%1: place, rearward").arg(thing)};
        case ParameterKind::passage_outboard:
            return {Causes::tr("%1 farther outboard").arg(thing),
                    Causes::tr("%1: place, outboard").arg(thing)};
        case ParameterKind::passage_slide:
            return {Causes::tr("%1 slid towards the rocker").arg(thing),
                    Causes::tr("%1: place along its axis").arg(thing)};
        case ParameterKind::passage_lean_rearward:
            return {Causes::tr("%1 leaning to the rear").arg(thing),
                    Causes::tr("%1: lean, rearward").arg(thing)};
        case ParameterKind::passage_lean_outboard:
            return {Causes::tr("%1 leaning outboard").arg(thing),
                    Causes::tr("%1: lean, outboard").arg(thing)};
        case ParameterKind::passage_bore:
            return {Causes::tr("wider bore of %1").arg(thing), Causes::tr("%1: bore").arg(thing)};
        default:
            return {Causes::tr("%1 farther away").arg(thing),
                    Causes::tr("%1: distance").arg(thing)};
    }
}

KindWords kind_words(const EngineParameter& parameter, const EngineLayout& layout) {
    if (parameter.kind <= ParameterKind::rod_diameter) {
        return lifter_words(parameter.kind);
    }
    if (parameter.kind <= ParameterKind::adjuster) {
        return rocker_words(parameter.kind);
    }
    return casting_words(parameter, layout);
}

} // namespace

QString growing(const EngineParameter& parameter, const EngineLayout& layout) {
    return kind_words(parameter, layout).growing;
}

QString dimension(const EngineParameter& parameter, const EngineLayout& layout) {
    return kind_words(parameter, layout).dimension;
}

QString per_unit(ParameterKind kind) {
    return is_angle(kind) ? Causes::tr("per degree") : Causes::tr("per thou");
}

double per_thou_or_degree(double per_unit, ParameterKind kind) {
    return is_angle(kind) ? per_unit * radians(1.0) / Length::mm_per_inch * 1000.0 : per_unit;
}

QString rate(const CauseRate& rate, ParameterKind kind) {
    const auto one = [&](const SideRate& side) {
        const double thou = per_thou_or_degree(side.per_unit, kind);
        return QString(thou < 0.0 ? "-" : "+") + QString::number(std::abs(thou), 'f', 2);
    };
    return rate.when_more.per_unit == rate.when_less.per_unit
               ? one(rate.when_more)
               : Causes::tr("%1, less: %2").arg(one(rate.when_more), one(rate.when_less));
}

QString place(const ClearancePlace& place, const Engine& engine) {
    if (!place.passage_K) {
        return QString::fromStdString(place.thing);
    }
    return Causes::tr("%1: %2, %3")
        .arg(QString::fromStdString(place.thing), wall(place.wall, engine), end(place.end));
}

QString lift_of(const ClearancePlace& place) {
    if (place.lobe_lift_mm == 0.0) {
        return Causes::tr("on the heel");
    }
    return place.at_full_lift ? Causes::tr("at full lift")
                              : Causes::tr("at %1 of lobe lift").arg(inches(place.lobe_lift_mm));
}

QString change_of(double change, ParameterKind kind) {
    if (!is_angle(kind)) {
        return signed_inches(change);
    }
    const double deg = degrees(change);
    return QString("%1%2°").arg(deg < 0.0 ? "-" : "+").arg(std::abs(deg), 0, 'f', 2);
}

QString held(Held held) {
    switch (held) {
        case Held::adjuster_reset:
            return Causes::tr("lash set again with the adjuster, same rod");
        case Held::rod_rechosen:
            return Causes::tr("adjuster unmoved, another length of rod");
        case Held::nothing_reset:
            return Causes::tr("same rod, adjuster unmoved");
    }
    return {};
}

QString doubt_kind(const DoubtContribution& share, const EngineLayout& layout) {
    switch (share.kind) {
        case DoubtKind::lash_float:
            return Causes::tr("rod lifted by the lash");
        case DoubtKind::end_float:
            return Causes::tr("rocker's end float");
        case DoubtKind::seat_off_axis:
            return Causes::tr("rod's seat off the lifter's axis");
        case DoubtKind::rod_bow:
            return Causes::tr("rod's bow, turning");
        case DoubtKind::lifter_bore_slop:
            return Causes::tr("lifter loose in its bore");
        case DoubtKind::leak_down:
            return Causes::tr("hydraulic lifter leaking down");
        case DoubtKind::input:
            return share.input ? dimension(*share.input, layout) : QString();
        case DoubtKind::fit:
            return Causes::tr("tube's place as fitted to readings");
    }
    return {};
}

QString doubt_source(DoubtSource source) {
    switch (source) {
        case DoubtSource::measured:
            return Causes::tr("measured");
        case DoubtSource::from_the_box:
            return Causes::tr("from the box");
        case DoubtSource::assumed:
            return Causes::tr("assumed");
        case DoubtSource::common_practice:
            return Causes::tr("common practice");
    }
    return {};
}

QString token(ParameterKind kind) {
    const std::string_view name = parameter_name(kind);
    return QString::fromLatin1(name.data(), static_cast<qsizetype>(name.size()));
}

QString token(DoubtKind kind) {
    switch (kind) {
        case DoubtKind::lash_float:
            return "lash_float";
        case DoubtKind::end_float:
            return "end_float";
        case DoubtKind::seat_off_axis:
            return "seat_off_axis";
        case DoubtKind::rod_bow:
            return "rod_runout";
        case DoubtKind::lifter_bore_slop:
            return "lifter_bore_slop";
        case DoubtKind::leak_down:
            return "leak_down";
        case DoubtKind::input:
            return "input";
        case DoubtKind::fit:
            return "fit";
    }
    return {};
}

QString token(DoubtSource source) {
    switch (source) {
        case DoubtSource::measured:
            return "measured";
        case DoubtSource::from_the_box:
            return "from_the_box";
        case DoubtSource::assumed:
            return "assumed";
        case DoubtSource::common_practice:
            return "common_practice";
    }
    return {};
}

} // namespace rodway::words
