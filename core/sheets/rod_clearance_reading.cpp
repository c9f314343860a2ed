#include "core/sheets/rod_clearance_reading.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <optional>
#include <sstream>
#include <vector>

#include "core/units/other_unit.h"
#include "core/units/plain_text.h"
#include "core/units/typed_text.h"

namespace rodway {
namespace {

constexpr double greatest_mm = 25.0;

std::string small_letters(std::string_view text) {
    std::string plain;
    for (const char c : text) {
        if (!std::isspace(static_cast<unsigned char>(c))) {
            plain += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
        }
    }
    return plain;
}

template <std::size_t count>
bool is_one_of(const std::string& word, const std::array<std::string_view, count>& words) {
    return std::find(words.begin(), words.end(), word) != words.end();
}

/// What a gauge did.
enum class Tried { goes, no_go, tape_survived };

/// A text as words and pieces of what may be lengths, without commas at their ends, in small
/// letters; "no go" is one word.
std::vector<std::string> pieces(std::string_view text) {
    std::istringstream stream{std::string(text)};
    std::vector<std::string> found;
    for (std::string raw; stream >> raw;) {
        std::string piece = small_letters(raw);
        while (!piece.empty() && (piece.back() == ',' || piece.back() == ';')) {
            piece.pop_back();
        }
        if (piece == "go" && !found.empty() && found.back() == "no") {
            continue;
        }
        if (!piece.empty()) {
            found.push_back(piece);
        }
    }
    return found;
}

std::optional<Tried> tried(const std::string& piece) {
    static constexpr std::array<std::string_view, 2> goes{"goes", "go"};
    static constexpr std::array<std::string_view, 3> no_go{"no", "no-go", "nogo"};
    if (is_one_of(piece, goes)) {
        return Tried::goes;
    }
    if (is_one_of(piece, no_go)) {
        return Tried::no_go;
    }
    return piece == "tape" ? std::optional(Tried::tape_survived) : std::nullopt;
}

/// One gauge tried: its thickness as typed, and what it did, if that was said.
struct Trial {
    std::string thickness;
    std::optional<Tried> outcome;
};

/// ".008 goes, .010 no", "goes .008 no .010", ".010 no", "tape .006 survived". Empty if the text
/// holds no such word at all.
std::vector<Trial> trials(std::string_view text) {
    const std::vector<std::string> found = pieces(text);
    if (std::none_of(found.begin(), found.end(),
                     [](const std::string& piece) { return tried(piece).has_value(); })) {
        return {};
    }
    static constexpr std::array<std::string_view, 3> idle{"survived", "survives", "held"};
    const bool word_first = tried(found.front()).has_value();
    std::vector<Trial> all;
    std::string thickness;
    const auto end_trial = [&](std::optional<Tried> outcome) {
        all.push_back({thickness, outcome});
        thickness.clear();
    };
    std::optional<Tried> open;
    for (const std::string& piece : found) {
        const auto outcome = tried(piece);
        if (!outcome) {
            if (!is_one_of(piece, idle)) {
                thickness += (thickness.empty() ? "" : " ") + piece;
            }
        } else if (!word_first) {
            end_trial(*outcome);
        } else {
            if (open) {
                end_trial(*open);
            }
            open = outcome;
        }
    }
    if (open || !thickness.empty()) {
        end_trial(open);
    }
    return all;
}

Error beyond_limits(std::string_view text, bool inches) {
    const double unit = inches ? Length::mm_per_inch : 1.0;
    return Error{ErrorCode::out_of_range,
                 std::string(rod_clearance_quantity),
                 std::string(text),
                 {},
                 {},
                 Limits{0.0, greatest_mm / unit, inches ? "in" : "mm"}};
}

Error gauge_needed(std::string_view text) {
    return {ErrorCode::gauge_needed,
            std::string(rod_clearance_quantity),
            std::string(text),
            {},
            {},
            {}};
}

/// Between the thickest gauge that goes and the thinnest that doesn't.
Result<RodClearanceReading> between_trials(const std::vector<Trial>& all, std::string_view text,
                                           bool inches) {
    RodClearanceReading reading{false, 0.0, greatest_mm, 0.0};
    for (const Trial& trial : all) {
        if (trial.thickness.empty()) {
            return gauge_needed(text);
        }
        const auto typed =
            parse_length(trial.thickness, inches ? BareNumber::inches : BareNumber::millimetres);
        if (!typed) {
            return typed.error();
        }
        if (!trial.outcome || typed->is_interval() || typed->firmness != Firmness::plain) {
            return Error{ErrorCode::not_a_length,
                         std::string(rod_clearance_quantity),
                         trial.thickness,
                         {},
                         {},
                         {}};
        }
        const double mm = typed->low.in_mm();
        if (mm < 0.0 || mm > greatest_mm) {
            return beyond_limits(text, inches);
        }
        const double step = typed->resolution.in_mm();
        reading.finest_mm = reading.finest_mm > 0.0 ? common_step(reading.finest_mm, step) : step;
        if (trial.outcome == Tried::no_go) {
            reading.high_mm = std::min(reading.high_mm, mm);
        } else {
            reading.low_mm = std::max(reading.low_mm, mm);
        }
    }
    if (reading.low_mm > reading.high_mm) { // a gauge can't go where a thinner one didn't
        Error error = beyond_limits(text, inches);
        error.limits->high = reading.high_mm / (inches ? Length::mm_per_inch : 1.0);
        return error;
    }
    return reading;
}

} // namespace

std::string without_drag(std::string_view text) {
    const auto is_letter = [](char c) { return std::isalpha(static_cast<unsigned char>(c)) != 0; };
    const std::string plain = plain_text(text);
    for (const std::string_view word : {"slight drag", "light drag", "drag"}) {
        const std::size_t rest = plain.size() - std::min(plain.size(), word.size());
        if (plain.ends_with(word) && (rest == 0 || !is_letter(plain[rest - 1]))) {
            const std::string before = plain.substr(0, rest);
            return before.substr(0, before.find_last_not_of(" ,") + 1);
        }
        if (plain.starts_with(word) && !is_letter(plain[word.size()])) {
            return plain.substr(word.size());
        }
    }
    return std::string(text);
}

Result<RodClearanceReading> parse_rod_clearance(std::string_view text, bool inches) {
    static constexpr std::array<std::string_view, 4> touching{"touch", "touches", "contact",
                                                              "rubs"};
    if (is_one_of(small_letters(text), touching)) {
        return RodClearanceReading{true, 0.0, 0.0, 0.0};
    }
    if (const auto gauges = trials(plain_text(text)); !gauges.empty()) {
        return between_trials(gauges, text, inches);
    }
    const std::string thickness = without_drag(text);
    if (thickness.find_first_not_of(' ') == std::string::npos && !plain_text(text).empty()) {
        return gauge_needed(text);
    }
    const auto typed =
        parse_length(thickness, inches ? BareNumber::inches : BareNumber::millimetres);
    if (!typed) {
        Error error = typed.error();
        error.value = text;
        return error;
    }
    RodClearanceReading reading{false, typed->low.in_mm(), typed->high.in_mm(),
                                typed->finest.in_mm()};
    if (reading.low_mm < 0.0 || reading.high_mm > greatest_mm) {
        return beyond_limits(text, inches);
    }
    if (reading.high_mm == 0.0 && typed->firmness == Firmness::plain) {
        reading.touch = true;
        return reading;
    }
    const double step = typed->resolution.in_mm();
    switch (typed->firmness) {
        case Firmness::below:
            reading.low_mm = 0.0;
            break;
        case Firmness::above:
            reading.high_mm = greatest_mm;
            break;
        case Firmness::about:
            reading.low_mm = std::max(0.0, reading.low_mm - step);
            reading.high_mm += step;
            break;
        case Firmness::plain:
            if (!typed->is_interval()) {
                reading.low_mm = std::max(0.0, reading.low_mm - step / 2.0);
                reading.high_mm += step / 2.0;
            }
            break;
    }
    return reading;
}

bool RodClearanceReading::has_high_limit() const {
    return high_mm < greatest_mm;
}

Verdict judge(const RodClearanceReading& reading, const RodClearanceLimits& limits) {
    if (reading.touch) {
        return Verdict::contact;
    }
    const double middle = (reading.low_mm + reading.high_mm) / 2.0;
    return judge(middle, middle - reading.low_mm, limits);
}

} // namespace rodway
