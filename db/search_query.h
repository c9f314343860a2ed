#pragma once

// SQL stays in `db`: nothing outside it includes this header.

#include <QString>
#include <vector>

#include "core/base/result.h"
#include "db/connection.h"

namespace rodway {

/// The query by which the index `table` finds the rows in which every word begins a word. What was
/// typed stands in quotes, so that none of it is taken for the query's own signs. `words` is not
/// empty.
///
/// The index keeps rows by whole words and by beginnings of two and three letters; for any other
/// beginning it would read the rows of all words that begin so, perhaps of every reading, before it
/// gives the first. So the query names those words, as long as they are few.
/// Errors: those of reading the file.
Result<QString> match_expression(Connection& connection, const QString& table,
                                 const std::vector<QString>& words);

} // namespace rodway
