#pragma once

// SQL stays in `db`: nothing outside it includes this header.

#include <QString>
#include <vector>

#include "core/base/result.h"
#include "db/connection.h"

namespace rodway {

/// The words that were typed as queries of an index. What was typed stands in quotes, so that none
/// of it is taken for the query's own signs.
///
/// An index keeps the rows of whole words and of beginnings of two and three letters, each row in
/// its place. For any other beginning it would read the rows of all words that begin so, perhaps of
/// every reading, before it gave the first.

/// Finds the rows that `match_expression` does, and perhaps more, without looking at the index:
/// longer beginnings are cut, and one letter says nothing.
struct RoughQuery {
    QString expression; ///< empty if it would find every row
    bool exact = false; ///< it finds no more
};
[[nodiscard]] RoughQuery rough_query(const std::vector<QString>& words);

/// Finds the rows of the index `table` in which every word begins a word: names those that begin
/// so, as long as they are few. `words` is not empty.
///
/// SQLite comes from one word to the next by reading past the first one's rows, though not into
/// them: some milliseconds for a word that millions have.
/// Errors: those of reading the file.
Result<QString> match_expression(Connection& connection, const QString& table,
                                 const std::vector<QString>& words);

} // namespace rodway
