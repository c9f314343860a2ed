#include "core/fasteners/tightening_steps.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <optional>
#include <utility>

#include "core/base/assert.h"
#include "core/units/measure_unit.h"
#include "core/units/plain_text.h"
#include "core/units/typed_amount.h"
#include "core/units/within.h"

namespace rodway {
namespace {

constexpr const char* field = "tightening";
constexpr double least_torque_Nm = 0.1;
constexpr double greatest_torque_Nm = 2000.0;
constexpr double rounding_Nm = 1e-6;
constexpr std::size_t most_steps = 12;
constexpr std::size_t most_meanings = 3; ///< that are offered

/// What joins a piece of the text to the one before it.
enum class Join { first, slash, then, plus };

struct Piece {
    Join join = Join::first;
    std::string text;
};

bool is_digit(char c) {
    return std::isdigit(static_cast<unsigned char>(c)) != 0;
}
bool is_letter(char c) {
    return std::isalpha(static_cast<unsigned char>(c)) != 0;
}

/// Splits the text at what joins one step to the next.
class Splitter {
  public:
    explicit Splitter(std::string text) : text_(std::move(text)) {}

    std::vector<Piece> pieces() {
        while (at_ < text_.size()) {
            const auto [join, length] = join_here();
            if (length == 0) {
                piece_.text += text_[at_++];
                continue;
            }
            at_ += length;
            finish(join);
        }
        piece_.text = plain_text(piece_.text);
        pieces_.push_back(piece_);
        return std::move(pieces_);
    }

  private:
    void finish(Join next) {
        piece_.text = plain_text(piece_.text);
        // "45, then 65" and "65 and then + 90" are joined once; the plus says most.
        if (piece_.text.empty() && !pieces_.empty()) {
            piece_.join = std::max(piece_.join, next);
            return;
        }
        pieces_.push_back(std::exchange(piece_, {next, {}}));
    }

    std::pair<Join, std::size_t> join_here() const {
        static constexpr std::array<std::string_view, 3> then_words{"then", "and", "&"};
        const char c = text_[at_];
        if (c == '/') {
            return {Join::slash, fraction_of_a_turn() ? 0 : 1};
        }
        if (c == '+') {
            return {Join::plus, text_.compare(at_, 2, "+-") == 0 ? 0 : 1};
        }
        if (c == ';' || (c == ',' && !between_digits())) {
            return {Join::then, 1};
        }
        if (word_here("plus")) {
            return {Join::plus, 4};
        }
        for (const std::string_view word : then_words) {
            if (word_here(word)) {
                return {Join::then, word.size()};
            }
        }
        return {Join::first, 0};
    }

    bool word_here(std::string_view word) const {
        const std::size_t end = at_ + word.size();
        return text_.compare(at_, word.size(), word) == 0 &&
               (at_ == 0 || !is_letter(text_[at_ - 1])) &&
               (end >= text_.size() || !is_letter(text_[end]));
    }
    bool between_digits() const {
        return at_ > 0 && is_digit(text_[at_ - 1]) && at_ + 1 < text_.size() &&
               is_digit(text_[at_ + 1]);
    }
    /// A slash as in "1/4 turn".
    bool fraction_of_a_turn() const {
        std::size_t at = at_ + 1;
        while (at < text_.size() && is_digit(text_[at])) {
            ++at;
        }
        const bool number = at > at_ + 1 && at_ > 0 && is_digit(text_[at_ - 1]);
        while (at < text_.size() && text_[at] == ' ') {
            ++at;
        }
        return number && (text_.compare(at, 4, "turn") == 0 || text_.compare(at, 4, "of a") == 0);
    }

