#pragma once

#include <QString>
#include <optional>
#include <string>
#include <vector>

#include "app/edit_stack/shop_session.h"
#include "app/work/build_sheets.h"
#include "core/files/pull_csv.h"

namespace rodway {

/// What a person knows about a pull and its file doesn't say.
struct PullSaid {
    std::optional<int> number;             ///< of the pull; nothing: the next that isn't written to
    std::optional<std::string> barometer;  ///< where its figure belongs: "station", "sea_level"
    std::optional<std::string> altitude;   ///< of the room, as typed; bare: feet
    std::optional<std::string> correction; ///< of the corrected columns: as `pull_correction`
    PullCsvHints hints;
};

/// A pull's file, read, and what it becomes on the dyno sheet.
struct PullToKeep {
    int number = 0;
    PullCsv table;
    Pull raw; ///< never a corrected column
    /// In the order of the file's rows, without ids. Row by row what the sheet has by speed; what
    /// it has once a pull, as the least and greatest of its column. What the sheet has no box for
    /// stands in the note of the row's first reading, under the file's own heading: other columns,
    /// a speed that isn't a whole one, each row's figure of what the sheet has once a pull or in
    /// another unit.
    std::vector<Reading> readings;
};

/// What the sheet's boxes can take of one file.
constexpr int most_pull_rows = 2000;

/// Reads a pull's file and makes readings of it; nothing is kept yet. `file_name` is told as the
/// readings' method. Errors: as `read_pull_csv` and `raw_pull`, `line` the file's; out_of_range
/// ("rows"); order_wrong ("speed": two rows are within one rpm); duplicate_field ("pull": that
/// number is on the sheet already); as `reading_to_keep` for what was said, `field` "barometer",
/// "altitude" or "correction".
Result<PullToKeep> pull_to_keep(const BuildSheets& sheets, const std::string& bytes,
                                const std::string& file_name, const PullSaid& said);

/// Keeps it as one act, which can be undone. Errors: as `ShopSession::create`.
Result<Done> keep_pull(ShopSession& session, std::int64_t build_id, const BuildSheets& sheets,
                       const PullToKeep& pull);

} // namespace rodway
