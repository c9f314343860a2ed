#pragma once

// SQL stays in `db`: nothing outside it includes this header.

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "db/connection.h"

namespace rodway {

/// One step from a schema version to the next.
struct Migration {
    int version = 0; ///< `user_version` of the file afterwards
    std::string sql;
    /// What SQL can't do, afterwards in the same transaction; may be empty.
    std::function<Result<Done>(Connection&)> then = {};
};

/// The program's own migrations, in order; the first makes version 1.
[[nodiscard]] std::vector<Migration> own_migrations();

/// Version of the schema in the file; 0 has no tables yet.
Result<int> schema_version(Connection& connection);

/// Says that the file is a Rodway shop file: "RODW".
inline constexpr int shop_application_id = 0x524F4457;

/// Brings the file to the newest of `migrations`, each in a transaction of its own that also writes
/// the version. A file that already has a version is first copied whole to a new file beside it.
/// Returns the path of that copy, if one was made.
/// Errors: newer_version, and the connection's; the file then stands at the last version that was
/// reached whole.
Result<std::optional<std::string>> migrate(Connection& connection,
                                           const std::vector<Migration>& migrations);

} // namespace rodway
