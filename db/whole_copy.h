#pragma once

// SQL stays in `db`: nothing outside it includes this header.

#include <memory>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "db/backup_names.h"
#include "db/connection.h"

namespace rodway {

/// What a shop file says of itself. Reading it changes nothing.
struct ShopGlance {
    HistoryMark history;
    /// Digest of its first act, alike in a shop and all its backups; empty before the first.
    std::string origin;
};

/// Errors: foreign_file, newer_version, damaged_file, locked_file and the connection's.
Result<ShopGlance> glance_at(Connection& connection);

/// Digests of the photos that the file tells of and the folder of photos doesn't have.
Result<std::vector<std::string>> missing_photos(Connection& connection,
                                                const std::string& photos_folder);

/// Whether all pages are sound; `thorough` also reads indexes and references. The connection has no
/// transaction open. Errors: damaged_file (`value` what is wrong) and the connection's.
Result<Done> refuse_unsound(Connection& connection, bool thorough);

/// A whole copy of a shop file as of one act, checked and on the disk, under a temporary name that
/// goes away unless it is given a lasting one.
class WholeCopy {
  public:
    /// Copies what the connection's file holds, its log included, into the folder, while others may
    /// go on writing. Errors: cannot_write (`field` the folder, `value` no_folder, no_permission,
    /// disk_full or what SQLite says), damaged_file, locked_file, foreign_file, newer_version.
    static Result<WholeCopy> make(Connection& source, const std::string& folder);

    WholeCopy(WholeCopy&& other) noexcept;
    WholeCopy& operator=(WholeCopy&&) = delete;
    WholeCopy(const WholeCopy&) = delete;
    WholeCopy& operator=(const WholeCopy&) = delete;
    ~WholeCopy();

    [[nodiscard]] const ShopGlance& content() const;

    /// Gives it a free name in its folder and returns the path. Nothing is ever replaced.
    Result<std::string> keep_as(const BackupName& name);

    /// Takes the place of what stands under `path` in the same folder, in one step.
    Result<Done> replace(const std::string& path);

  private:
    struct State;
    explicit WholeCopy(std::unique_ptr<State> state);
    std::unique_ptr<State> state_;
};

} // namespace rodway
