#include "core/sheets/rod_gap_position.h"

#include <charconv>
#include <cmath>
#include <vector>

#include "core/units/crank_arc.h"
#include "core/units/typed_text.h"

namespace rodway {
namespace {

constexpr int minutes_round = 720;
constexpr std::string_view tightest_word = "tightest";
constexpr std::string_view heel_word = "heel";
constexpr std::string_view full_lift_word = "full_lift";
constexpr std::string_view crank_ending = "_crank_deg";

std::string_view end_word(BoreEnd end) {
    return end == BoreEnd::top ? "rocker" : "lifter";
}

std::string clock_text(const std::optional<int>& minutes) {
    if (!minutes) {
        return std::string(tightest_word);
    }
    const int hours = *minutes < 60 ? 12 : *minutes / 60;
    const int past = *minutes % 60;
    return past == 0 ? std::to_string(hours)
                     : std::to_string(hours) + (past < 10 ? ":0" : ":") + std::to_string(past);
}

std::string turn_text(const RodGapPosition& position) {
    switch (position.place) {
        case TurnPlace::on_heel:
            return std::string(heel_word);
        case TurnPlace::at_full_lift:
            return std::string(full_lift_word);
        case TurnPlace::at_crank_angle:
            break;
    }
    constexpr long cycle = 720000;
    const long thousandths = std::lround(position.crank.in_cycle().in_deg() * 1000.0) % cycle;
    return exact_text(static_cast<double>(thousandths) / 1000.0) + std::string(crank_ending);
}

/// Only digits, so that nothing but the number itself can stand there.
std::optional<int> whole_number(std::string_view text) {
    int number = 0;
    const auto read = std::from_chars(text.data(), text.data() + text.size(), number);
    const bool all = read.ec == std::errc() && read.ptr == text.data() + text.size();
    return all && number >= 0 && text.front() != '-' ? std::optional(number) : std::nullopt;
}

std::vector<std::string_view> split(std::string_view text, char sign) {
    std::vector<std::string_view> parts;
    for (std::size_t start = 0;;) {
        const std::size_t end = text.find(sign, start);
        parts.push_back(text.substr(start, end - start));
        if (end == std::string_view::npos) {
            return parts;
        }
        start = end + 1;
    }
}

bool read_turn(std::string_view text, RodGapPosition& position) {
    if (text == heel_word || text == full_lift_word) {
        position.place = text == heel_word ? TurnPlace::on_heel : TurnPlace::at_full_lift;
        return true;
    }
    if (!text.ends_with(crank_ending)) {
        return false;
    }
    const auto deg = parse_number(text.substr(0, text.size() - crank_ending.size()));
    if (!deg) {
        return false;
    }
    position.place = TurnPlace::at_crank_angle;
    position.crank = CrankAngle::deg(*deg);
    return true;
}

Error bad_position(ErrorCode code, std::string value) {
    return Error{code, "position", std::move(value), {}, {}, {}};
}

} // namespace

Result<std::optional<int>> parse_clock(std::string_view text) {
    const Error refused{ErrorCode::wrong_type, "clock", std::string(text), "clock", {}, {}};
    if (text == tightest_word) {
        return std::optional<int>();
    }
    const std::vector<std::string_view> parts = split(text, ':');
    if (parts.size() > 2 || (parts.size() == 2 && parts[1].size() != 2)) {
        return refused;
    }
    const auto hours = whole_number(parts[0]);
    const auto past = parts.size() == 2 ? whole_number(parts[1]) : std::optional(0);
    if (!hours || !past || *hours < 1 || *hours > 12 || *past > 59) {
        return refused;
    }
    const int minutes = (*hours * 60 + *past) % minutes_round;
    return std::optional(minutes == 0 ? minutes_round : minutes);
}

Result<std::string> rod_gap_position_text(const RodGapPosition& position) {
    const std::string valve = position_name(position.valve);
    const auto read_back = parse_position(valve);
    if (!read_back || *read_back != position.valve) {
        return bad_position(ErrorCode::not_a_position, valve);
    }
    if (position.passage.empty() || position.passage.find('/') != std::string::npos) {
        Error error = bad_position(ErrorCode::wrong_type, position.passage);
        error.expected = "gap_position";
        return error;
    }
    if (position.clock_minutes &&
        (*position.clock_minutes < 1 || *position.clock_minutes > minutes_round)) {
        Error error =
            bad_position(ErrorCode::out_of_range, std::to_string(*position.clock_minutes));
        error.limits = Limits{1.0, minutes_round, "min"};
        return error;
    }
    if (position.place == TurnPlace::at_crank_angle) {
        if (auto checked = check_crank_angle(position.crank, "position"); !checked) {
            return checked.error();
        }
    }
    return valve + '/' + position.passage + '/' + std::string(end_word(position.end)) + '/' +
           clock_text(position.clock_minutes) + '/' + turn_text(position);
}

Result<RodGapPosition> parse_rod_gap_position(std::string_view text) {
    Error refused = bad_position(ErrorCode::wrong_type, std::string(text));
    refused.expected = "gap_position";
    const std::vector<std::string_view> parts = split(text, '/');
    if (parts.size() != 5) {
        return refused;
    }
    const auto valve = parse_position(parts[0]);
    const auto clock = parse_clock(parts[3]);
    RodGapPosition position;
    if (!valve || !clock || !read_turn(parts[4], position)) {
        return refused;
    }
    position.valve = *valve;
    position.passage = parts[1];
    position.end = parts[2] == end_word(BoreEnd::top) ? BoreEnd::top : BoreEnd::bottom;
    position.clock_minutes = *clock;
    // What reads as the same place but is written in another way would hide a retake.
    const auto written = rod_gap_position_text(position);
    if (!written || *written != text) {
        return refused;
    }
    return position;
}

} // namespace rodway
