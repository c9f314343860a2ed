#include "app/words/stated_words.h"

#include <QCoreApplication>
#include <QStringList>
#include <algorithm>
#include <map>

#include "core/engine/set_up_fields.h"

namespace rodway::words {
namespace {

struct Stated {
    Q_DECLARE_TR_FUNCTIONS(Stated)
};

/// What a name in the middle of a path is said as: a kind of valve, a valve, a bank, a part.
QString of_whom(const std::string& name) {
    if (name == "intake" || name == "exhaust") {
        return name == "intake" ? Stated::tr("intake") : Stated::tr("exhaust");
    }
    return QString::fromStdString(name);
}

QString of_part(const std::string& name) {
    for (const HotPart part : hot_parts()) {
        if (name == hot_part_name(part)) {
            return hot_part(part);
        }
    }
    return QString::fromStdString(name);
}

/// What the fields of a section that end alike are called; empty for others.
QString family_name(const std::string& section, const std::string& leaf) {
    static const std::map<std::string, QString> names{
        {"rods/wall", Stated::tr("wall of the rods")},
        {"rods/runout", Stated::tr("indicator reading of a turned rod")},
        {"rods/modulus", Stated::tr("modulus of the rods' metal")},
        {"masses/valve_side", Stated::tr("mass of valve, retainer, locks and a third of the "
                                         "spring")},
        {"masses/rocker_at_valve", Stated::tr("the rocker's share of mass at the valve")},
        {"masses/rod", Stated::tr("mass of a rod")},
        {"parts/metal", Stated::tr("metal")},
        {"parts/temperature", Stated::tr("running temperature")},
        {"parts/expansion", Stated::tr("expansion")},
        {"parts/thickness", Stated::tr("thickness")},
        {"banks/deck_height", Stated::tr("crank's axis to the deck")},
        {"banks/intake_face", Stated::tr("crank's axis to the head's intake face")},
        {"valves/seat_to_tip", Stated::tr("seat to tip of the valves")},
        {"springs/loads", Stated::tr("spring loads")},
    };
    const auto found = names.find(section + "/" + leaf);
    return found == names.end() ? QString() : found->second;
}

/// A path's family, and whose field of it this is; both empty where there is no such family.
struct Member {
    QString family;
    QString whose;
};
Member member_of(const std::string& path) {
    const std::vector<std::string> parts = path_parts(path);
    if (parts.size() == 3 && parts[0] == "springs") {
        return {family_name(parts[0], parts[2]), of_whom(parts[1])};
    }
    if (parts.size() == 4 && (parts[0] == "hot" || parts[0] == "running")) {
        return {family_name(parts[1], parts[3]),
                parts[1] == "parts" ? of_part(parts[2]) : of_whom(parts[2])};
    }
    return {};
}

} // namespace

QString stated_fields(const std::vector<std::string>& paths) {
    std::vector<std::pair<QString, QStringList>> families;
    for (const std::string& path : paths) {
        Member member = member_of(path);
        if (member.family.isEmpty()) {
            member = {
                path == "running/speed" ? Stated::tr("engine speed") : QString::fromStdString(path),
                {}};
        }
        auto family = std::find_if(families.begin(), families.end(),
                                   [&](const auto& known) { return known.first == member.family; });
        if (family == families.end()) {
            family = families.insert(families.end(), {member.family, {}});
        }
        if (!member.whose.isEmpty()) {
            family->second << member.whose;
        }
    }
    QStringList said;
    for (const auto& [family, whose] : families) {
        said << (whose.isEmpty() ? family : Stated::tr("%1 (%2)").arg(family, whose.join(", ")));
    }
    return said.join(Stated::tr("; "));
}

QString hot_part(HotPart part) {
    switch (part) {
        case HotPart::block:
            return Stated::tr("block");
        case HotPart::head:
            return Stated::tr("head");
        case HotPart::head_gasket:
            return Stated::tr("head gasket");
        case HotPart::intake:
            return Stated::tr("intake");
        case HotPart::intake_gasket:
            return Stated::tr("intake gasket");
        case HotPart::camshaft:
            return Stated::tr("camshaft");
        case HotPart::lifter:
            return Stated::tr("lifter");
        case HotPart::rod:
            return Stated::tr("pushrod");
        case HotPart::rocker:
            return Stated::tr("rocker");
        case HotPart::intake_valve:
            return Stated::tr("intake valve");
        case HotPart::exhaust_valve:
            return Stated::tr("exhaust valve");
    }
    return {};
}

QString metal(Metal metal) {
    switch (metal) {
        case Metal::carbon_steel:
            return Stated::tr("carbon steel");
        case Metal::alloy_steel:
            return Stated::tr("alloy steel");
        case Metal::grey_iron:
            return Stated::tr("grey iron");
        case Metal::ductile_iron:
            return Stated::tr("ductile iron");
        case Metal::strong_ductile_iron:
            return Stated::tr("strong ductile iron");
        case Metal::cast_aluminium:
            return Stated::tr("cast aluminium");
        case Metal::wrought_aluminium:
            return Stated::tr("wrought aluminium");
        case Metal::titanium_alloy:
            return Stated::tr("titanium alloy");
    }
    return {};
}

QString token(Metal metal) {
    switch (metal) {
        case Metal::carbon_steel:
            return "carbon_steel";
        case Metal::alloy_steel:
            return "alloy_steel";
        case Metal::grey_iron:
            return "grey_iron";
        case Metal::ductile_iron:
            return "ductile_iron";
        case Metal::strong_ductile_iron:
            return "strong_ductile_iron";
        case Metal::cast_aluminium:
            return "cast_aluminium";
        case Metal::wrought_aluminium:
            return "wrought_aluminium";
        case Metal::titanium_alloy:
            return "titanium_alloy";
    }
    return {};
}

} // namespace rodway::words
