#pragma once

#include <chrono>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "core/base/result.h"
#include "db/check_report.h"
#include "db/look_only.h"

namespace rodway {

class Connection;

/// One shop's builds, readings and set-ups in one SQLite file. An object holds one connection and
/// belongs to the thread that made it; other threads, windows and programs open the file again. It
/// needs a QCoreApplication. Records change only through `db/edits`.
class ShopFile {
  public:
    /// How long to wait for another writer before the answer is `locked_file`.
    static constexpr std::chrono::milliseconds default_patience{5000};

    /// Makes a new shop file and opens it. `path` is UTF-8. It appears whole or not at all.
    /// Errors: cannot_write (`field` the path, `value` "exists" if something stands there, or
    /// "no_folder", "no_permission"), and those of `open`.
    static Result<ShopFile> create(const std::string& path);

    /// Opens a shop file and brings an older one to this version, after a backup copy beside it.
    /// Nothing is created or changed when it fails, but for the backup and whole migrations.
    /// Errors, `field` the path: cannot_read (no such file, or not readable), cannot_write (the
    /// file or its folder is read-only), foreign_file, newer_version (`value` the file's version,
    /// `expected` ours), damaged_file, locked_file.
    static Result<ShopFile> open(const std::string& path,
                                 std::chrono::milliseconds patience = default_patience);

    /// Opens a shop file as `open` does or, if this user may not write it or what belongs beside
    /// it, to be looked at only: every edit is then refused with cannot_write, `value` "read_only",
    /// and nothing is written anywhere near it. If it must be copied for that, to the folder for
    /// temporary files, a large one takes a while.
    static Result<ShopFile> open_to_look(const std::string& path,
                                         std::chrono::milliseconds patience = default_patience);

    ShopFile(ShopFile&& other) noexcept;
    ShopFile& operator=(ShopFile&& other) noexcept;
    ~ShopFile();

    /// Absolute, links followed.
    [[nodiscard]] const std::string& path() const;

    /// Why nothing can be changed in it; nothing if it can.
    [[nodiscard]] const std::optional<LookOnly>& look_only() const;

    /// The copy that `open` made before it migrated, if it did.
    [[nodiscard]] const std::optional<std::string>& backup() const;

    /// Whether the file holds together: pages, references, photos' files, the history replayed
    /// from its first edit against the records, the index of words, and whether gap readings can be
    /// read. Reads all of it; a check takes seconds for thousands of photos. Errors: those of
    /// reading the file; what is wrong inside is a finding.
    Result<CheckReport> check();

    /// Whether the file that is open still stands under its name. SQLite would go on writing to one
    /// that was moved away or deleted, and nobody would find it again.
    /// Errors: cannot_read, `field` the path, `value` "gone" or, with another file in its place,
    /// "replaced".
    Result<Done> still_there() const;

    /// How long to wait for another writer from now on.
    Result<Done> set_patience(std::chrono::milliseconds patience);

    /// For `db` alone.
    [[nodiscard]] Connection& connection();

  private:
    struct State;
    explicit ShopFile(std::unique_ptr<State> state);
    std::unique_ptr<State> state_;
};

/// Whether a write-ahead log is unsafe on this kind of file system, as the system names it
/// ("nfs4", "cifs"), because its readers would have to share memory between computers.
[[nodiscard]] bool is_network_file_system(std::string_view type);

} // namespace rodway
