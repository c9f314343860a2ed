#include "core/sheets/position_reader.h"

#include <algorithm>
#include <cctype>
#include <charconv>
#include <cmath>

#include "core/engine/valve_position.h"
#include "core/sheets/day.h"
#include "core/units/typed_amount.h"

namespace rodway {
namespace {

using Part = PlacePart;

constexpr int most_cylinders = 99;
constexpr int most_of_anything = 999;

bool is_digit(char c) {
    return std::isdigit(static_cast<unsigned char>(c)) != 0;
}
bool is_letter(char c) {
    return std::isalpha(static_cast<unsigned char>(c)) != 0;
}

/// A crank angle to a thousandth of a degree, -360 to under 360: one angle of the cycle, one text.
double kept_deg(double deg) {
    constexpr long cycle = 720000;
    long thousandths = std::lround(CrankAngle::deg(deg).in_cycle().in_deg() * 1000.0) % cycle;
    if (thousandths >= cycle / 2) {
        thousandths -= cycle;
    }
    return static_cast<double>(thousandths) / 1000.0;
}

/// Inches where they come out even to a tenth of a thousandth, so that 1.27 mm and .050 are one.
std::string rise_text(Length rise) {
    const double tenths = rise.in_inches() * 1e4;
    if (std::abs(tenths - std::round(tenths)) < 1e-6) {
        return exact_text(std::round(tenths) / 1e4) + "in";
    }
    return exact_text(std::round(rise.in_mm() * 1e6) / 1e6) + "mm";
}

} // namespace

void PositionReader::skip_between() {
    while (at_ < text_.size() && std::string_view(" ,/#_@").find(text_[at_]) != std::string::npos) {
        ++at_;
    }
}

bool PositionReader::at_end() {
    skip_between();
    return at_ >= text_.size();
}

std::optional<std::size_t> PositionReader::end_of(std::string_view word) const {
    std::size_t at = at_;
    for (const char wanted : word) {
        while (at > at_ && at < text_.size() && (text_[at] == ' ' || text_[at] == '-')) {
            ++at;
        }
        if (at >= text_.size() || text_[at] != wanted) {
            return std::nullopt;
        }
        ++at;
    }
    return at < text_.size() && is_letter(text_[at]) ? std::nullopt : std::optional(at);
}

bool PositionReader::take_any_word(std::string_view words) {
    skip_between();
    std::size_t end = at_;
    for (std::size_t from = 0; from < words.size();) {
        const std::size_t to = std::min(words.find(' ', from), words.size());
        end = std::max(end, end_of(words.substr(from, to - from)).value_or(at_));
        from = to + 1;
    }
    const bool found = end > at_;
    at_ = end;
    // "cyl. 3"; but in "at.050" the point is the number's.
    if (found && at_ < text_.size() && text_[at_] == '.' &&
        (at_ + 1 == text_.size() || !is_digit(text_[at_ + 1]))) {
        ++at_;
    }
    return found;
}

std::optional<std::string> PositionReader::take_whole(int greatest) {
    const std::size_t start = at_;
    skip_between();
    int number = 0;
    const char* const end = text_.data() + text_.size();
    const auto read = std::from_chars(text_.data() + at_, end, number);
    const bool goes_on =
        read.ptr != end &&
        (is_digit(*read.ptr) || is_letter(*read.ptr) ||
         ((*read.ptr == '.' || *read.ptr == '-') && read.ptr + 1 != end && is_digit(read.ptr[1])));
    if (read.ec != std::errc() || number < 1 || number > greatest || goes_on) {
        at_ = start;
        return std::nullopt;
    }
    at_ = static_cast<std::size_t>(read.ptr - text_.data());
    return std::to_string(number);
}

std::optional<std::string> PositionReader::take_after(std::string_view words, bool word_needed,
                                                      int greatest) {
    const std::size_t start = at_;
    bool word = false;
    while (take_any_word(words)) {
        word = true;
    }
    auto number = word || !word_needed ? take_whole(greatest) : std::nullopt;
    if (!number) {
        at_ = start;
    }
    return number;
}

std::optional<std::string> PositionReader::take_placed_word(PlacePart part) {
    skip_between();
    const std::size_t start = at_;
    std::size_t end = start;
    std::optional<std::string> kept;
    for (const PlaceWord& word : place_words()) {
        at_ = start;
        if (word.part == part && take_any_word(word.alike) && at_ > end) {
            end = at_;
            kept = word.kept;
        }
    }
    at_ = end;
    return kept;
}

/// "3i", "cyl 3 exhaust", "ex 5", "3i2".
std::optional<std::string> PositionReader::take_valve() {
    const std::size_t start = at_;
    while (take_any_word("cyl cylinder valve lobe lifter pushrod rocker spring no number")) {
    }
    auto kind = take_placed_word(Part::valve_kind);
    const bool kind_first = kind.has_value();
    skip_between();
    const std::size_t digits = at_;
    while (at_ < text_.size() && is_digit(text_[at_])) {
        ++at_;
    }
    std::string name = text_.substr(digits, at_ - digits);
    if (!kind) {
        kind = take_placed_word(Part::valve_kind);
    }
    if (name.empty() || !kind) {
        at_ = start;
        return std::nullopt;
    }
    name += *kind;
    if (!kind_first && at_ < text_.size() && is_digit(text_[at_])) {
        name += text_[at_++];
    }
    const auto valve = parse_position(name);
    if (!valve || (at_ < text_.size() && (is_digit(text_[at_]) || is_letter(text_[at_])))) {
        at_ = start;
        return std::nullopt;
    }
    return position_name(*valve);
}

std::optional<CrankAngle> PositionReader::take_crank_angle() {
    skip_between();
    if (take_any_word("tdc attdc")) {
        return CrankAngle();
    }
    if (take_any_word("bdc atbdc")) {
        return CrankAngle::deg(kept_deg(180.0));
    }
    const std::size_t start = at_;
    const auto in_number = [](char c) { return is_digit(c) || c == '.' || c == '+' || c == '-'; };
    while (at_ < text_.size() &&
           (in_number(text_[at_]) ||
            (text_[at_] == ',' && at_ + 1 < text_.size() && is_digit(text_[at_ + 1])))) {
        ++at_;
    }
    const std::string number = text_.substr(start, at_ - start);
    std::string unit;
    take_any_word("deg degs degree degrees crank");
    for (const char* mark : {"atdc", "btdc", "abdc", "bbdc"}) {
        if (unit.empty() && take_any_word(mark)) {
            unit = mark;
        }
    }
    const auto typed = number.empty()
                           ? Result<TypedAmount>(Error{})
                           : parse_amount(number + " " + unit, Dimension::crank_angle, "deg");
    if (!typed || typed->low != typed->high || !std::isfinite(typed->low)) {
        at_ = start;
        return std::nullopt;
    }
    return CrankAngle::deg(kept_deg(typed->low));
}

std::optional<std::string> PositionReader::take_angle() {
    const auto angle = take_crank_angle();
    if (!angle) {
        return std::nullopt;
    }
    const double deg = angle->in_deg();
    if (deg == 0.0) {
        return "TDC";
    }
    return exact_text(std::abs(deg)) + (deg < 0.0 ? " BTDC" : " ATDC");
}

/// ".050", "0.05in", "1 mm", "at 1.800"; a whole number must name its unit.
std::optional<std::string> PositionReader::take_rise() {
    const std::size_t start = at_;
    take_any_word("at");
    skip_between();
    const std::size_t number = at_;
    while (at_ < text_.size() && (is_digit(text_[at_]) || text_[at_] == '.')) {
        ++at_;
    }
    const std::size_t number_end = at_;
    if (at_ < text_.size() && text_[at_] == '"') {
        ++at_;
    } else {
        take_any_word("in inch inches mm thou um");
    }
    if (at_ < number_end) {
        at_ = number_end;
    }
    const auto typed =
        parse_length(std::string_view(text_).substr(number, at_ - number), BareNumber::inches);
    if (!typed || typed->is_interval() || typed->low.in_mm() <= 0.0) {
        at_ = start;
        return std::nullopt;
    }
    return rise_text(typed->low);
}

/// The caps of mains and rods have numbers of their own.
std::optional<std::string> PositionReader::take_joint() {
    auto joint = take_placed_word(Part::joint);
    if (joint && (*joint == "main" || *joint == "rod")) {
        if (const auto number = take_after("cap no number", false, most_cylinders)) {
            *joint += ' ';
            *joint += *number;
        }
    }
    return joint;
}

std::optional<std::string> PositionReader::take_speed() {
    const std::size_t start = at_;
    skip_between();
    const std::size_t digits = at_;
    while (at_ < text_.size() && is_digit(text_[at_])) {
        ++at_;
    }
    const std::string number = text_.substr(digits, at_ - digits);
    take_any_word("rpm");
    const bool goes_on = at_ < text_.size() && (is_letter(text_[at_]) || text_[at_] == '.');
    if (number.empty() || number.size() > 5 || number.front() == '0' || goes_on) {
        at_ = start;
        return std::nullopt;
    }
    return number;
}

std::optional<std::string> PositionReader::take_day() {
    skip_between();
    const std::size_t end = std::min(text_.find_first_not_of("0123456789-", at_), text_.size());
    auto day = parse_day(std::string_view(text_).substr(at_, end - at_));
    if (day) {
        at_ = end;
    }
    return day;
}

std::optional<std::string> PositionReader::take_part(PlacePart part) {
    switch (part) {
        case Part::cylinder:
            return take_after("cyl cylinder piston rod bore no number", false, most_cylinders);
        case Part::of_cylinder:
            return take_after("cyl cylinder", true, most_cylinders);
        case Part::journal:
            return take_after("main cam j m journal bearing no number", false, most_cylinders);
        case Part::ordinal:
            return take_after("no number stand dowel", false, most_of_anything);
        case Part::bolt:
            return take_after("bolt stud nut screw no number", false, most_of_anything);
        case Part::hole:
            return take_after("hole thread bolt no number", false, most_of_anything);
        case Part::plug:
            return take_after("plug no number", false, most_of_anything);
        case Part::pass:
            return take_after("pass step", true, most_of_anything);
        case Part::pull:
            return take_after("pull run no number", false, most_of_anything);
        case Part::valve:
            return take_valve();
        case Part::angle:
            return take_angle();
        case Part::rise:
            return take_rise();
        case Part::joint:
            return take_joint();
        case Part::speed:
            return take_speed();
        case Part::day:
            return take_day();
        default:
            return take_placed_word(part);
    }
}

} // namespace rodway
