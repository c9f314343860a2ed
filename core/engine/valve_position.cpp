#include "core/engine/valve_position.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>
#include <utility>

namespace rodway {

std::string position_name(const ValvePosition& position) {
    std::string name = std::to_string(position.cylinder);
    name += position.kind == ValveKind::intake ? 'I' : 'E';
    if (position.which > 1) {
        name += std::to_string(position.which);
    }
    return name;
}

Result<ValvePosition> parse_position(std::string_view text) {
    const Error refused{ErrorCode::not_a_position, {}, std::string(text), "3I", {}, {}};
    std::string plain;
    for (const char c : text) {
        if (c != ' ' && c != '#') {
            plain += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
        }
    }
    ValvePosition position;
    const char* const end = plain.data() + plain.size();
    const auto number = std::from_chars(plain.data(), end, position.cylinder);
    if (number.ec != std::errc() || position.cylinder < 1 || position.cylinder > 99) {
        return refused;
    }
    std::string_view rest(number.ptr, static_cast<std::size_t>(end - number.ptr));
    static constexpr std::array<std::pair<std::string_view, ValveKind>, 8> words{{
        {"intake", ValveKind::intake},
        {"inlet", ValveKind::intake},
        {"in", ValveKind::intake},
        {"exhaust", ValveKind::exhaust},
        {"exh", ValveKind::exhaust},
        {"ex", ValveKind::exhaust},
        {"i", ValveKind::intake},
        {"e", ValveKind::exhaust},
    }};
    const auto word = std::find_if(words.begin(), words.end(), [&](const auto& candidate) {
        return rest.substr(0, candidate.first.size()) == candidate.first;
    });
    if (word == words.end()) {
        return refused;
    }
    position.kind = word->second;
    rest.remove_prefix(word->first.size());
    if (!rest.empty()) {
        const auto which = std::from_chars(rest.data(), rest.data() + rest.size(), position.which);
        if (which.ec != std::errc() || which.ptr != rest.data() + rest.size() ||
            position.which < 1 || position.which > 9) {
            return refused;
        }
    }
    return position;
}

} // namespace rodway
