#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/build/records.h"
#include "db/record_fields.h"
#include "db/shop_file.h"

namespace rodway {

/// Which builds the Bench shows.
enum class BenchFilter {
    in_hand,
    put_away,
    waits_for_part,     ///< in hand, and a part of it is still to come
    waits_for_cure,     ///< in hand, and something on it dries
    waits_for_customer, ///< in hand, and the customer was asked and hasn't answered
};

enum class BenchOrder {
    promised,      ///< the earliest first, those without a day last, then by number
    newest_change, ///< the build that was worked on last first
};

struct BenchRequest {
    BenchFilter filter = BenchFilter::in_hand;
    /// Every word of it must stand somewhere in name, customer, engine or job number; small and
    /// capital letters are alike. Empty: all.
    std::string text = {};
    BenchOrder order = BenchOrder::promised;
    int offset = 0;
    int limit = 50;
    std::string now_utc; ///< by which cures are judged
    std::string today;   ///< ISO day of the shop's calendar, by which promised parts are
};

/// One stage of a build's rail.
struct BenchStage {
    std::int64_t stage_id = 0;
    std::string title;
    int steps = 0;
    int steps_done = 0; ///< ticked, or left out
    bool signed_off = false;
    bool gated = false; ///< it has a gate, and so is passed by a sign-off alone
};

/// One build on the Bench, as far as its records say without looking at a check.
struct BenchRow {
    Build build;
    std::vector<BenchStage> rail; ///< by ordinal
    /// The first step that isn't done, and its stage.
    std::optional<std::string> next_step;
    std::optional<std::string> next_stage;
    int parts_to_come = 0;
    int parts_overdue = 0;
    std::optional<std::string> next_part; ///< ISO day of the earliest promise for one of them
    int cures_running = 0;
    std::optional<std::string> cured_at; ///< UTC when the last of them is, if all are known
    int open_items = 0;
    int questions = 0;                     ///< that the customer hasn't answered
    std::optional<std::string> changed_at; ///< UTC of the newest act
    std::optional<std::string> changed_by;
    std::int64_t newest_act = 0; ///< its number; while it is the same, so is the build
};

struct BenchRows {
    std::vector<BenchRow> rows;       ///< those asked for, in their order
    int total = 0;                    ///< how many there are on all pages
    std::int64_t newest_shop_act = 0; ///< that changed what all builds are judged by
};

/// One page of the Bench. Errors: those of reading the file; out_of_range "offset" or "limit".
Result<BenchRows> bench_page(ShopFile& shop, const BenchRequest& request);

} // namespace rodway
