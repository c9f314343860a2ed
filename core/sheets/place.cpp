#include "core/sheets/place.h"

#include <algorithm>
#include <array>

namespace rodway {
namespace {

using Part = PlacePart;

constexpr bool maybe = false;

constexpr std::array bank{PlacePartUse{Part::bank, maybe}};
constexpr std::array spot{PlacePartUse{Part::bank, maybe}, PlacePartUse{Part::end, maybe},
                          PlacePartUse{Part::height, maybe}, PlacePartUse{Part::flank, maybe},
                          PlacePartUse{Part::ordinal, maybe}};
constexpr std::array cylinder{PlacePartUse{Part::cylinder}};
constexpr std::array bore{PlacePartUse{Part::cylinder}, PlacePartUse{Part::depth, maybe},
                          PlacePartUse{Part::bore_direction, maybe}};
constexpr std::array cylinder_side{PlacePartUse{Part::cylinder}, PlacePartUse{Part::side, maybe},
                                   PlacePartUse{Part::depth, maybe}};
constexpr std::array ring{PlacePartUse{Part::cylinder}, PlacePartUse{Part::ring}};
constexpr std::array rod_pin{PlacePartUse{Part::cylinder}, PlacePartUse{Part::journal_end, maybe},
                             PlacePartUse{Part::journal_direction, maybe}};
constexpr std::array valve{PlacePartUse{Part::valve}};
constexpr std::array valve_tube{PlacePartUse{Part::valve}, PlacePartUse{Part::depth, maybe},
                                PlacePartUse{Part::tube_direction, maybe}};
constexpr std::array valve_lift{PlacePartUse{Part::valve}, PlacePartUse{Part::lift}};
constexpr std::array valve_angle{PlacePartUse{Part::valve}, PlacePartUse{Part::angle}};
constexpr std::array spring_height{PlacePartUse{Part::valve}, PlacePartUse{Part::rise}};
constexpr std::array rod_gap{PlacePartUse{Part::gap}};
constexpr std::array lobe_event{PlacePartUse{Part::valve}, PlacePartUse{Part::event},
                                PlacePartUse{Part::rise}};
constexpr std::array card_lobe{PlacePartUse{Part::valve_kind}};
constexpr std::array card_height{PlacePartUse{Part::valve_kind}, PlacePartUse{Part::rise}};
constexpr std::array journal{PlacePartUse{Part::journal}, PlacePartUse{Part::journal_end, maybe},
                             PlacePartUse{Part::journal_direction, maybe}};
constexpr std::array joint{PlacePartUse{Part::joint, maybe}, PlacePartUse{Part::bank, maybe}};
constexpr std::array bolt{PlacePartUse{Part::joint, maybe}, PlacePartUse{Part::bank, maybe},
                          PlacePartUse{Part::bolt}};
constexpr std::array bolt_pass{PlacePartUse{Part::joint, maybe}, PlacePartUse{Part::bank, maybe},
                               PlacePartUse{Part::bolt}, PlacePartUse{Part::pass}};
constexpr std::array hole{PlacePartUse{Part::joint, maybe}, PlacePartUse{Part::bank, maybe},
                          PlacePartUse{Part::hole}};
constexpr std::array plug{PlacePartUse{Part::bank, maybe}, PlacePartUse{Part::end, maybe},
                          PlacePartUse{Part::height, maybe}, PlacePartUse{Part::plug}};
constexpr std::array series{PlacePartUse{Part::day}, PlacePartUse{Part::ordinal, maybe}};
constexpr std::array pull{PlacePartUse{Part::pull}};
constexpr std::array pull_speed{PlacePartUse{Part::pull}, PlacePartUse{Part::speed}};
constexpr std::array pull_cylinder{PlacePartUse{Part::pull}, PlacePartUse{Part::speed, maybe},
                                   PlacePartUse{Part::of_cylinder}};
constexpr std::array stop_side{PlacePartUse{Part::stop_side}};

constexpr std::array shapes{
    PlaceShape{Place::engine, "engine", "1", "", {}, true},
    PlaceShape{Place::bank, "bank", "1", "left", bank, true},
    PlaceShape{Place::spot, "spot", "P", "left front", spot},
    PlaceShape{Place::cylinder, "cylinder", "C", "3", cylinder},
    PlaceShape{Place::bore, "bore", "CxP", "3 top thrust", bore},
    PlaceShape{Place::cylinder_side, "cylinder_side", "CxP", "3 antithrust middle", cylinder_side},
    PlaceShape{Place::ring, "ring", "Cx3", "3 second", ring},
    PlaceShape{Place::rod_pin, "rod_pin", "C", "3 front vertical", rod_pin},
    PlaceShape{Place::valve, "valve", "V", "3I", valve},
    PlaceShape{Place::valve_tube, "valve_tube", "V", "3I top across", valve_tube},
    PlaceShape{Place::valve_lift, "valve_lift", "V", "3I half", valve_lift},
    PlaceShape{Place::valve_angle, "valve_angle", "CxAngle", "3I 20 BTDC", valve_angle},
    PlaceShape{Place::spring_height, "spring_height", "V", "3I 1.8in", spring_height},
    PlaceShape{Place::rod_gap, "rod_gap", "V", "3I/tube/rocker/3/full_lift", rod_gap},
    PlaceShape{Place::lobe, "lobe", "L", "3I", valve},
    PlaceShape{Place::lobe_angle, "lobe_angle", "L", "3I 106 ATDC", valve_angle},
    PlaceShape{Place::lobe_event, "lobe_event", "L", "3I opens 0.05in", lobe_event},
    PlaceShape{Place::lobe_rise, "lobe_rise", "L", "3I 0.05in", spring_height},
    PlaceShape{Place::card_lobe, "card_lobe", "L", "I", card_lobe},
    PlaceShape{Place::card_height, "card_height", "L", "I 0.05in", card_height},
    PlaceShape{Place::main_journal, "main_journal", "J", "J2 front vertical", journal},
    PlaceShape{Place::cam_journal, "cam_journal", "J", "J2 front vertical", journal},
    PlaceShape{Place::bolt, "bolt", "B", "head left bolt 7", bolt},
    PlaceShape{Place::bolt_pass, "bolt_pass", "B", "main 2 bolt 1 pass 2", bolt_pass},
    PlaceShape{Place::hole, "hole", "B", "head left hole 7", hole},
    PlaceShape{Place::plug, "plug", "B", "left front plug 2", plug},
    PlaceShape{Place::series, "series", "T", "2026-03-01 2", series},
    PlaceShape{Place::pull, "pull", "1", "pull 3", pull},
    PlaceShape{Place::pull_speed, "pull_speed", "1", "pull 3 4500 rpm", pull_speed},
    PlaceShape{Place::pull_cylinder, "pull_cylinder", "C", "pull 3 4500 rpm cyl 5", pull_cylinder},
    PlaceShape{Place::stop_side, "stop_side", "1", "forward", stop_side},
    PlaceShape{Place::joint, "joint", "B", "head left", joint, true},
};

constexpr std::array words{
    PlaceWord{Part::bank, "left", "left lh lefthand"},
    PlaceWord{Part::bank, "right", "right rh righthand"},
    PlaceWord{Part::end, "front", "front"},
    PlaceWord{Part::end, "middle", "middle mid centre center"},
    PlaceWord{Part::end, "rear", "rear back"},
    PlaceWord{Part::height, "top", "top upper"},
    PlaceWord{Part::height, "bottom", "bottom lower"},
    PlaceWord{Part::flank, "inner", "inner inboard valley"},
    PlaceWord{Part::flank, "outer", "outer outboard"},
    PlaceWord{Part::depth, "top", "top upper"},
    PlaceWord{Part::depth, "middle", "middle mid centre center"},
    PlaceWord{Part::depth, "bottom", "bottom lower bot"},
    PlaceWord{Part::bore_direction, "thrust", "thrust across cross crosswise"},
    PlaceWord{Part::bore_direction, "pin", "pin axial along lengthwise inline"},
    PlaceWord{Part::side, "front", "front"},
    PlaceWord{Part::side, "rear", "rear back"},
    PlaceWord{Part::side, "thrust", "thrust major majorthrust"},
    PlaceWord{Part::side, "antithrust", "antithrust minor minorthrust"},
    PlaceWord{Part::ring, "top", "top first upper"},
    PlaceWord{Part::ring, "second", "second 2nd"},
    PlaceWord{Part::ring, "oil", "oil third 3rd"},
    PlaceWord{Part::journal_end, "front", "front"},
    PlaceWord{Part::journal_end, "rear", "rear back"},
    PlaceWord{Part::journal_direction, "vertical", "vertical vert v"},
    PlaceWord{Part::journal_direction, "horizontal", "horizontal horiz hor h"},
    PlaceWord{Part::valve_kind, "I", "i in int intake intakes inlet inlets"},
    PlaceWord{Part::valve_kind, "E", "e ex exh exhaust exhausts"},
    PlaceWord{Part::tube_direction, "along", "along lengthwise fronttorear"},
    PlaceWord{Part::tube_direction, "across", "across cross crosswise"},
    PlaceWord{Part::lift, "closed", "closed base heel onheel ontheheel seat"},
    PlaceWord{Part::lift, "half", "half halflift mid midlift"},
    PlaceWord{Part::lift, "full", "full fulllift open max peak"},
    PlaceWord{Part::lift, "overlap", "overlap onoverlap atoverlap rocking ontherock"},
    PlaceWord{Part::event, "opens", "opens open opening"},
    PlaceWord{Part::event, "closes", "closes close closing"},
    PlaceWord{Part::joint, "main", "main maincap mains"},
    PlaceWord{Part::joint, "rod", "rod rodcap connectingrod"},
    PlaceWord{Part::joint, "head", "head heads cylinderhead"},
    PlaceWord{Part::joint, "rocker", "rocker rockers rockershaft rockerstand"},
    PlaceWord{Part::joint, "intake", "intake intakemanifold"},
    PlaceWord{Part::joint, "exhaust", "exhaust exhaustmanifold header headers"},
    PlaceWord{Part::joint, "cam", "cam cambolt camgear camsprocket"},
    PlaceWord{Part::joint, "damper", "damper balancer"},
    PlaceWord{Part::joint, "flywheel", "flywheel flexplate"},
    PlaceWord{Part::joint, "front cover", "frontcover timingcover"},
    PlaceWord{Part::joint, "pan", "pan oilpan sump"},
    PlaceWord{Part::joint, "oil pump", "oilpump"},
    PlaceWord{Part::joint, "water pump", "waterpump"},
    PlaceWord{Part::joint, "rocker cover", "rockercover valvecover"},
    PlaceWord{Part::stop_side, "forward", "forward forwards"},
    PlaceWord{Part::stop_side, "backward", "backward backwards reverse"},
};

} // namespace

std::span<const PlaceShape> place_shapes() {
    return shapes;
}

const PlaceShape& shape_of(Place place) {
    return shapes[static_cast<std::size_t>(place)];
}

std::optional<Place> place_called(std::string_view id) {
    const auto found = std::find_if(shapes.begin(), shapes.end(),
                                    [&](const PlaceShape& shape) { return shape.id == id; });
    return found == shapes.end() ? std::nullopt : std::optional(found->place);
}

std::span<const PlaceWord> place_words() {
    return words;
}

} // namespace rodway
