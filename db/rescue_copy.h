#pragma once

// SQL stays in `db`: nothing outside it includes this header.

#include <QStringList>
#include <memory>
#include <string>

#include "core/base/result.h"
#include "db/connection.h"

namespace rodway {

/// A copy of a damaged shop file that can be read table by table, whatever became of its header,
/// its schema and its indexes. The damaged file, its log and its journal are only read.
class RescueCopy {
  public:
    /// `folder`: where the copy may stand while it lives; it needs as much room as the file.
    /// Errors: cannot_read (the damaged file), cannot_write (the folder), newer_version, and
    /// foreign_file (a sound database of another program).
    static Result<RescueCopy> make(const std::string& damaged, const std::string& folder);

    RescueCopy(RescueCopy&& other) noexcept;
    RescueCopy& operator=(RescueCopy&&) = delete;
    RescueCopy(const RescueCopy&) = delete;
    RescueCopy& operator=(const RescueCopy&) = delete;
    ~RescueCopy();

    /// Its tables are plain ones, without rules or indexes.
    [[nodiscard]] Connection& connection();
    /// Of the schema that the file was made with.
    [[nodiscard]] int version() const;
    /// The columns of a table in that version; none if it has no such table.
    [[nodiscard]] QStringList columns_of(const QString& table) const;

  private:
    struct State;
    explicit RescueCopy(std::unique_ptr<State> state);
    std::unique_ptr<State> state_;
};

/// The name under which the copy has SQLite's own table of the newest numbers.
inline const QString rescued_sequence = QStringLiteral("rescued_sequence");

} // namespace rodway
