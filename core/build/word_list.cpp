#include "core/build/word_list.h"

#include <algorithm>

namespace rodway {

std::string without_blanks(std::string_view text) {
    static constexpr std::string_view blanks = " \t\r\n";
    const std::size_t first = std::min(text.find_first_not_of(blanks), text.size());
    const std::size_t last = text.find_last_not_of(blanks);
    return std::string(first == text.size() ? "" : text.substr(first, last - first + 1));
}

std::vector<std::string> split_list(std::string_view text, char separator) {
    std::vector<std::string> pieces;
    for (std::size_t start = 0; start <= text.size();) {
        const std::size_t end = std::min(text.find(separator, start), text.size());
        pieces.push_back(without_blanks(text.substr(start, end - start)));
        start = end + 1;
    }
    return pieces;
}

std::string joined(const std::vector<std::string>& words, std::string_view between) {
    std::string text;
    for (const std::string& word : words) {
        text += text.empty() ? "" : between;
        text += word;
    }
    return text;
}

} // namespace rodway
