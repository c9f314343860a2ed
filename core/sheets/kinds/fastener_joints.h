#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/sheets/engine_places.h"
#include "core/sheets/taken_readings.h"

namespace rodway {

/// One bolt as a log knows it: where it stands, without a pass.
struct LoggedBolt {
    SheetPosition place; ///< `Place::bolt`
    int number = 0;

    [[nodiscard]] std::string position() const { return sheet_position_text(place); }
    [[nodiscard]] std::string position_in(int pass) const; ///< `Place::bolt_pass`
};

/// Bolts that are tightened together: a head's, all main caps', all rods'.
struct LoggedJoint {
    std::string word;              ///< "head", "main"; empty if none is named
    std::vector<LoggedBolt> bolts; ///< by cap, then by number
    bool caps = false;             ///< each cap counts its bolts from 1
};

/// What a quantity of `Place::joint` says of a bolt, or of a joint: of its cap at its bank, else of
/// the cap, else of the joint at its bank, else of the joint. Nothing if nobody wrote it.
[[nodiscard]] const Taken* said_of_joint(const TakenReadings& readings, std::string_view quantity,
                                         const SheetPosition& place);

/// Every joint with a bolt that anything was written of. Its bolts are numbered from 1 to what
/// `joint_bolts` says of it, else to the greatest number written; its caps from 1 to the greatest
/// written; every cylinder has its rod. Bolts whose steps are written apart are joints of their
/// own.
[[nodiscard]] std::vector<LoggedJoint> logged_joints(const TakenReadings& readings,
                                                     const EnginePlaces* places);

/// The same with the joints that are only counted so far: a drawing of them is wanted before the
/// first bolt is tightened. Not of all main caps or rods at once, for each has bolts of its own.
[[nodiscard]] std::vector<LoggedJoint> known_joints(const TakenReadings& readings,
                                                    const EnginePlaces* places);

} // namespace rodway
