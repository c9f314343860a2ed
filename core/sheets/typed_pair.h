#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace rodway {

/// Two numbers said in one breath, each as it would be typed in a box of its own.
struct TypedPair {
    std::string first;
    std::string second;
};

/// Parts what is said of two places together: lash "26/28 hot" (intake, exhaust) is "26 hot" and
/// "28 hot"; rings "18 and 20 thou" (top, second) are "18 thou" and "20 thou". What stands behind
/// the second holds for both. Nothing if the text isn't two numbers without a sign; whether "1/8"
/// is two or a fraction is for the caller to know.
[[nodiscard]] std::optional<TypedPair> split_pair(std::string_view text);

/// Whether a word stands between the two ("18 and 20"), so that it can't be a fraction.
[[nodiscard]] bool is_spoken_pair(std::string_view text);

} // namespace rodway
