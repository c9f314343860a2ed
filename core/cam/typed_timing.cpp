#include "core/cam/typed_timing.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>
#include <cmath>
#include <utility>

#include "core/units/typed_text.h"

namespace rodway {
namespace {

enum class Unit { bare, crank, cam };
enum class DeadCentre { none, btdc, atdc, bbdc, abdc };

/// Lower case, with the dashes and spaces that word processors make written plainly.
std::string plain_ascii(std::string_view text) {
    constexpr std::array<std::pair<std::string_view, std::string_view>, 8> alike{{
        {"\u2212", "-"},
        {"\u2013", "-"},
        {"\u2014", "-"},
        {"\u2010", "-"},
        {"\u2011", "-"},
        {"\u00a0", " "},
        {"\u2009", " "},
        {"\u202f", " "},
    }};
    std::string plain(text);
    for (const auto& [fancy, simple] : alike) {
        for (std::size_t at = plain.find(fancy); at != std::string::npos;
             at = plain.find(fancy, at)) {
            plain.replace(at, fancy.size(), simple);
        }
    }
    std::transform(plain.begin(), plain.end(), plain.begin(), [](unsigned char c) {
        return c == '\t' || c == '\r' || c == '\n' ? ' ' : static_cast<char>(std::tolower(c));
    });
    return plain;
}

/// One number as typed, with what stands behind it.
struct Angle {
    double value = 0.0; ///< sign applied
    bool minus = false;
    Unit unit = Unit::bare;
    DeadCentre dead_centre = DeadCentre::none;
};

/// Walks over one typed text. Each `take` moves past what it recognises, or stays where it was.
class Reader {
  public:
    explicit Reader(std::string_view text) : text_(plain_ascii(text)) {}

    [[nodiscard]] bool at_end() {
        skip_space();
        return at_ >= text_.size();
    }
    bool take(std::string_view token) {
        skip_space();
        if (text_.compare(at_, token.size(), token) != 0) {
            return false;
        }
        at_ += token.size();
        return true;
    }
    bool take_word(std::string_view word) {
        const std::size_t start = at_;
        if (take(word) &&
            (at_ >= text_.size() || !std::isalpha(static_cast<unsigned char>(text_[at_])))) {
            take_here(".");
            return true;
        }
        at_ = start;
        return false;
    }
    /// A number without sign, with decimal point or comma.
    std::optional<double> take_number() {
        skip_space();
        std::size_t end = at_;
        std::string digits;
        while (digit_at(end)) {
            digits += text_[end++];
        }
        if (end + 1 < text_.size() && (text_[end] == '.' || text_[end] == ',') &&
            digit_at(end + 1)) {
            digits += '.';
            for (++end; digit_at(end); ++end) {
                digits += text_[end];
            }
        }
        constexpr std::size_t longest = 12;
        double value = 0.0;
        if (digits.empty() || digits.size() > longest) {
            return std::nullopt;
        }
        std::from_chars(digits.data(), digits.data() + digits.size(), value);
        at_ = end;
        return value;
    }
    /// A number with its sign, in brackets or not, and its unit and dead centre in either order.
    std::optional<Angle> take_angle() {
        const std::size_t start = at_;
        Angle angle;
        const bool bracket = take("(");
        angle.minus = take("-");
        if (!angle.minus) {
            take("+");
        }
        const auto number = take_number();
        if (!number || (bracket && !take(")"))) {
            at_ = start;
            return std::nullopt;
        }
        angle.value = angle.minus ? -*number : *number;
        take_what_follows(angle);
        return angle;
    }

  private:
    void skip_space() {
        while (at_ < text_.size() && text_[at_] == ' ') {
            ++at_;
        }
    }
    bool take_here(std::string_view token) {
        const bool there = text_.compare(at_, token.size(), token) == 0;
        at_ += there ? token.size() : 0;
        return there;
    }
    [[nodiscard]] bool digit_at(std::size_t place) const {
        return place < text_.size() && std::isdigit(static_cast<unsigned char>(text_[place]));
    }
    void take_degrees() {
        if (!take("\u00b0") && !take_word("degrees") && !take_word("degree")) {
            take_word("deg");
        }
    }
    void take_what_follows(Angle& angle) {
        constexpr std::array<std::pair<std::string_view, DeadCentre>, 4> centres{{
            {"btdc", DeadCentre::btdc},
            {"atdc", DeadCentre::atdc},
            {"bbdc", DeadCentre::bbdc},
            {"abdc", DeadCentre::abdc},
        }};
        for (int pass = 0; pass < 2; ++pass) {
            take_degrees();
            if (angle.unit == Unit::bare) {
                angle.unit = take_word("crank") ? Unit::crank
                             : take_word("cam") ? Unit::cam
                                                : Unit::bare;
            }
            take_degrees();
            for (const auto& [name, centre] : centres) {
                if (angle.dead_centre == DeadCentre::none && take_word(name)) {
                    angle.dead_centre = centre;
                }
            }
        }
    }

