#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "core/sheets/place.h"
#include "core/units/angle.h"

namespace rodway {

/// Walks over a position as typed (`plain_text` of it). Each `take_` moves past what it recognises,
/// or stays where it was; blanks, commas, slashes and "#" between parts are passed over.
class PositionReader {
  public:
    explicit PositionReader(std::string text) : text_(std::move(text)) {}

    [[nodiscard]] bool at_end();

    /// One part as it is kept, without the word that stands before it ("2" of "J2").
    std::optional<std::string> take_part(PlacePart part);

    /// "20 BTDC", "-20", "340 deg", "TDC": -360 to under 360, to a thousandth of a degree.
    std::optional<CrankAngle> take_crank_angle();

  private:
    void skip_between();
    /// The longest of these words (blanks between them) that stands here, passed.
    bool take_any_word(std::string_view words);
    /// Where it ends if it stands here as a whole; blanks and hyphens in what is written don't
    /// count.
    [[nodiscard]] std::optional<std::size_t> end_of(std::string_view word) const;
    /// A whole number from 1 to `greatest` that no digit, point or letter follows.
    std::optional<std::string> take_whole(int greatest);
    std::optional<std::string> take_after(std::string_view words, bool word_needed, int greatest);
    std::optional<std::string> take_placed_word(PlacePart part);
    std::optional<std::string> take_valve();
    std::optional<std::string> take_angle();
    std::optional<std::string> take_rise();
    std::optional<std::string> take_joint();
    std::optional<std::string> take_speed();
    std::optional<std::string> take_day();

    std::string text_;
    std::size_t at_ = 0;
};

} // namespace rodway