    std::string text_;
    std::size_t at_ = 0;
    Piece piece_;
    std::vector<Piece> pieces_;
};

bool take_word(std::string& text, std::string_view word) {
    const std::size_t at = text.find(word);
    if (at == std::string::npos || (at > 0 && is_letter(text[at - 1])) ||
        (at + word.size() < text.size() && is_letter(text[at + word.size()]))) {
        return false;
    }
    text = plain_text(text.substr(0, at) + " " + text.substr(at + word.size()));
    return true;
}

bool is_one_of(const std::string& text, std::initializer_list<std::string_view> words) {
    return std::find(words.begin(), words.end(), text) != words.end();
}

/// "quarter turn", "half a turn" as numbers.
std::string numbers_for_words(std::string text) {
    take_word(text, "of a");
    static constexpr std::array<std::pair<std::string_view, std::string_view>, 7> spoken{{
        {"quarter turn", "1/4 turn"},
        {"a quarter turn", "1/4 turn"},
        {"half turn", "1/2 turn"},
        {"half a turn", "1/2 turn"},
        {"a half turn", "1/2 turn"},
        {"one turn", "1 turn"},
        {"full turn", "1 turn"},
    }};
    for (const auto& [words, number] : spoken) {
        if (text == words) {
            return std::string(number);
        }
    }
    return text;
}

/// A piece read as far as it can be by itself.
struct ReadPiece {
    Join join = Join::first;
    std::optional<TighteningStep> step; ///< what has one meaning already
    std::optional<TypedAmount> bare;    ///< a number without a unit
    bool angle_word = false;            ///< "turn 90"
};

std::optional<TighteningStep> with_unit(const std::string& text, Dimension dimension,
                                        std::string_view bare, TighteningKind kind) {
    const auto amount = parse_amount(text, dimension, bare);
    if (!amount || amount->firmness != Firmness::plain) {
        return std::nullopt;
    }
    return TighteningStep{kind, amount->low, amount->high, amount->unit};
}

std::optional<ReadPiece> read_piece(const Piece& piece) {
    ReadPiece read{piece.join, {}, {}, false};
    std::string text = piece.text;
    for (const std::string_view filler :
         {"another ", "additional ", "further ", "torque ", "to "}) {
        if (text.starts_with(filler)) {
            text = plain_text(text.substr(filler.size()));
        }
    }
    if (is_one_of(text, {"snug", "snug tight", "hand tight", "finger tight"})) {
        read.step = TighteningStep{TighteningKind::snug, 0.0, 0.0, {}};
        return read;
    }
    if (is_one_of(text, {"loosen", "back off", "slacken"})) {
        read.step = TighteningStep{TighteningKind::loosen, 0.0, 0.0, {}};
        return read;
    }
    if (text.find("stretch") != std::string::npos) {
        text.replace(text.find("stretch"), 7, " ");
        read.step = with_unit(plain_text(text), Dimension::length, "in", TighteningKind::stretch);
        return read.step ? std::optional(read) : std::nullopt;
    }
    if (text.starts_with("turn ")) {
        text = text.substr(5);
        read.angle_word = true;
    }
    text = numbers_for_words(text);
    const auto bare = parse_amount(text, Dimension::none, {});
    if (bare && bare->firmness == Firmness::plain) {
        // "45,65" may be two steps or one number.
        read.bare = *bare;
        return text.find(',') == std::string::npos ? std::optional(read) : std::nullopt;
    }
    read.step = with_unit(text, Dimension::torque, "Nm", TighteningKind::torque);
    if (!read.step) {
        read.step = with_unit(text, Dimension::angle, "deg", TighteningKind::angle);
    }
    const bool torque = read.step && read.step->kind == TighteningKind::torque;
    const bool contradicts = torque && (read.join == Join::plus || read.angle_word);
    return read.step && !contradicts ? std::optional(read) : std::nullopt;
}

using Steps = std::vector<TighteningStep>;

TighteningStep bare_torque(const TypedAmount& number, const std::string& unit) {
    const MeasureUnit* measure = find_unit(Dimension::torque, unit);
    RODWAY_ASSERT(measure);
    return {TighteningKind::torque, number.low * measure->factor, number.high * measure->factor,
            unit};
}

/// The units that a torque without one may be in: the next one written, or the one before it and
/// the sheet's own. Behind a slash it is the one before.
std::vector<std::string> units_for(const std::vector<ReadPiece>& pieces, std::size_t at,
                                   std::string_view own_unit) {
    const auto unit_of = [&](std::size_t index) {
        const auto& step = pieces[index].step;
        return step && step->kind == TighteningKind::torque ? step->unit : std::string();
    };
    for (std::size_t next = at + 1; next < pieces.size(); ++next) {
        if (!unit_of(next).empty()) {
            return {unit_of(next)};
        }
    }
    std::vector<std::string> units;
    for (std::size_t back = at; back-- > 0 && units.empty();) {
        if (!unit_of(back).empty()) {
            units.push_back(unit_of(back));
        }
    }
    const bool may_be_own = units.empty() || pieces[at].join != Join::slash;
    if (may_be_own && !own_unit.empty() && (units.empty() || units.front() != own_unit)) {
        units.emplace_back(own_unit);
    }
    return units;
}

/// All that one piece may mean, taken by itself.
Steps meanings_of(const std::vector<ReadPiece>& pieces, std::size_t at, std::string_view own_unit) {
    const ReadPiece& piece = pieces[at];
    if (piece.step) {
        return {*piece.step};
    }
    Steps meanings;
    const bool angle_only = piece.join == Join::plus || piece.angle_word;
    if (!angle_only) {
        for (const std::string& unit : units_for(pieces, at, own_unit)) {
            meanings.push_back(bare_torque(*piece.bare, unit));
        }
    }
    if (angle_only || piece.join == Join::then) {
        meanings.push_back({TighteningKind::angle, piece.bare->low, piece.bare->high, "deg"});
    }
    return meanings;
}

Error refused(ErrorCode code, std::string_view text, std::string expected = {}) {
    return {code, field, std::string(text), std::move(expected), {}, {}};
}

std::optional<Error> wrong_number(double low, double high, const Limits& limits) {
    if (auto bad = outside(field, low, limits)) {
        return bad;
    }
    return outside(field, high, limits);
}

/// What can't be in a row of steps; nothing if it is good.
std::optional<Error> wrong_steps(const Steps& steps, std::string_view text) {
    bool seated = false; ///< something to count an angle from
    bool turned = false; ///< by angle or stretch since it was last loose
    double reached_Nm = least_torque_Nm;
    for (const TighteningStep& step : steps) {
        switch (step.kind) {
            case TighteningKind::loosen:
                if (&step == &steps.front()) {
                    return refused(ErrorCode::wrong_type, text, "tightening_steps");
                }
                seated = turned = false;
                reached_Nm = least_torque_Nm;
                break;
            case TighteningKind::snug:
                if (seated) {
                    return refused(ErrorCode::wrong_type, text, "tightening_steps");
                }
                seated = true;
                break;
            case TighteningKind::torque: {
                const double factor = find_unit(Dimension::torque, step.unit)->factor;
                const double floor = (reached_Nm - rounding_Nm) / factor;
                if (auto bad = wrong_number(step.low / factor, step.high / factor,
                                            {floor, greatest_torque_Nm / factor, step.unit})) {
                    return bad;
                }
                if (turned) {
                    return refused(ErrorCode::wrong_type, text, "tightening_steps");
                }
                seated = true;
                reached_Nm = std::max(reached_Nm, step.low);
                break;
            }
            case TighteningKind::angle:
                if (!seated) {
                    return refused(ErrorCode::missing_field, text);
                }
                if (auto bad = wrong_number(step.low, step.high, {5.0, 720.0, "deg"})) {
                    return bad;
                }
                turned = true;
                break;
            case TighteningKind::stretch:
                if (auto bad = wrong_number(step.low, step.high, {0.01, 2.0, "mm"})) {
                    return bad;
                }
                seated = turned = true;
                break;
        }
    }
    return std::nullopt;
}

/// Goes through the ways of giving each piece one of its meanings; keeps the first that can be.
class MeaningSearch {
  public:
    MeaningSearch(std::vector<Steps> choices, std::string_view text)
        : choices_(std::move(choices)), text_(text) {
        Steps steps;
        go_on(steps);
    }
    [[nodiscard]] const std::vector<Steps>& found() const { return found_; }
    [[nodiscard]] const std::optional<Error>& first_error() const { return first_error_; }

