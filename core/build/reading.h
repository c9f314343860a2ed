#pragma once

#include <cstdint>
#include <optional>
#include <string>

namespace rodway {

/// How a reading came about.
enum class ReadingStatus { measured, from_the_box, assumed, not_measured, same, see_photo };

/// One measured quantity at one position, kept as typed. A retake is a new reading: the last
/// counts.
struct Reading {
    std::int64_t id = 0;
    std::int64_t build_id = 0;
    std::optional<std::int64_t> set_up_id; ///< set-up in which it was taken
    std::string quantity;                  ///< e.g. "rod_clearance"
    std::string position;                  ///< e.g. "3I"
    std::string text;                      ///< as typed, e.g. ".008" or ".008-.010"
    std::string unit;                      ///< unit the text is in if it names none
    ReadingStatus status = ReadingStatus::measured;
    std::string taken_by;
    std::string taken_at; ///< UTC
    std::optional<std::int64_t> sheet_id = {};
    std::optional<std::int64_t> instrument_id = {};
    std::optional<std::string> resolution = {};  ///< as typed, if it isn't the text's last digit
    std::optional<std::string> method = {};      ///< feeler, tape, plastic strip, ...
    std::optional<std::string> temperature = {}; ///< as typed, with its unit
    std::optional<std::string> note = {};
};

/// One sheet of measurements of a build.
struct Sheet {
    std::int64_t id = 0;
    std::int64_t build_id = 0;
    std::optional<std::int64_t> step_id;
    std::string kind; ///< word of a built-in kind or of a `ShopSheetKind`
    std::optional<std::string> title;
    std::string opened_at; ///< UTC
    std::optional<std::string> note;
};

/// What a quantity may be, for one build or, without one, for every build of the shop.
struct LimitRecord {
    std::int64_t id = 0;
    std::optional<std::int64_t> build_id;
    std::string quantity;
    std::optional<std::string> position; ///< nothing: at all of them
    std::optional<std::string> low;      ///< as typed
    std::optional<std::string> high;     ///< as typed
    std::optional<std::string> unit;
    std::string source; ///< who says so
    std::optional<std::string> note;
    bool serviceable = false; ///< for used parts, which may be worn further than new ones
};

/// A kind of sheet that the shop made for itself. Its word never changes.
struct ShopSheetKind {
    std::int64_t id = 0;
    std::string word;
    std::string title;
    std::optional<std::string> note;
};

/// A quantity on a sheet of the shop's own. Its word never changes.
struct ShopQuantity {
    std::int64_t id = 0;
    std::int64_t sheet_kind_id = 0;
    std::string word;
    std::string title;
    std::string form; ///< length, count, words, ...
    std::optional<std::string> unit;
    std::optional<std::string> positions; ///< once, cylinder, valve, ...
};

} // namespace rodway
