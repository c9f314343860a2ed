#include "app/words/stated_words.h"

#include <QCoreApplication>
#include <QStringList>
#include <map>

#include "core/engine/set_up_fields.h"

namespace rodway::words {
namespace {

struct Stated {
    Q_DECLARE_TR_FUNCTIONS(Stated)
};

/// What a name in the middle of a path is said as: a kind of valve, a valve, a bank.
QString of_whom(const std::string& name) {
    if (name == "intake") {
        return Stated::tr("intake");
    }
    if (name == "exhaust") {
        return Stated::tr("exhaust");
    }
    return QString::fromStdString(name);
}

QString part_field(const std::string& name, const std::string& leaf) {
    for (const HotPart part : hot_parts()) {
        if (name == hot_part_name(part)) {
            return leaf == "metal"       ? Stated::tr("what the %1 is made of").arg(hot_part(part))
                   : leaf == "expansion" ? Stated::tr("expansion of the %1").arg(hot_part(part))
                   : leaf == "temperature" ? Stated::tr("how warm the %1 runs").arg(hot_part(part))
                                           : Stated::tr("thickness of the %1").arg(hot_part(part));
        }
    }
    return {};
}

QString named_field(const std::string& section, const std::string& leaf) {
    static const std::map<std::string, QString> names{
        {"rods/wall", Stated::tr("wall of the rods (%1)")},
        {"rods/runout", Stated::tr("indicator reading of a turned rod (%1)")},
        {"rods/modulus", Stated::tr("modulus of the rods' metal (%1)")},
        {"masses/valve_side", Stated::tr("mass of valve, retainer, locks and a third of the spring "
                                         "(%1)")},
        {"masses/rocker_at_valve", Stated::tr("the rocker's share of mass at the valve (%1)")},
        {"masses/rod", Stated::tr("mass of a rod (%1)")},
        {"banks/deck_height", Stated::tr("crank's axis to the deck (bank %1)")},
        {"banks/intake_face", Stated::tr("crank's axis to the head's intake face (bank %1)")},
        {"valves/seat_to_tip", Stated::tr("seat to tip of the valves (%1)")},
    };
    const auto found = names.find(section + "/" + leaf);
    return found == names.end() ? QString() : found->second;
}

} // namespace

QString stated_field(const std::string& path) {
    if (path == "running/speed") {
        return Stated::tr("engine speed");
    }
    if (path == "hot/cold_temperature") {
        return Stated::tr("temperature at which everything was measured");
    }
    const std::vector<std::string> parts = path_parts(path);
    QString said;
    if (parts.size() == 3 && parts[0] == "springs") {
        said = Stated::tr("spring loads (%1)").arg(of_whom(parts[1]));
    } else if (parts.size() == 4 && parts[1] == "parts") {
        said = part_field(parts[2], parts[3]);
    } else if (parts.size() == 4 && (parts[0] == "hot" || parts[0] == "running")) {
        const QString named = named_field(parts[1], parts[3]);
        said = named.isEmpty() ? named : named.arg(of_whom(parts[2]));
    }
    return said.isEmpty() ? QString::fromStdString(path) : said;
}

QString stated_fields(const std::vector<std::string>& paths) {
    QStringList said;
    for (const std::string& path : paths) {
        said << stated_field(path);
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
