#pragma once

#include <map>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

#include "db/build_records.h"
#include "db/connection.h"
#include "db/search_fields.h"
#include "tests/db/shop_test.h"

namespace rodway {

/// The slow, obvious search: every record is read and its words compared one by one. It knows the
/// letters that these tests use, and nothing of the index.
class PlainSearch {
  public:
    explicit PlainSearch(ShopFile& shop) {
        std::vector<std::int64_t> builds{shop_wide};
        for (const Build& build : take(load_all_builds(shop))) builds.push_back(build.id);
        for (const std::int64_t build : builds) {
            for (const auto& [record, fields] : take(records_of_build(shop, build))) {
                add(record, fields);
            }
        }
    }

    /// The rank of each noun that has all words; greater is better.
    [[nodiscard]] std::map<RecordRef, double, ByKindAndId> nouns(const std::string& typed) const {
        return matching(nouns_, typed);
    }
    [[nodiscard]] std::vector<RecordRef> readings_newest_first(const std::string& typed) const {
        std::vector<RecordRef> found;
        for (const auto& [record, unused] : matching(readings_, typed)) {
            found.insert(found.begin(), record);
        }
        return found;
    }

  private:
    using Words = std::vector<std::string>;
    struct RowWords {
        Words title;
        Words body;
    };
    using Rows = std::map<RecordRef, RowWords, ByKindAndId>;

    static Result<std::vector<Build>> load_all_builds(ShopFile& shop) {
        std::vector<Build> builds;
        const auto read = shop.connection().each(
            "SELECT id FROM builds", {},
            [&builds](const Row& row) { builds.push_back(sample_build(row.integer(0))); });
        if (!read) return read.error();
        return builds;
    }

    static Words words_of(std::string text) {
        for (const auto& [accented, plain] :
             {std::pair("é", "e"), std::pair("É", "e"), std::pair("ü", "u")}) {
            for (auto at = text.find(accented); at != std::string::npos; at = text.find(accented)) {
                text.replace(at, 2, plain);
            }
        }
        Words words;
        bool inside = false;
        for (const char c : text) {
            const bool letter = std::isalnum(static_cast<unsigned char>(c)) != 0;
            if (letter && !inside) words.emplace_back();
            if (letter) words.back() += static_cast<char>(std::tolower(c));
            inside = letter;
        }
        return words;
    }

    void add(const RecordRef& record, const FieldTexts& fields) {
        const SearchedKind* searched = searched_kind(record.kind);
        if (searched == nullptr || fields.count("erased") != 0) return;
        const auto words = [&fields](std::string_view name) {
            const auto found = fields.find(std::string(name));
            return found == fields.end() ? Words() : words_of(found->second);
        };
        RowWords row{words(searched->title), {}};
        const bool reading = record.kind == RecordKind::reading;
        for (const std::string_view name : searched->body) {
            Words& into = reading ? row.title : row.body;
            for (const std::string& word : words(name)) into.push_back(word);
        }
        (reading ? readings_ : nouns_).emplace(record, row);
    }

    static int times(const Words& text, const Words& phrase) {
        int count = 0;
        for (std::size_t at = 0; at + phrase.size() <= text.size(); ++at) {
            bool same = true;
            for (std::size_t i = 0; i < phrase.size(); ++i) {
                const bool last = i + 1 == phrase.size();
                same = same &&
                       (last ? text[at + i].rfind(phrase[i], 0) == 0 : text[at + i] == phrase[i]);
            }
            if (same) ++count;
        }
        return count;
    }

    /// Okapi BM25 with k1 = 1.2, b = 0.75, as SQLite's manual of FTS5 states it in its section on
    /// bm25(); without the rarity of words, a mean length of 12, and a title counting four times.
    static std::map<RecordRef, double, ByKindAndId> matching(const Rows& rows,
                                                             const std::string& typed) {
        std::map<RecordRef, double, ByKindAndId> ranks;
        std::vector<Words> phrases;
        std::istringstream in(typed);
        for (std::string word; in >> word;) {
            if (Words phrase = words_of(word); !phrase.empty()) phrases.push_back(phrase);
        }
        if (phrases.empty()) return ranks;
        for (const auto& [record, row] : rows) {
            const auto d = static_cast<double>(row.title.size() + row.body.size());
            double rank = 0.0;
            bool has_all = true;
            for (const Words& phrase : phrases) {
                const double f = 4.0 * times(row.title, phrase) + times(row.body, phrase);
                has_all = has_all && f > 0.0;
                rank += f * 2.2 / (f + 1.2 * (0.25 + 0.75 * d / 12.0));
            }
            if (has_all) ranks[record] = rank;
        }
        return ranks;
    }

    Rows nouns_;
    Rows readings_;
};

} // namespace rodway