  private:
    void go_on(Steps& steps) {
        if (auto bad = wrong_steps(steps, text_)) {
            first_error_ = first_error_ ? first_error_ : bad;
            return;
        }
        if (steps.size() == choices_.size()) {
            if (std::find(found_.begin(), found_.end(), steps) == found_.end()) {
                found_.push_back(steps);
            }
            return;
        }
        for (const TighteningStep& meaning : choices_[steps.size()]) {
            if (found_.size() < most_meanings) {
                steps.push_back(meaning);
                go_on(steps);
                steps.pop_back();
            }
        }
    }

    std::vector<Steps> choices_;
    std::string_view text_;
    std::vector<Steps> found_;
    std::optional<Error> first_error_;
};

std::string step_text(const TighteningStep& step) {
    const Dimension dimension = step.kind == TighteningKind::torque  ? Dimension::torque
                                : step.kind == TighteningKind::angle ? Dimension::angle
                                                                     : Dimension::length;
    const MeasureUnit* unit = find_unit(dimension, step.unit);
    RODWAY_ASSERT(unit);
    const auto number = [&](double value) {
        return exact_text(std::round(1e6 * value / unit->factor) / 1e6);
    };
    std::string text = step.kind == TighteningKind::stretch ? "stretch" : "";
    text += number(step.low);
    if (step.high != step.low) {
        text += "-" + number(step.high);
    }
    return text + step.unit;
}

} // namespace

Result<std::vector<TighteningStep>> parse_tightening_steps(std::string_view text,
                                                           std::string_view bare_torque_unit) {
    RODWAY_ASSERT(bare_torque_unit.empty() || find_unit(Dimension::torque, bare_torque_unit));
    const std::string plain = plain_text(text);
    if (plain.empty()) {
        return refused(ErrorCode::empty_text, text);
    }
    const std::vector<Piece> split = Splitter(plain).pieces();
    if (split.size() > most_steps) {
        return refused(ErrorCode::wrong_type, text, "tightening_steps");
    }
    std::vector<ReadPiece> pieces;
    for (const Piece& piece : split) {
        const auto read = read_piece(piece);
        if (!read) {
            return refused(ErrorCode::wrong_type, text, "tightening_steps");
        }
        pieces.push_back(*read);
    }
    std::vector<Steps> choices;
    for (std::size_t at = 0; at < pieces.size(); ++at) {
        choices.push_back(meanings_of(pieces, at, bare_torque_unit));
        if (choices.back().empty()) {
            return refused(ErrorCode::not_an_amount, text, unit_ids(Dimension::torque));
        }
    }
    const MeaningSearch search(std::move(choices), text);
    if (search.found().empty()) {
        return *search.first_error();
    }
    if (search.found().size() > 1) {
        std::string both;
        for (const Steps& steps : search.found()) {
            both += (both.empty() ? "" : " ") + tightening_steps_text(steps);
        }
        return refused(ErrorCode::not_a_choice, text, both);
    }
    return search.found().front();
}

std::string tightening_steps_text(const std::vector<TighteningStep>& steps) {
    std::string text;
    for (const TighteningStep& step : steps) {
        if (!text.empty()) {
            text += step.kind == TighteningKind::angle ? "+" : "/";
        }
        text += step.kind == TighteningKind::snug     ? "snug"
                : step.kind == TighteningKind::loosen ? "loosen"
                                                      : step_text(step);
    }
    return text;
}

} // namespace rodway
