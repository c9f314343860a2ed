#pragma once

#include <optional>
#include <span>
#include <string_view>

namespace rodway {

/// Where a quantity is read: how many places it has, and what names one. In brackets, one of them
/// as it is kept.
enum class Place {
    engine,        ///< once ()
    bank,          ///< each bank; nothing on an engine with one ("left")
    spot,          ///< a corner or spot of a casting ("left front", "front top", "3")
    cylinder,      ///< ("3")
    bore,          ///< a cylinder at a depth, in a direction ("3 top thrust")
    cylinder_side, ///< a side of a cylinder, at a depth ("3 antithrust middle")
    ring,          ///< a cylinder's ring ("3 second")
    rod_pin,       ///< a cylinder's crank pin or big end, at an end, in a direction ("3 vertical")
    valve,         ///< ("3I")
    valve_tube,    ///< its pushrod tube at a depth, in a direction ("3I top across")
    valve_lift,    ///< a valve at a lift ("3I half")
    valve_angle,   ///< a valve at a crank angle ("3I 20 BTDC")
    spring_height, ///< a valve's spring at a height ("3I 1.8in")
    rod_gap,       ///< as `RodGapPosition` ("3I/tube/rocker/3/full_lift")
    lobe,          ///< by the valve it opens, the first if it opens several ("3I")
    lobe_angle,    ///< a lobe at a crank angle ("3I 106 ATDC")
    lobe_event,    ///< a lobe opening or closing, at a lifter rise ("3I opens 0.05in")
    lobe_rise,     ///< a lobe at a lifter rise ("3I 0.05in")
    card_lobe,     ///< all lobes of a kind, as a cam card has them ("I")
    card_height,   ///< all lobes of a kind at a lifter rise ("I 0.05in")
    main_journal,  ///< a main at an end, in a direction ("J2", "J2 front vertical")
    cam_journal,   ///< the same of the camshaft
    bolt,          ///< a bolt, stud or nut of a joint ("main 2 bolt 1", "head left bolt 7")
    bolt_pass,     ///< a bolt in one pass ("head left bolt 7 pass 2")
    hole,          ///< a threaded hole ("head left hole 7")
    plug,          ///< a gallery plug ("front plug 2")
    series,        ///< a day, and which time on it ("2026-03-01", "2026-03-01 2")
    pull,          ///< ("pull 3")
    pull_speed,    ///< a pull at a speed ("pull 3 4500 rpm")
    pull_cylinder, ///< a pull, one cylinder ("pull 3 4500 rpm cyl 5")
    stop_side,     ///< a reading against the positive stop ("forward", "backward")
    joint,         ///< all bolts of a joint ("head left", "main"), or of its one cap ("main 2")
};

/// One part of a position.
enum class PlacePart {
    bank,
    end,
    height,
    flank,
    ordinal,
    cylinder,
    depth,
    bore_direction,
    side,
    ring,
    journal,
    journal_end,
    journal_direction,
    valve,
    valve_kind,
    tube_direction,
    lift,
    angle,
    rise,
    event,
    joint,
    bolt,
    hole,
    plug,
    pass,
    day,
    pull,
    speed,
    of_cylinder,
    stop_side,
    gap,
};

struct PlacePartUse {
    PlacePart part;
    bool needed = true;
};

/// What a position of one place is made of, in the order in which it is kept.
struct PlaceShape {
    Place place;
    std::string_view id;      ///< never changes: a shop's own sheets have it
    std::string_view mark;    ///< 1, C, V, L, J, P, B, T, or a product such as "CxP"
    std::string_view example; ///< a position, as kept; empty for the whole engine
    std::span<const PlacePartUse> parts;
    bool may_be_empty = false; ///< the whole engine, or its only bank
};

/// All places, in the order of `Place`.
[[nodiscard]] std::span<const PlaceShape> place_shapes();
[[nodiscard]] const PlaceShape& shape_of(Place place);
[[nodiscard]] std::optional<Place> place_called(std::string_view id);

/// A word for a part, and how else it is written: small, blanks and hyphens left out.
struct PlaceWord {
    PlacePart part;
    std::string_view kept;
    std::string_view alike; ///< blanks between them
};
/// Every word that names a part by itself ("top", "thrust", "left").
[[nodiscard]] std::span<const PlaceWord> place_words();

} // namespace rodway
