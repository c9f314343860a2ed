#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/build/edit.h"
#include "db/search_words.h"
#include "db/shop_file.h"

namespace rodway {

/// A record in which every word that was typed stands.
struct Found {
    RecordRef record;
    std::int64_t build_id = 0; ///< the build it belongs to; `shop_wide` if to none
    std::string title;         ///< what the record is called by, e.g. a part's item, a reading's
                               ///< quantity; empty for a note
    std::string field;         ///< the field that most of the words stand in
    TextPassage passage;       ///< of that field's text
};

struct SearchAnswer {
    std::vector<Found> found;
    /// So many nouns have the words that only the newest of each kind were compared.
    bool newest_only = false;
};

/// Finds records by the beginnings of words: nouns first, those that say it best before the others,
/// a word in a title counting more than one in a text; then readings, newest first. Up to `limit`
/// of each. Whatever is typed is words and never a query; without a letter or digit, nothing is
/// found.
///
/// Up to `most_compared` nouns all are compared, by Okapi BM25 without the rarity of words: all of
/// them must stand there, and counting their records would take the longer the larger the shop is.
/// Errors: those of reading the file.
Result<SearchAnswer> search(ShopFile& shop, const std::string& typed, int limit);
inline constexpr int most_compared = 1000;

/// Makes the index of words again from the records, for when `ShopFile::check` finds that it
/// differs.
/// Errors: those of writing the file; the index then stands as before.
Result<Done> rebuild_search(ShopFile& shop);

} // namespace rodway
