#include "core/engine/firing_order.h"

#include <algorithm>
#include <cctype>
#include <string>

#include "core/units/plain_text.h"

namespace rodway {
namespace {

/// What stands before a hand.
std::string_view without_hand(std::string_view plain) {
    for (const std::string_view hand : {"lh", "rh", "left hand", "right hand"}) {
        if (plain.ends_with(hand)) {
            return plain.substr(0, plain.size() - hand.size());
        }
    }
    return plain;
}

/// Separated numbers, or single digits run together.
std::vector<int> numbers_in(std::string_view text) {
    std::vector<std::string> words;
    bool in_word = false;
    for (const char c : text) {
        if (std::isdigit(static_cast<unsigned char>(c))) {
            if (!in_word) {
                words.emplace_back();
            }
            words.back() += c;
            in_word = true;
        } else if (c == '-' || c == ' ' || c == ',') {
            in_word = false;
        } else {
            return {};
        }
    }
    std::vector<int> numbers;
    const bool run_together = words.size() == 1;
    for (const std::string& word : words) {
        if (run_together) {
            for (const char digit : word) {
                numbers.push_back(digit - '0');
            }
        } else if (word.size() <= 2) {
            numbers.push_back(std::stoi(word));
        } else {
            return {};
        }
    }
    return numbers;
}

} // namespace

Result<FiringOrder> FiringOrder::parse(std::string_view text, int cylinders) {
    Error error{
        ErrorCode::not_a_firing_order, "engine/firing_order", std::string(text), {}, {}, {}};
    const std::vector<int> numbers = numbers_in(without_hand(plain_text(text)));
    if (numbers.empty()) {
        return error;
    }
    for (std::size_t at = 0; at < numbers.size(); ++at) {
        error.expected = std::to_string(numbers[at]);
        if (numbers[at] < 1 || numbers[at] > cylinders) {
            error.code = ErrorCode::cylinder_unknown;
            return error;
        }
        if (std::find(numbers.begin(), numbers.begin() + static_cast<long>(at), numbers[at]) !=
            numbers.begin() + static_cast<long>(at)) {
            error.code = ErrorCode::cylinder_twice;
            return error;
        }
    }
    for (int cylinder = 1; cylinder <= cylinders; ++cylinder) {
        if (std::find(numbers.begin(), numbers.end(), cylinder) == numbers.end()) {
            error.code = ErrorCode::cylinder_missing;
            error.expected = std::to_string(cylinder);
            return error;
        }
    }
    return FiringOrder(numbers);
}

CrankAngle FiringOrder::firing_angle(int cylinder) const {
    const auto place = [this](int number) {
        const auto found = std::find(cylinders_.begin(), cylinders_.end(), number);
        RODWAY_ASSERT(found != cylinders_.end());
        return static_cast<int>(found - cylinders_.begin());
    };
    const double interval = 720.0 / static_cast<double>(cylinders_.size());
    return CrankAngle::deg(interval * (place(cylinder) - place(1))).in_cycle();
}

} // namespace rodway