    std::string text_;
    std::size_t at_ = 0;
};

Error fail(ErrorCode code, std::string_view text, std::string expected = {}) {
    return {code, {}, std::string(text), std::move(expected), {}, {}};
}
Error not_an_angle(std::string_view text, std::string example) {
    return fail(text.find_first_not_of(" \t\r\n") == std::string_view::npos
                    ? ErrorCode::empty_text
                    : ErrorCode::not_an_angle,
                text, std::move(example));
}
Error unclear(std::string_view text) {
    return fail(ErrorCode::angle_kind_unclear, text, "crank cam");
}
Error outside(std::string_view text, double low, double high, const char* unit = "crank_deg") {
    return {ErrorCode::out_of_range, {}, std::string(text), {}, {}, Limits{low, high, unit}};
}

struct Band {
    double low;
    double high;

    [[nodiscard]] bool holds(double value) const { return value >= low && value <= high; }
};

/// A figure checked against where it usually lies. Cam and crank degrees differ by a factor of two,
/// so one that would lie there halved or doubled may be in the other unit.
Result<double> usual(std::string_view text, double value, const Band& band, const char* unit) {
    if (band.holds(value)) {
        return value;
    }
    if (band.holds(2.0 * value) || band.holds(value / 2.0)) {
        return unclear(text);
    }
    return outside(text, band.low, band.high, unit);
}

double in_crank_deg(const Angle& angle) {
    return angle.unit == Unit::cam ? crank_angle(CamAngle::deg(angle.value)).in_deg() : angle.value;
}

/// The dead centres of an event: the one whose side counts positive, and the other.
struct EventSides {
    DeadCentre positive;
    DeadCentre negative;
    const char* names;
    const char* example;
};

EventSides sides_of(CamEvent event) {
    switch (event) {
        case CamEvent::intake_opens:
            return {DeadCentre::btdc, DeadCentre::atdc, "BTDC ATDC", "20 BTDC"};
        case CamEvent::intake_closes:
            return {DeadCentre::abdc, DeadCentre::bbdc, "ABDC BBDC", "60 ABDC"};
        case CamEvent::exhaust_opens:
            return {DeadCentre::bbdc, DeadCentre::abdc, "BBDC ABDC", "60 BBDC"};
        case CamEvent::exhaust_closes:
            break;
    }
    return {DeadCentre::atdc, DeadCentre::btdc, "ATDC BTDC", "20 ATDC"};
}

Result<double> event_deg(std::string_view text, const Angle& angle, CamEvent event) {
    const EventSides sides = sides_of(event);
    double value = in_crank_deg(angle);
    if (angle.dead_centre != DeadCentre::none) {
        if (angle.minus) {
            return not_an_angle(text, sides.example);
        }
        if (angle.dead_centre == sides.negative) {
            value = -value;
        } else if (angle.dead_centre != sides.positive) {
            return fail(ErrorCode::not_a_choice, text, sides.names);
        }
    }
    if (std::abs(value) > furthest_event_crank_deg) {
        return outside(text, -furthest_event_crank_deg, furthest_event_crank_deg);
    }
    return value + 0.0; // no negative zero
}

/// A unit behind the last number holds for all; any other mixture is unclear.
bool share_unit(Angle* first, Angle* last) {
    const Unit shared = (last - 1)->unit;
    for (Angle* angle = first; angle != last - 1; ++angle) {
        if (angle->unit == Unit::bare &&
            std::all_of(first, last - 1, [](const Angle& a) { return a.unit == Unit::bare; })) {
            continue;
        }
        if (angle->unit != shared) {
            return false;
        }
    }
    std::for_each(first, last, [&](Angle& angle) { angle.unit = shared; });
    return true;
}

Result<ValveEvents> valve_events(std::string_view text, const Angle& opens, const Angle& closes,
                                 ValveKind kind) {
    const bool intake = kind == ValveKind::intake;
    const auto opening =
        event_deg(text, opens, intake ? CamEvent::intake_opens : CamEvent::exhaust_opens);
    if (!opening) {
        return opening.error();
    }
    const auto closing =
        event_deg(text, closes, intake ? CamEvent::intake_closes : CamEvent::exhaust_closes);
    if (!closing) {
        return closing.error();
    }
    const ValveEvents events{*opening, *closing};
    if (!(events.duration_crank_deg() > 0.0)) {
        return outside(text, -furthest_event_crank_deg, furthest_event_crank_deg);
    }
    return events;
}

/// One angle and nothing else.
std::optional<Angle> lone_angle(std::string_view text) {
    Reader reader(text);
    const auto angle = reader.take_angle();
    return angle && reader.at_end() ? angle : std::nullopt;
}

enum class Shift { none, advanced, retarded };

Shift take_shift(Reader& reader) {
    for (const char* word : {"advanced", "advance", "adv"}) {
        if (reader.take_word(word)) {
            return Shift::advanced;
        }
    }
    for (const char* word : {"retarded", "retard", "ret"}) {
        if (reader.take_word(word)) {
            return Shift::retarded;
        }
    }
    return Shift::none;
}

constexpr const char* centreline_example = "110+4";

/// An advance from a number, its sign and the word behind it, which may not contradict each other.
Result<double> advance_deg(std::string_view text, const Angle& number, bool minus, Shift shift) {
    if (number.dead_centre != DeadCentre::none || (minus && shift == Shift::advanced)) {
        return not_an_angle(text, centreline_example);
    }
    const double crank_deg = std::abs(in_crank_deg(number));
    if (crank_deg > furthest_advance_crank_deg) {
        return outside(text, -furthest_advance_crank_deg, furthest_advance_crank_deg);
    }
    return (minus || shift == Shift::retarded ? -crank_deg : crank_deg) + 0.0;
}

/// "110+4", "108-4", "110 4 advanced": the separation is read already.
Result<TypedCentreline> separation_and_advance(std::string_view text, Reader& reader,
                                               const Angle& separation, ValveKind kind) {
    const bool plus = reader.take("+");
    const bool minus = !plus && reader.take("-");
    reader.take(",");
    const auto number = reader.take_number();
    if (!number || separation.minus || separation.dead_centre != DeadCentre::none) {
        return not_an_angle(text, centreline_example);
    }
    const bool unit =
        separation.unit != Unit::bare || reader.take_word("cam") || reader.take_word("crank");
    const Shift shift = take_shift(reader);
    if (unit || reader.take_word("cam") || reader.take_word("crank")) {
        return unclear(text);
    }
    const bool no_sign = !plus && !minus;
    if (!reader.at_end() || (no_sign && shift == Shift::none) ||
        (plus && shift == Shift::retarded)) {
        return not_an_angle(text, centreline_example);
    }
    const auto checked =
        usual(text, separation.value, {usual_separation_low_cam_deg, usual_separation_high_cam_deg},
              "cam_deg");
    if (!checked) {
        return checked.error();
    }
    const auto advance = advance_deg(text, Angle{*number}, minus, shift);
    if (!advance) {
        return advance.error();
    }
    TypedCentreline typed;
    typed.lobe_separation_cam_deg = *checked;
    typed.advance_crank_deg = *advance;
    typed.centreline_crank_deg =
        kind == ValveKind::intake ? *checked - *advance : *checked + *advance;
    typed.text = std::string(text);
    return typed;
}

} // namespace

Result<TypedAngle> parse_event(std::string_view text, CamEvent event) {
    const auto angle = lone_angle(text);
    if (!angle) {
        return not_an_angle(text, sides_of(event).example);
    }
    const auto value = event_deg(text, *angle, event);
    if (!value) {
        return value.error();
    }
    return TypedAngle{*value, std::string(text)};
}

Result<TypedValveEvents> parse_valve_events(std::string_view text, ValveKind kind) {
    Reader reader(text);
    const auto opens = reader.take_angle();
    const bool apart = opens && (reader.take("/") || reader.take("-"));
    const auto closes = apart ? reader.take_angle() : std::nullopt;
    if (!closes || !reader.at_end()) {
        return not_an_angle(text, "20-60");
    }
    std::array<Angle, 2> angles{*opens, *closes};
    if (!share_unit(angles.data(), angles.data() + angles.size())) {
        return unclear(text);
    }
    const auto events = valve_events(text, angles[0], angles[1], kind);
    if (!events) {
        return events.error();
    }
    return TypedValveEvents{*events, std::string(text)};
}

Result<TypedCard> parse_card(std::string_view text) {
    constexpr const char* example = "20-60/60-20";
    Reader reader(text);
    std::array<Angle, 4> angles;
    char within_valve = 0; // the mark between the events of one valve: the same for both
    for (std::size_t at = 0; at < angles.size(); ++at) {
        if (at == 2 && !reader.take("/")) {
            return not_an_angle(text, example);
        }
        if (at == 1 || at == 3) {
            const char mark = reader.take("/") ? '/' : reader.take("-") ? '-' : ' ';
            within_valve = at == 1 ? mark : within_valve;
            if (mark == ' ' || mark != within_valve) {
                return not_an_angle(text, example);
            }
        }
        const auto angle = reader.take_angle();
        if (!angle) {
            return not_an_angle(text, example);
        }
        angles[at] = *angle;
    }
    if (!reader.at_end()) {
        return not_an_angle(text, example);
    }
    if (!share_unit(angles.data(), angles.data() + angles.size())) {
        return unclear(text);
    }
    const auto intake = valve_events(text, angles[0], angles[1], ValveKind::intake);
    if (!intake) {
        return intake.error();
    }
    const auto exhaust = valve_events(text, angles[2], angles[3], ValveKind::exhaust);
    if (!exhaust) {
        return exhaust.error();
    }
    return TypedCard{*intake, *exhaust, std::string(text)};
}

Result<TypedAngle> parse_duration(std::string_view text) {
    const auto angle = lone_angle(text);
    if (!angle || angle->dead_centre != DeadCentre::none) {
        return not_an_angle(text, "252");
    }
    const double crank_deg = in_crank_deg(*angle);
    // With its unit told, a duration may be as short as high on a lobe's nose.
    const bool told =
        angle->unit != Unit::bare && crank_deg > 0.0 && crank_deg <= usual_duration_high_crank_deg;
    if (told) {
        return TypedAngle{crank_deg, std::string(text)};
    }
    const auto checked =
        usual(text, crank_deg, {usual_duration_low_crank_deg, usual_duration_high_crank_deg},
              "crank_deg");
    if (!checked) {
        return checked.error();
    }
    return TypedAngle{*checked, std::string(text)};
}

Result<TypedAngle> parse_lobe_separation(std::string_view text) {
    const auto angle = lone_angle(text);
    if (!angle || angle->dead_centre != DeadCentre::none) {
        return not_an_angle(text, "108");
    }
    const double cam_deg = angle->unit == Unit::crank
                               ? cam_angle(CrankAngle::deg(angle->value)).in_deg()
                               : angle->value;
    const auto checked = usual(
        text, cam_deg, {usual_separation_low_cam_deg, usual_separation_high_cam_deg}, "cam_deg");
    if (!checked) {
        return checked.error();
    }
    return TypedAngle{*checked, std::string(text)};
}

Result<TypedCentreline> parse_centreline(std::string_view text, ValveKind kind) {
    Reader reader(text);
    const auto first = reader.take_angle();
    if (!first) {
        return not_an_angle(text, centreline_example);
    }
    TypedCentreline typed;
    typed.text = std::string(text);
    if (const Shift shift = take_shift(reader); shift != Shift::none) {
        if (!reader.at_end() || first->minus) {
            return not_an_angle(text, centreline_example);
        }
        const auto advance = advance_deg(text, *first, false, shift);
        if (!advance) {
            return advance.error();
        }
        typed.advance_crank_deg = *advance;
        return typed;
    }
    if (!reader.at_end()) {
        return separation_and_advance(text, reader, *first, kind);
    }
    const bool intake = kind == ValveKind::intake;
    const DeadCentre own_side = intake ? DeadCentre::atdc : DeadCentre::btdc;
    if (first->dead_centre != DeadCentre::none && first->dead_centre != own_side) {
        return fail(ErrorCode::not_a_choice, text, intake ? "ATDC" : "BTDC");
    }
    const auto checked =
        usual(text, in_crank_deg(*first),
              {usual_centreline_low_crank_deg, usual_centreline_high_crank_deg}, "crank_deg");
    if (!checked) {
        return checked.error();
    }
    typed.centreline_crank_deg = *checked;
    return typed;
}

Result<TypedAngle> parse_wheel_mark(std::string_view text) {
    const auto angle = lone_angle(text);
    if (!angle || (angle->minus && angle->dead_centre != DeadCentre::none)) {
        return not_an_angle(text, "19.5 ATDC");
    }
    if (angle->unit == Unit::cam) {
        return unclear(text); // a degree wheel sits on the crank
    }
    const bool from_centre = angle->dead_centre != DeadCentre::none;
    const double furthest = from_centre ? 180.0 : 360.0;
    if (std::abs(angle->value) > furthest) {
        return outside(text, from_centre ? 0.0 : -furthest, furthest);
    }
    double mark_deg = angle->value;
    switch (angle->dead_centre) {
        case DeadCentre::none:
        case DeadCentre::atdc:
            break;
        case DeadCentre::btdc:
            mark_deg = -mark_deg;
            break;
        case DeadCentre::abdc:
            mark_deg = 180.0 + mark_deg;
            break;
        case DeadCentre::bbdc:
            mark_deg = 180.0 - mark_deg;
            break;
    }
    return TypedAngle{mark_deg + 0.0, std::string(text)};
}

} // namespace rodway
