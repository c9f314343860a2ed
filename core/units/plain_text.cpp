#include "core/units/plain_text.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <utility>

namespace rodway {
namespace {

constexpr std::array<std::pair<std::string_view, std::string_view>, 23> written_alike{{
    {"\u00b1", "+-"},   {"\u2212", "-"},    {"\u2013", "-"},    {"\u2033", "\""},
    {"\u201c", "\""},   {"\u201d", "\""},   {"\u00b5", "u"},    {"\u03bc", "u"},
    {"\u00a0", " "},    {"\u2009", " "},    {"\u00bd", " 1/2"}, {"\u00bc", " 1/4"},
    {"\u00be", " 3/4"}, {"\u215b", " 1/8"}, {"\u215c", " 3/8"}, {"\u215d", " 5/8"},
    {"\u215e", " 7/8"}, {"''", "\""},       {"\u2032", "'"},    {"\u202f", " "},
    {"\u00b0", " deg"}, {"\u00b3", "3"},    {"\u00b7", "-"},
}};

} // namespace

std::string plain_text(std::string_view text) {
    std::string plain(text);
    for (const auto& [fancy, simple] : written_alike) {
        for (std::size_t at = plain.find(fancy); at != std::string::npos;
             at = plain.find(fancy, at)) {
            plain.replace(at, fancy.size(), simple);
            at += simple.size();
        }
    }
    std::transform(plain.begin(), plain.end(), plain.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    const auto first = plain.find_first_not_of(" \t\r\n");
    if (first == std::string::npos) {
        return {};
    }
    return plain.substr(first, plain.find_last_not_of(" \t\r\n") - first + 1);
}

} // namespace rodway
