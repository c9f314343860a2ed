#pragma once

#include <string>
#include <vector>

#include "app/work/build_sheets.h"
#include "core/build/hold.h"
#include "core/build/stage_state.h"
#include "db/shop_file.h"

namespace rodway {

/// At which moment the work is looked at.
struct Moment {
    std::string now_utc;
    std::string today; ///< ISO day of the shop's calendar then

    /// Now, by this computer's clock.
    [[nodiscard]] static Moment present();
    /// A UTC time, and the day on which it falls by this computer's clock.
    [[nodiscard]] static Moment at(const std::string& utc);
};

/// How one build stands: what holds it up, its stages, what to do next.
struct BuildState {
    HoldFacts facts;
    Holds holds; ///< `holds_of_build`
    std::vector<StageState> stages;
    NextThing next;
    words::OwnTitles own_titles; ///< of the shop's own sheets

    [[nodiscard]] const Stage* stage(std::int64_t id) const;
    [[nodiscard]] const Step* step(std::int64_t id) const;
    [[nodiscard]] const PartRecord* part(std::int64_t id) const;
};

/// Loads a build, assesses its sheets and works out its clearances: the last takes up to a second,
/// so that a window asks on a thread of its own. Errors: those of reading the file; no_such_record.
Result<BuildState> load_build_state(ShopFile& shop, std::int64_t build_id, const Moment& moment);

} // namespace rodway
