#include "app/words/set_up_words.h"

#include <QCoreApplication>
#include <algorithm>
#include <string_view>
#include <vector>

#include "app/words/describe_words.h"
#include "core/engine/set_up_fields.h"

namespace rodway::words {
namespace {

struct SetUpWords {
    Q_DECLARE_TR_FUNCTIONS(SetUpWords)
};

/// A `*` stands for one name. The components of a place or direction are one thing.
struct Words {
    std::string_view pattern;
    const char* words;
};

constexpr Words fields[] = {
    Words{"engine/name", QT_TRANSLATE_NOOP("SetUpWords", "engine's name")},
    Words{"engine/arrangement", QT_TRANSLATE_NOOP("SetUpWords", "arrangement of the cylinders")},
    Words{"engine/turns", QT_TRANSLATE_NOOP("SetUpWords", "turning direction")},
    Words{"engine/firing_order", QT_TRANSLATE_NOOP("SetUpWords", "firing order")},
    Words{"engine/bore", QT_TRANSLATE_NOOP("SetUpWords", "bore")},
    Words{"engine/stroke", QT_TRANSLATE_NOOP("SetUpWords", "stroke")},
    Words{"engine/connecting_rod", QT_TRANSLATE_NOOP("SetUpWords", "connecting rod's length")},
    Words{"engine/intake_casting",
          QT_TRANSLATE_NOOP("SetUpWords", "one intake or one for each bank")},
    Words{"camshaft/beside_crank",
          QT_TRANSLATE_NOOP("SetUpWords", "camshaft's distance beside the crank")},
    Words{"camshaft/above_crank",
          QT_TRANSLATE_NOOP("SetUpWords", "camshaft's height above the crank")},
    Words{"banks/*/lean", QT_TRANSLATE_NOOP("SetUpWords", "lean of the cylinders")},
    Words{"banks/*/deck_milled", QT_TRANSLATE_NOOP("SetUpWords", "milled off the deck")},
    Words{"banks/*/head/gasket", QT_TRANSLATE_NOOP("SetUpWords", "head gasket")},
    Words{"banks/*/head/gasket_new", QT_TRANSLATE_NOOP("SetUpWords", "head gasket, new")},
    Words{"banks/*/head/gasket_crushed", QT_TRANSLATE_NOOP("SetUpWords", "head gasket, crushed")},
    Words{"banks/*/head/gasket_state",
          QT_TRANSLATE_NOOP("SetUpWords", "whether the head gasket is crushed")},
    Words{"banks/*/head/gasket_when_located",
          QT_TRANSLATE_NOOP("SetUpWords", "head gasket when the places were measured")},
    Words{"banks/*/head/deck_face_milled", QT_TRANSLATE_NOOP("SetUpWords", "milled off the head")},
    Words{"banks/*/flange/normal", QT_TRANSLATE_NOOP("SetUpWords", "direction of the intake face")},
    Words{"banks/*/flange/gasket", QT_TRANSLATE_NOOP("SetUpWords", "intake gasket")},
    Words{"banks/*/flange/gasket_new", QT_TRANSLATE_NOOP("SetUpWords", "intake gasket, new")},
    Words{"banks/*/flange/gasket_crushed",
          QT_TRANSLATE_NOOP("SetUpWords", "intake gasket, crushed")},
    Words{"banks/*/flange/gasket_state",
          QT_TRANSLATE_NOOP("SetUpWords", "whether the intake gasket is crushed")},
    Words{"banks/*/flange/gasket_when_located",
          QT_TRANSLATE_NOOP("SetUpWords", "intake gasket when the places were measured")},
    Words{"banks/*/flange/spacer", QT_TRANSLATE_NOOP("SetUpWords", "intake spacer")},
    Words{"banks/*/flange/spacer_when_located",
          QT_TRANSLATE_NOOP("SetUpWords", "intake spacer when the places were measured")},
    Words{"banks/*/flange/head_face_milled",
          QT_TRANSLATE_NOOP("SetUpWords", "milled off the head's intake face")},
    Words{"banks/*/flange/manifold_face_milled",
          QT_TRANSLATE_NOOP("SetUpWords", "milled off the manifold's face")},
    Words{"cylinders/*/bank", QT_TRANSLATE_NOOP("SetUpWords", "bank of the cylinder")},
    Words{"cylinders/*/centre_x",
          QT_TRANSLATE_NOOP("SetUpWords", "cylinder's distance from the front")},
    Words{"described/*/cylinders", QT_TRANSLATE_NOOP("SetUpWords", "cylinders, front to rear")},
    Words{"described/*/valves", QT_TRANSLATE_NOOP("SetUpWords", "valves, front to rear")},
    Words{"described/*/guided_by",
          QT_TRANSLATE_NOOP("SetUpWords", "what keeps the rockers straight")},
    Words{"described/*/top_end", QT_TRANSLATE_NOOP("SetUpWords", "upper end of the pushrods")},
    Words{"described/*/tube_shape", QT_TRANSLATE_NOOP("SetUpWords", "shape of the tubes")},
    Words{"described/*/tube_long", QT_TRANSLATE_NOOP("SetUpWords", "which way the tubes are long")},
    Words{"described/*/mount", QT_TRANSLATE_NOOP("SetUpWords", "what the rockers turn on")},
    Words{"described/*/lifter", QT_TRANSLATE_NOOP("SetUpWords", "kind of lifter")},
    Words{"described/*/follower", QT_TRANSLATE_NOOP("SetUpWords", "flat tappet or roller")},
    Words{"described/*/tube_casting", QT_TRANSLATE_NOOP("SetUpWords", "casting that has the tube")},
    Words{"described/*/*/size", QT_TRANSLATE_NOOP("SetUpWords", "size")},
    Words{"described/*/*/angle", QT_TRANSLATE_NOOP("SetUpWords", "angle")},
    Words{"described/*/*/doubt", QT_TRANSLATE_NOOP("SetUpWords", "doubt of the size")},
    Words{"described/*/*/angle_doubt", QT_TRANSLATE_NOOP("SetUpWords", "doubt of the angle")},
    Words{"described/*/*/source", QT_TRANSLATE_NOOP("SetUpWords", "source of the size")},
    Words{"lobes/*/base_circle_radius", QT_TRANSLATE_NOOP("SetUpWords", "base circle's radius")},
    Words{"lobes/*/lash", QT_TRANSLATE_NOOP("SetUpWords", "lash")},
    Words{"lobes/*/centreline", QT_TRANSLATE_NOOP("SetUpWords", "lobe's centreline")},
    Words{"lobes/*/lift_table", QT_TRANSLATE_NOOP("SetUpWords", "lobe's lift table")},
    Words{"lobes/*/card/peak_lift", QT_TRANSLATE_NOOP("SetUpWords", "lobe's lift by its card")},
    Words{"lobes/*/card/durations", QT_TRANSLATE_NOOP("SetUpWords", "durations by the cam card")},
    Words{"springs/*/installed_height",
          QT_TRANSLATE_NOOP("SetUpWords", "spring's installed height")},
    Words{"springs/*/loads", QT_TRANSLATE_NOOP("SetUpWords", "spring's loads")},
    Words{"springs/*/bind_height", QT_TRANSLATE_NOOP("SetUpWords", "spring's coil bind height")},
    Words{"springs/*/retainer_to_seal", QT_TRANSLATE_NOOP("SetUpWords", "retainer to seal")},
    Words{"springs/*/wire/diameter", QT_TRANSLATE_NOOP("SetUpWords", "spring wire's diameter")},
    Words{"springs/*/wire/mean_diameter",
          QT_TRANSLATE_NOOP("SetUpWords", "spring's mean diameter")},
    Words{"springs/*/wire/active_coils", QT_TRANSLATE_NOOP("SetUpWords", "spring's active coils")},
    Words{"springs/*/wire/total_coils", QT_TRANSLATE_NOOP("SetUpWords", "spring's coils in all")},
    Words{"piston_to_valve/*/drops", QT_TRANSLATE_NOOP("SetUpWords", "drops from valve to piston")},
    Words{"piston_to_valve/*/radial_gap",
          QT_TRANSLATE_NOOP("SetUpWords", "gap beside the valve's head")},
    Words{"limits/rod_clearance", QT_TRANSLATE_NOOP("SetUpWords", "pushrod clearance asked for")},
    Words{"doubt/assumed", QT_TRANSLATE_NOOP("SetUpWords", "doubt assumed for every size")},
    Words{"doubt/assumed_for", QT_TRANSLATE_NOOP("SetUpWords", "sizes that doubt was stated for")},
    Words{"doubt/lash_float/source",
          QT_TRANSLATE_NOOP("SetUpWords", "source of the doubt by lash")},
    Words{"doubt/end_float/source",
          QT_TRANSLATE_NOOP("SetUpWords", "source of the doubt by end float")},
    Words{"doubt/seat_off_axis/size",
          QT_TRANSLATE_NOOP("SetUpWords", "doubt of the pushrod's seat in the lifter")},
    Words{"doubt/seat_off_axis/source",
          QT_TRANSLATE_NOOP("SetUpWords", "source of the doubt of the pushrod's seat")},
    Words{"doubt/rod_runout/size", QT_TRANSLATE_NOOP("SetUpWords", "pushrod's runout")},
    Words{"doubt/rod_runout/source",
          QT_TRANSLATE_NOOP("SetUpWords", "source of the pushrod's runout")},
    Words{"doubt/lifter_bore_slop/size",
          QT_TRANSLATE_NOOP("SetUpWords", "lifter's slop in its bore")},
    Words{"doubt/lifter_bore_slop/source",
          QT_TRANSLATE_NOOP("SetUpWords", "source of the lifter's slop")},
    Words{"doubt/leak_down/size", QT_TRANSLATE_NOOP("SetUpWords", "lifter's leak down")},
    Words{"doubt/leak_down/source",
          QT_TRANSLATE_NOOP("SetUpWords", "source of the lifter's leak down")},
    Words{"doubt/inputs/*/size", QT_TRANSLATE_NOOP("SetUpWords", "stated doubt")},
    Words{"doubt/inputs/*/angle", QT_TRANSLATE_NOOP("SetUpWords", "stated doubt, an angle")},
    Words{"doubt/inputs/*/source", QT_TRANSLATE_NOOP("SetUpWords", "source of the stated doubt")},
    Words{"trains/*/lifter/foot", QT_TRANSLATE_NOOP("SetUpWords", "place of the lifter's foot")},
    Words{"trains/*/lifter/axis",
          QT_TRANSLATE_NOOP("SetUpWords", "direction of the lifter's bore")},
    Words{"trains/*/lifter/seat_height", QT_TRANSLATE_NOOP("SetUpWords", "lifter's seat height")},
    Words{"trains/*/lifter/kind", QT_TRANSLATE_NOOP("SetUpWords", "kind of lifter")},
    Words{"trains/*/lifter/preload", QT_TRANSLATE_NOOP("SetUpWords", "lifter's preload")},
    Words{"trains/*/lifter/plunger_travel", QT_TRANSLATE_NOOP("SetUpWords", "plunger's travel")},
    Words{"trains/*/lifter/follower", QT_TRANSLATE_NOOP("SetUpWords", "flat tappet or roller")},
    Words{"trains/*/lifter/face_diameter",
          QT_TRANSLATE_NOOP("SetUpWords", "lifter's face diameter")},
    Words{"trains/*/lifter/roller_radius",
          QT_TRANSLATE_NOOP("SetUpWords", "lifter roller's radius")},
    Words{"trains/*/lifter/body_diameter", QT_TRANSLATE_NOOP("SetUpWords", "lifter's diameter")},
    Words{"trains/*/lifter/body_length", QT_TRANSLATE_NOOP("SetUpWords", "lifter's length")},
    Words{"trains/*/rod/length", QT_TRANSLATE_NOOP("SetUpWords", "pushrod's length")},
    Words{"trains/*/rod/overall_length",
          QT_TRANSLATE_NOOP("SetUpWords", "pushrod's overall length")},
    Words{"trains/*/rod/effective_length",
          QT_TRANSLATE_NOOP("SetUpWords", "pushrod's effective length")},
    Words{"trains/*/rod/gauge_length", QT_TRANSLATE_NOOP("SetUpWords", "pushrod's gauge length")},
    Words{"trains/*/rod/diameter", QT_TRANSLATE_NOOP("SetUpWords", "pushrod's diameter")},
    Words{"trains/*/rod/profile", QT_TRANSLATE_NOOP("SetUpWords", "pushrod's profile")},
    Words{"trains/*/rod/lower_ball", QT_TRANSLATE_NOOP("SetUpWords", "pushrod's lower ball")},
    Words{"trains/*/rod/upper_ball", QT_TRANSLATE_NOOP("SetUpWords", "pushrod's upper ball")},
    Words{"trains/*/rod/top_end",
          QT_TRANSLATE_NOOP("SetUpWords", "ball or cup at the pushrod's top")},
    Words{"running/speed", QT_TRANSLATE_NOOP("SetUpWords", "engine speed in motion")},
    Words{"running/rods/*/wall", QT_TRANSLATE_NOOP("SetUpWords", "wall of the pushrod")},
    Words{"running/rods/*/runout", QT_TRANSLATE_NOOP("SetUpWords", "pushrod's indicator reading")},
    Words{"running/rods/*/modulus",
          QT_TRANSLATE_NOOP("SetUpWords", "modulus of the pushrod's metal")},
    Words{"running/masses/*/valve_side",
          QT_TRANSLATE_NOOP("SetUpWords", "mass that moves at the valve")},
    Words{"running/masses/*/rocker_at_valve",
          QT_TRANSLATE_NOOP("SetUpWords", "rocker's share of the mass at the valve")},
    Words{"running/masses/*/rod", QT_TRANSLATE_NOOP("SetUpWords", "mass of the pushrod")},
    Words{"hot/cold_temperature",
          QT_TRANSLATE_NOOP("SetUpWords", "temperature at which all was measured")},
    Words{"hot/parts/*/metal", QT_TRANSLATE_NOOP("SetUpWords", "part's metal")},
    Words{"hot/parts/*/expansion", QT_TRANSLATE_NOOP("SetUpWords", "part's expansion")},
    Words{"hot/parts/*/temperature", QT_TRANSLATE_NOOP("SetUpWords", "part's running temperature")},
    Words{"hot/parts/head_gasket/thickness",
          QT_TRANSLATE_NOOP("SetUpWords", "head gasket's thickness, for its growth")},
    Words{"hot/banks/*/deck_height",
          QT_TRANSLATE_NOOP("SetUpWords", "deck's height above the crank, for its growth")},
    Words{"hot/banks/*/intake_face",
          QT_TRANSLATE_NOOP("SetUpWords", "intake face's place, for its growth")},
    Words{"hot/valves/*/seat_to_tip",
          QT_TRANSLATE_NOOP("SetUpWords", "valve's length from seat to tip, for its growth")},
    Words{"trains/*/rod/cup_outside",
          QT_TRANSLATE_NOOP("SetUpWords", "width of the pushrod's cup")},
    Words{"trains/*/rod/cup_depth", QT_TRANSLATE_NOOP("SetUpWords", "depth of the pushrod's cup")},
    Words{"trains/*/rod/gauge_hole",
          QT_TRANSLATE_NOOP("SetUpWords", "gauge hole of the pushrod's length")},
    Words{"trains/*/rocker/mount", QT_TRANSLATE_NOOP("SetUpWords", "what the rocker turns on")},
    Words{"trains/*/rocker/guided_by", QT_TRANSLATE_NOOP("SetUpWords", "what guides the rocker")},
    Words{"trains/*/rocker/shaft", QT_TRANSLATE_NOOP("SetUpWords", "rocker shaft")},
    Words{"trains/*/rocker/pivot", QT_TRANSLATE_NOOP("SetUpWords", "place of the rocker's pivot")},
    Words{"trains/*/rocker/axis",
          QT_TRANSLATE_NOOP("SetUpWords", "direction of the rocker's shaft")},
    Words{"trains/*/rocker/ball_arm",
          QT_TRANSLATE_NOOP("SetUpWords", "rocker's arm to the pushrod")},
    Words{"trains/*/rocker/tip_arm", QT_TRANSLATE_NOOP("SetUpWords", "rocker's arm to the valve")},
    Words{"trains/*/rocker/end_float", QT_TRANSLATE_NOOP("SetUpWords", "rocker's end float")},
    Words{"trains/*/rocker/body/from", QT_TRANSLATE_NOOP("SetUpWords", "rocker body's one end")},
    Words{"trains/*/rocker/body/to", QT_TRANSLATE_NOOP("SetUpWords", "rocker body's other end")},
    Words{"trains/*/rocker/body/diameter",
          QT_TRANSLATE_NOOP("SetUpWords", "rocker body's diameter")},
    Words{"trains/*/adjuster/kind", QT_TRANSLATE_NOOP("SetUpWords", "kind of adjuster")},
    Words{"trains/*/adjuster/axis", QT_TRANSLATE_NOOP("SetUpWords", "direction of the adjuster")},
    Words{"trains/*/adjuster/thread_towards_rod",
          QT_TRANSLATE_NOOP("SetUpWords", "adjuster's thread left towards the pushrod")},
    Words{"trains/*/adjuster/thread_away_from_rod",
          QT_TRANSLATE_NOOP("SetUpWords", "adjuster's thread left away from the pushrod")},
    Words{"trains/*/adjuster/pitch", QT_TRANSLATE_NOOP("SetUpWords", "adjuster's pitch")},
    Words{"trains/*/adjuster/cup_limit",
          QT_TRANSLATE_NOOP("SetUpWords", "how far the pushrod may lean in its cup")},
    Words{"trains/*/valve/axis", QT_TRANSLATE_NOOP("SetUpWords", "direction of the valve")},
    Words{"trains/*/valve/tip", QT_TRANSLATE_NOOP("SetUpWords", "place of the valve's tip")},
    Words{"trains/*/tube/shape", QT_TRANSLATE_NOOP("SetUpWords", "shape of the tube")},
    Words{"trains/*/tube/casting", QT_TRANSLATE_NOOP("SetUpWords", "casting that has the tube")},
    Words{"trains/*/tube/centre", QT_TRANSLATE_NOOP("SetUpWords", "place of the tube")},
    Words{"trains/*/tube/axis", QT_TRANSLATE_NOOP("SetUpWords", "direction of the tube")},
    Words{"trains/*/tube/length", QT_TRANSLATE_NOOP("SetUpWords", "tube's length")},
    Words{"trains/*/tube/bore", QT_TRANSLATE_NOOP("SetUpWords", "tube's bore")},
    Words{"trains/*/tube/long_bore", QT_TRANSLATE_NOOP("SetUpWords", "tube's bore, the long way")},
    Words{"trains/*/tube/long_way", QT_TRANSLATE_NOOP("SetUpWords", "tube's long way")},
    Words{"trains/*/tube/top_edge",
          QT_TRANSLATE_NOOP("SetUpWords", "edge at the tube's upper end")},
    Words{"trains/*/tube/bottom_edge",
          QT_TRANSLATE_NOOP("SetUpWords", "edge at the tube's lower end")},
    Words{"trains/*/tube/fitted_doubt",
          QT_TRANSLATE_NOOP("SetUpWords", "what readings leave open of the tube's place")},
    Words{"trains/*/tube/wall", QT_TRANSLATE_NOOP("SetUpWords", "tube's wall")},
    Words{"trains/*/passages/*/kind", QT_TRANSLATE_NOOP("SetUpWords", "kind of passage")},
    Words{"trains/*/passages/*/casting",
          QT_TRANSLATE_NOOP("SetUpWords", "casting that has the passage")},
    Words{"trains/*/passages/*/centre", QT_TRANSLATE_NOOP("SetUpWords", "place of the passage")},
    Words{"trains/*/passages/*/axis", QT_TRANSLATE_NOOP("SetUpWords", "direction of the passage")},
    Words{"trains/*/passages/*/length", QT_TRANSLATE_NOOP("SetUpWords", "passage's length")},
    Words{"trains/*/passages/*/bore", QT_TRANSLATE_NOOP("SetUpWords", "passage's bore")},
    Words{"trains/*/passages/*/long_bore",
          QT_TRANSLATE_NOOP("SetUpWords", "passage's bore, the long way")},
    Words{"trains/*/passages/*/long_way", QT_TRANSLATE_NOOP("SetUpWords", "passage's long way")},
    Words{"trains/*/passages/*/top_edge",
          QT_TRANSLATE_NOOP("SetUpWords", "edge at the passage's upper end")},
    Words{"trains/*/passages/*/bottom_edge",
          QT_TRANSLATE_NOOP("SetUpWords", "edge at the passage's lower end")},
    Words{"trains/*/passages/*/fitted_doubt",
          QT_TRANSLATE_NOOP("SetUpWords", "what readings leave open of the passage's place")},
    Words{"trains/*/passages/*/wall", QT_TRANSLATE_NOOP("SetUpWords", "passage's wall")},
    Words{"obstacles/*/bank",
          QT_TRANSLATE_NOOP("SetUpWords", "bank of what stands beside the rods")},
    Words{"obstacles/*/casting",
          QT_TRANSLATE_NOOP("SetUpWords", "casting of what stands beside the rods")},
    Words{"obstacles/*/kind",
          QT_TRANSLATE_NOOP("SetUpWords", "shape of what stands beside the rods")},
    Words{"obstacles/*/point",
          QT_TRANSLATE_NOOP("SetUpWords", "place of what stands beside the rods")},
    Words{"obstacles/*/normal",
          QT_TRANSLATE_NOOP("SetUpWords", "direction of what stands beside the rods")},
    Words{"obstacles/*/axis",
          QT_TRANSLATE_NOOP("SetUpWords", "axis of what stands beside the rods")},
    Words{"obstacles/*/second_axis",
          QT_TRANSLATE_NOOP("SetUpWords", "second axis of what stands beside the rods")},
    Words{"obstacles/*/diameter",
          QT_TRANSLATE_NOOP("SetUpWords", "diameter of what stands beside the rods")},
    Words{"obstacles/*/length",
          QT_TRANSLATE_NOOP("SetUpWords", "length of what stands beside the rods")},
    Words{"obstacles/*/sizes",
          QT_TRANSLATE_NOOP("SetUpWords", "sizes of what stands beside the rods")},
};

QString text(const std::string& utf8) {
    return QString::fromStdString(utf8).replace('_', ' ');
}

bool is_component(const std::string& part) {
    return part == "x" || part == "y" || part == "z";
}

/// The words of a path, without the last part of a place or direction; null if it has none.
const char* words_of(std::vector<std::string> parts) {
    if (parts.size() > 2 && is_component(parts.back())) {
        parts.pop_back();
    }
    const auto* found = std::find_if(std::begin(fields), std::end(fields), [&](const Words& words) {
        const auto wanted = path_parts(words.pattern);
        return std::equal(wanted.begin(), wanted.end(), parts.begin(), parts.end(),
                          [](const std::string& part, const std::string& name) {
                              return part == "*" || part == name;
                          });
    });
    return found == std::end(fields) ? nullptr : found->words;
}

/// Whose field it is: the names in the path.
QString owner_of(const std::vector<std::string>& parts) {
    const std::string& kind = parts.front();
    if (parts.size() < 3 || kind == "engine" || kind == "camshaft" || kind == "limits") {
        return {};
    }
    if (kind == "banks") {
        return SetUpWords::tr("%1 bank").arg(text(parts[1]));
    }
    if (kind == "cylinders") {
        return SetUpWords::tr("cylinder %1").arg(text(parts[1]));
    }
    if (kind == "doubt") {
        return parts[1] == "inputs" ? text(parts[2]) : QString();
    }
    if (kind == "trains" && parts[2] == "passages") {
        return SetUpWords::tr("%1 of %2").arg(text(parts[3]), text(parts[1]));
    }
    return text(parts[1]);
}

} // namespace

SetUpField set_up_field(const std::string& path) {
    const auto parts = path_parts(path);
    if (const QString title = described_title(path); !title.isEmpty()) {
        const QString size = title.at(0).toLower() + title.mid(1);
        const bool is_size = parts.size() < 4 || parts[3] == "size" || parts[3] == "angle";
        return {is_size ? size : SetUpWords::tr("%1, its %2").arg(size, text(parts[3])), {}};
    }
    const char* words = words_of(parts);
    return words == nullptr
               ? SetUpField{QString::fromStdString(path), {}}
               : SetUpField{QCoreApplication::translate("SetUpWords", words), owner_of(parts)};
}

QString set_up_field_text(const std::string& path) {
    const SetUpField field = set_up_field(path);
    return field.where.isEmpty() ? field.what
                                 : SetUpWords::tr("%1, %2").arg(field.what, field.where);
}

} // namespace rodway::words
