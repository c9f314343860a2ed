#include "core/units/plain_text.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <utility>

namespace rodway {
namespace {

// Where one begins with another, the longer stands first.
constexpr std::array<std::pair<std::string_view, std::string_view>, 51> written_alike{{
    {"''", "\""},
    {"\u2019\u2019", "\""},
    {"\u2032\u2032", "\""},
    {"\u00b1", "+-"},
    {"\u2212", "-"},
    {"\u2010", "-"},
    {"\u2011", "-"},
    {"\u2012", "-"},
    {"\u2013", "-"},
    {"\u2014", "-"},
    {"\u00b7", "-"},
    {"\u22c5", "-"},
    {"\u2033", "\""},
    {"\u201c", "\""},
    {"\u201d", "\""},
    {"\u2032", "'"},
    {"\u2018", "'"},
    {"\u2019", "'"},
    {"\u00b5", "u"},
    {"\u03bc", "u"},
    {"\u00a0", " "},
    {"\u2007", " "},
    {"\u2009", " "},
    {"\u202f", " "},
    {"\u200b", ""},
    {"\ufeff", ""},
    {"\u00bd", " 1/2"},
    {"\u00bc", " 1/4"},
    {"\u00be", " 3/4"},
    {"\u215b", " 1/8"},
    {"\u215c", " 3/8"},
    {"\u215d", " 5/8"},
    {"\u215e", " 7/8"},
    {"\u2153", " 1/3"},
    {"\u2154", " 2/3"},
    {"\u2044", "/"},
    {"\u00b0", " deg"},
    {"\u2103", " deg c"},
    {"\u2109", " deg f"},
    {"\u00b3", "3"},
    {"\u00d7", "x"},
    {"\u2248", "~"},
    {"\u223c", "~"},
    {"\u2264", "<"},
    {"\u2265", ">"},
    {"<=", "<"},
    {">=", ">"},
    {"\t", " "},
    {"\r", " "},
    {"\n", " "},
    {"\u3003", "\""},
}};

/// Whether a sign of the table may begin here: most of what is typed is plain already.
bool may_be_sign(char c) {
    return static_cast<unsigned char>(c) >= 0x80 ||
           std::string_view("'<>\t\r\n").find(c) != std::string_view::npos;
}

} // namespace

std::string plain_text(std::string_view text) {
    std::string plain;
    plain.reserve(text.size());
    while (!text.empty()) {
        const auto stands_here = [&](const auto& sign) { return text.starts_with(sign.first); };
        const auto alike =
            may_be_sign(text.front())
                ? std::find_if(written_alike.begin(), written_alike.end(), stands_here)
                : written_alike.end();
        if (alike == written_alike.end()) {
            plain += static_cast<char>(std::tolower(static_cast<unsigned char>(text.front())));
            text.remove_prefix(1);
        } else {
            plain += alike->second;
            text.remove_prefix(alike->first.size());
        }
    }
    const auto first = plain.find_first_not_of(' ');
    if (first == std::string::npos) {
        return {};
    }
    return plain.substr(first, plain.find_last_not_of(' ') - first + 1);
}

} // namespace rodway
