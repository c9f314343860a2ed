#pragma once

#include <QString>
#include <vector>

#include "core/build/edit.h"
#include "db/record_fields.h"

namespace rodway {

/// How well a record answers the words that were typed.
struct WordsInRecord {
    bool all = false;  ///< every word begins some word of it
    double rank = 0.0; ///< greater is better
};

/// By Okapi BM25 with its usual k1 and b, every word counting alike, and a constant for the mean
/// length; a word in the title counts four times. The record's kind is one that is searched.
[[nodiscard]] WordsInRecord words_in(const RecordRef& record, const FieldTexts& fields,
                                     const std::vector<QString>& words);

} // namespace rodway
