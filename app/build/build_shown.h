#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "app/work/build_state.h"
#include "app/work/running_clock.h"
#include "core/build/gate_state.h"
#include "core/build/records.h"
#include "db/stage_store.h"

namespace rodway {

/// How one stage stands, with what the window shows of it.
struct StageShown {
    StageState state;
    StageGates gates;
    Holds holds; ///< `holds_of_stage`
};

/// What takes a moment to work out: how the build stands, by the engine too.
struct BuildStanding {
    BuildState state;
    std::vector<StageShown> stages; ///< by ordinal

    [[nodiscard]] const StageShown* stage(std::int64_t id) const;
};

/// Errors: those of `load_build_state`.
Result<BuildStanding> load_build_standing(ShopFile& shop, std::int64_t build_id,
                                          const Moment& moment);

/// The records of one build that its page shows, as they are now, and how it stood when that was
/// last worked out.
struct BuildShown {
    Build build;
    std::vector<StageWithSteps> stages;
    std::vector<PartRecord> parts;
    std::vector<SignOff> sign_offs;
    std::vector<Cure> cures;
    std::vector<OpenItem> items;
    std::vector<Decision> decisions;
    std::vector<Promise> promises;
    std::vector<CastingNumber> castings;
    std::vector<Note> notes;
    std::vector<Photo> photos;
    std::vector<Product> products;   ///< of the shop
    std::vector<Customer> customers; ///< of the shop
    std::optional<BuildStanding> standing = {};
    std::string now_utc = {};
    std::string today = {};

    [[nodiscard]] const StageWithSteps* stage(std::int64_t id) const;
    [[nodiscard]] const Step* step(std::int64_t id) const;
    [[nodiscard]] const StageWithSteps* stage_of_step(std::int64_t id) const;
    [[nodiscard]] words::OwnTitles own_titles() const;
};

/// Without its standing. Errors: those of reading the file; no_such_record.
Result<BuildShown> load_build_shown(ShopFile& shop, std::int64_t build_id);

} // namespace rodway
