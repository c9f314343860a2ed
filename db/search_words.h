#pragma once

#include <QString>
#include <cstddef>
#include <string>
#include <vector>

namespace rodway {

/// The words that were typed, split at white space and control characters. One without a letter or
/// digit says nothing and is left out.
[[nodiscard]] std::vector<QString> typed_words(const std::string& typed);

/// A stretch of a text, in bytes of its UTF-8.
struct TextMark {
    std::size_t begin = 0;
    std::size_t length = 0;

    bool operator==(const TextMark&) const = default;
};

/// Part of a text around what was found in it.
struct TextPassage {
    std::string text;
    bool cut_before = false; ///< the text goes on before this
    bool cut_after = false;
    std::vector<TextMark> marks; ///< in their order, within `text`
    int words_found = 0;         ///< how many of the words that were typed stand in the whole text
};

/// Cut to about 160 characters, at spaces. Letters are compared as the index does it: without their
/// accents, and small and capital alike.
[[nodiscard]] TextPassage passage_around(const std::string& text,
                                         const std::vector<QString>& words);

/// How much a text says of each of `words`.
struct WordCount {
    int words = 0;          ///< in the whole text
    std::vector<int> times; ///< each of `words` stands in it
};
[[nodiscard]] WordCount count_words(const std::string& text, const std::vector<QString>& words);

} // namespace rodway
