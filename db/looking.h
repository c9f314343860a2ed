#pragma once

// SQL stays in `db`: nothing outside it includes this header.

#include <QString>
#include <QTemporaryDir>
#include <chrono>
#include <functional>
#include <memory>

#include "core/base/result.h"
#include "db/connection.h"
#include "db/look_only.h"

namespace rodway {

/// A connection through which nothing can be written.
struct Looking {
    LookOnly look_only;
    std::unique_ptr<QTemporaryDir> folder; ///< of a copy, which goes when this does
    std::unique_ptr<Connection> connection;
};

/// Whether a shop file at `path` may be written: it, and what SQLite keeps beside it.
[[nodiscard]] bool may_be_written(const QString& path);

/// Opens a shop file to be read without leaving or changing anything beside it. `settle` brings a
/// copy, which it may write, to where it can be read; `old` tells whether it must.
///
/// SQLite keeps a write-ahead log's readers apart from its writers by a file beside the log. Where
/// both lie there, it is read with the writers at work. A file at rest is read as it stands if its
/// disk can't be written by anybody. Else somebody might begin to write under our eyes, or SQLite
/// would have to leave files behind that their owner couldn't write: then a copy is read.
/// Errors, `field` the path: cannot_read, cannot_write (of the copy, `field` its folder),
/// locked_file (it doesn't hold still to be copied), those of `old` and `settle`.
Result<Looking> open_looking(const QString& path, std::chrono::milliseconds patience,
                             const std::function<Result<bool>(Connection&)>& old,
                             const std::function<Result<Done>(Connection&)>& settle);

} // namespace rodway
