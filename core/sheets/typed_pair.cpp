#include "core/sheets/typed_pair.h"

#include <algorithm>

#include "core/units/plain_text.h"

namespace rodway {
namespace {

constexpr std::string_view digits = "0123456789";

/// How far a number without sign reaches: "26", ".026", "0,65". Nothing if none begins here.
std::optional<std::size_t> number_end(std::string_view text, std::size_t from) {
    std::size_t end = std::min(text.find_first_not_of(digits, from), text.size());
    if (end + 1 < text.size() && (text[end] == '.' || text[end] == ',') &&
        digits.find(text[end + 1]) != std::string_view::npos) {
        end = std::min(text.find_first_not_of(digits, end + 1), text.size());
    }
    return end > from ? std::optional(end) : std::nullopt;
}

std::size_t past_blanks(std::string_view text, std::size_t at) {
    return std::min(text.find_first_not_of(' ', at), text.size());
}

/// What stands between two numbers, or nothing.
std::string_view separator_at(std::string_view text, std::size_t at) {
    for (const std::string_view separator : {"/", "and", "&"}) {
        if (text.substr(at).starts_with(separator)) {
            return separator;
        }
    }
    return {};
}

struct Parted {
    TypedPair pair;
    bool spoken = false;
};

std::optional<Parted> parted(std::string_view text) {
    const std::string plain = plain_text(text);
    const auto first_end = number_end(plain, 0);
    if (!first_end) {
        return std::nullopt;
    }
    const std::size_t between = past_blanks(plain, *first_end);
    const std::string_view separator = separator_at(plain, between);
    const std::size_t second = past_blanks(plain, between + separator.size());
    const auto second_end = separator.empty() ? std::nullopt : number_end(plain, second);
    if (!second_end || plain.find_first_of(digits, *second_end) != std::string::npos) {
        return std::nullopt;
    }
    const std::string for_both = plain.substr(*second_end);
    return Parted{{plain.substr(0, *first_end) + for_both,
                   plain.substr(second, *second_end - second) + for_both},
                  separator != "/"};
}

} // namespace

std::optional<TypedPair> split_pair(std::string_view text) {
    const auto both = parted(text);
    return both ? std::optional(both->pair) : std::nullopt;
}

bool is_spoken_pair(std::string_view text) {
    const auto both = parted(text);
    return both && both->spoken;
}

} // namespace rodway
