#include "core/fasteners/thread_reader.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>
#include <cmath>
#include <utility>

#include "core/units/length.h"
#include "core/units/plain_text.h"
#include "core/units/typed_text.h"

namespace rodway {
namespace {

bool is_digit(char c) {
    return std::isdigit(static_cast<unsigned char>(c)) != 0;
}
bool is_letter(char c) {
    return std::isalpha(static_cast<unsigned char>(c)) != 0;
}

/// A multiplication sign is an x; behind it a comma is a decimal mark.
std::string reading_text(std::string_view text) {
    std::string plain = plain_text(text);
    for (std::size_t at = plain.find("\u00d7"); at != std::string::npos;
         at = plain.find("\u00d7")) {
        plain.replace(at, 2, "x");
    }
    return plain;
}

/// Written to a few decimals (".4375", ".437"), it is the size within half a thousandth.
constexpr double same_size_mm = 0.0128;

} // namespace

ThreadReader::ThreadReader(std::string_view text) : original_(text), text_(reading_text(text)) {}

void ThreadReader::skip_space() {
    while (at_ < text_.size() && text_[at_] == ' ') {
        ++at_;
    }
}

bool ThreadReader::at_end() {
    skip_space();
    return at_ >= text_.size();
}

bool ThreadReader::take(std::string_view token) {
    if (text_.compare(at_, token.size(), token) != 0) {
        return false;
    }
    at_ += token.size();
    return true;
}

bool ThreadReader::take_word(std::string_view word) {
    const std::size_t start = at_;
    skip_space();
    if (take(word) && (at_ >= text_.size() || !is_letter(text_[at_]))) {
        return true;
    }
    at_ = start;
    return false;
}

std::string ThreadReader::digits_here() const {
    std::size_t end = at_;
    while (end < text_.size() && is_digit(text_[end])) {
        ++end;
    }
    return text_.substr(at_, end - at_);
}

/// 12, 1.25, 1,25, .4375.
std::optional<double> ThreadReader::take_decimal() {
    const std::size_t start = at_;
    std::string number = digits_here();
    at_ += number.size();
    if (at_ + 1 < text_.size() && (text_[at_] == '.' || text_[at_] == ',') &&
        is_digit(text_[at_ + 1])) {
        ++at_;
        const std::string behind = digits_here();
        at_ += behind.size();
        number += '.';
        number += behind;
    }
    double value = 0.0;
    if (number.empty() || number.size() > 12 ||
        std::from_chars(number.data(), number.data() + number.size(), value).ec != std::errc()) {
        at_ = start;
        return std::nullopt;
    }
    return value;
}

bool ThreadReader::take_size() {
    skip_space();
    return take_metric_size() || take_numbered_size() || take_inch_size();
}

bool ThreadReader::take_metric_size() {
    const std::size_t start = at_;
    if (!take("m")) {
        return false;
    }
    skip_space();
    const auto diameter = take_decimal();
    if (!diameter) {
        at_ = start;
        return false;
    }
    system_ = ThreadSystem::metric;
    diameter_mm_ = *diameter;
    size_ = "M" + exact_text(*diameter);
    return true;
}

/// "#10", "no. 10", and "10" where a hyphen and a number follow: no inch size is a whole number
/// above 1.
bool ThreadReader::take_numbered_size() {
    const std::size_t start = at_;
    const bool marked = take("#") || take("no.") || take("no ");
    skip_space();
    const std::string number = digits_here();
    at_ += number.size();
    const bool whole = !number.empty() && number.size() <= 2 &&
                       (at_ >= text_.size() || (text_[at_] != '.' && text_[at_] != '/'));
    const bool bare = at_ < text_.size() && text_[at_] == '-' && number != "1";
    if (!whole || !(marked || bare)) {
        at_ = start;
        return false;
    }
    size_ = "#" + number;
    // ASME B1.1: .060 in and .013 for each number.
    diameter_mm_ = Length::inches(0.060 + 0.013 * std::stoi(number)).in_mm();
    return true;
}

bool ThreadReader::take_inch_size() {
    const std::size_t start = at_;
    auto size_in = take_decimal();
    if (!size_in) {
        return false;
    }
    // 7/16, and 1-1/8 or 1 1/8: a fraction behind a whole number has a slash.
    const auto fraction_of = [this](double above) -> std::optional<double> {
        if (!take("/")) {
            return std::nullopt;
        }
        const auto below = take_decimal();
        return below && *below > 0.0 ? std::optional(above / *below) : std::nullopt;
    };
    if (const auto fraction = fraction_of(*size_in)) {
        size_in = fraction;
    } else if (const std::size_t whole_end = at_; take("-") || take(" ")) {
        const auto above = take_decimal();
        const auto behind = above ? fraction_of(*above) : std::nullopt;
        if (behind) {
            size_in = *size_in + *behind;
        } else {
            at_ = whole_end;
        }
    }
    take("\"");
    if (*size_in <= 0.0 || *size_in > 100.0) {
        at_ = start;
        return false;
    }
    diameter_mm_ = Length::inches(*size_in).in_mm();
    for (const Thread& thread : threads()) {
        if (thread.system == ThreadSystem::inch && thread.size.front() != '#' &&
            std::abs(thread.diameter_mm - diameter_mm_) < same_size_mm) {
            size_ = thread.size;
        }
    }
    return true;
}

/// Behind an x a number is a pitch only if it is small against the diameter, else a length: no
/// standard pitch is above a quarter of its diameter, no bolt shorter than a half.
std::optional<double> ThreadReader::take_metric_pitch() {
    const std::size_t start = at_;
    skip_space();
    if (!take("x") && !take("-")) {
        at_ = start;
        return std::nullopt;
    }
    skip_space();
    const auto number = take_decimal();
    if (!number || *number >= 0.5 * diameter_mm_) {
        at_ = start;
        return std::nullopt;
    }
    take_word("mm");
    return number;
}

std::optional<double> ThreadReader::take_threads_per_inch() {
    const std::size_t start = at_;
    skip_space();
    if (!take("-")) {
        at_ = start;
        return std::nullopt;
    }
    skip_space();
    const auto count = take_decimal();
    if (!count || *count <= 0.0) {
        at_ = start;
        return std::nullopt;
    }
    take_word("tpi");
    return count;
}

std::optional<ThreadSeries> ThreadReader::take_series() {
    static constexpr std::array<std::pair<std::string_view, ThreadSeries>, 6> words{{
        {"unc", ThreadSeries::coarse},
        {"unf", ThreadSeries::fine},
        {"coarse", ThreadSeries::coarse},
        {"fine", ThreadSeries::fine},
        {"nc", ThreadSeries::coarse},
        {"nf", ThreadSeries::fine},
    }};
    for (const auto& [word, series] : words) {
        if (take_word(word)) {
            return series;
        }
    }
    return std::nullopt;
}

bool ThreadReader::take_pitch() {
    const bool metric = system_ == ThreadSystem::metric;
    const auto written = metric ? take_metric_pitch() : take_threads_per_inch();
    auto series = take_series();
    if (metric && !written && !series) {
        series = ThreadSeries::coarse;
    }
    std::vector<Thread> alike;
    for (const Thread& thread : threads_of(size_)) {
        const double number = metric ? thread.pitch_mm : Length::mm_per_inch / thread.pitch_mm;
        if ((!written || std::abs(number - *written) < 1e-6) &&
            (!series || thread.series == *series)) {
            alike.push_back(thread);
        }
    }
    if (alike.size() == 1) {
        thread_ = alike.front();
    }
    // An inch size alone leaves the pitch open, a metric size with several fine ones too.
    return thread_.has_value() || (!written && !series && !alike.empty());
}

std::optional<std::string> ThreadReader::take_length() {
    skip_space();
    if (!take("x")) {
        return std::nullopt;
    }
    std::string rest = text_.substr(at_);
    at_ = text_.size();
    return rest;
}

Error ThreadReader::no_thread() const {
    return {ErrorCode::wrong_type, "thread", original_, "thread", {}, {}};
}

Error ThreadReader::refusal() const {
    std::string accepted;
    for (const Thread& thread : threads_of(size_)) {
        accepted += (accepted.empty() ? "" : " ") + thread.name;
    }
    if (accepted.empty()) {
        std::string last;
        for (const Thread& thread : threads()) {
            if (thread.system == system_ && thread.size != last) {
                accepted += (accepted.empty() ? "" : " ") + thread.size;
                last = thread.size;
            }
        }
    }
    return {ErrorCode::not_a_choice, "thread", original_, accepted, {}, {}};
}

} // namespace rodway
