#pragma once

#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/sheets/reading_interval.h"

namespace rodway {

enum class PartMotion {
    reciprocating, ///< up and down with the piston: piston, pin, locks, rings, small end
    rotating,      ///< round with the crank pin: big end, bearing shells, oil
};
/// How often a part counts on one throw. A card that says "x2" may mean either.
enum class PartShare {
    each_rod,   ///< once for every rod on the throw
    each_throw, ///< once, however many rods share the throw: oil
};

struct BobweightPart {
    std::string name; ///< identity or the shop's word
    Interval mass_g;  ///< of all pieces of one share together (both locks, say); 0 to 50 000
    PartMotion motion = PartMotion::reciprocating;
    PartShare share = PartShare::each_rod;
};

/// What is hung on each throw of a crank to balance it. All g.
struct Bobweight {
    Interval reciprocating_g; ///< of one rod
    Interval rotating_g;      ///< of one rod
    Interval each_throw_g;    ///< what counts once a throw
    Interval bobweight_g;
};

/// Bobweight of one throw: each rod's rotating mass whole and a share of its reciprocating mass,
/// and what counts once a throw (common practice, no source; 50 % is usual for a 90° vee of eight
/// with shared throws). `rods_on_throw` 1 to 4; `balance_percent` 0 to 100.
/// Errors: too_few_rows ("part": none); not_a_number, out_of_range ("part", `line` counted from 1;
/// "rods_on_throw", "balance_percent").
Result<Bobweight> bobweight(const std::vector<BobweightPart>& parts, int rods_on_throw,
                            double balance_percent);

} // namespace rodway
