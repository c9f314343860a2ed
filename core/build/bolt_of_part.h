#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/build/records.h"
#include "core/sheets/taken_readings.h"
#include "core/units/interval.h"

namespace rodway {

/// A bolt that is a part of the build, in a hole that was measured. Lengths in mm, as far as the
/// readings tell; nothing where none was taken.
struct BoltInPlace {
    std::string position; ///< of the readings: "intake left bolt 3", "head left hole 7"
    std::optional<Interval> engaged_mm;    ///< thread in thread
    std::optional<Interval> to_bottom_mm;  ///< left; less than 0: it bottoms before it clamps
    std::optional<Interval> to_passage_mm; ///< left; less than 0: so much of it stands in a rod's
                                           ///< passage
    /// What the bolt must go through so that it doesn't bottom, where only the hole's depth is
    /// known; less than 0: it is too short to bottom whatever it goes through.
    std::optional<Interval> least_grip_mm;
    std::optional<double> diameter_mm; ///< of its thread: so much engagement is the least in iron,
                                       ///< see `least_engagement_iron` in
                                       ///< `core/fasteners/bolt_reach.h`
};

/// What a part's length under its head comes to at every hole of its joint that was measured: of
/// intake bolts (role "intake_bolt") by grip, thread and hole; of head bolts by the hole's depth. A
/// part with positions is put to those only, "left bolt 3, left bolt 4"; positions that name no
/// bolt put it to all. Empty without a length, of other roles, or where nothing was measured.
/// Errors: those of `parse_length` and `parse_thread`, fields "length" and "thread"; those of
/// `intake_bolt_reach`.
Result<std::vector<BoltInPlace>> bolts_in_place(const PartRecord& part,
                                                const TakenReadings& readings);

/// How long it is under its head. Nothing if it doesn't say; errors: those of `parse_length`.
Result<std::optional<Interval>> length_of_part(const PartRecord& part);

} // namespace rodway
