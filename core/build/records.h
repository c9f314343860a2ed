#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace rodway {

/// One customer's engine on the bench.
struct Build {
    std::int64_t id = 0;
    std::string name; ///< what the shop calls it
    std::string customer;
    std::string engine;                  ///< family, size, casting, as the shop writes it
    std::optional<std::string> promised; ///< ISO date
    std::optional<std::string> note;
    std::optional<std::string> archived; ///< UTC time when it was put away
};

/// One part of a build's plan, and its steps.
struct Stage {
    std::int64_t id = 0;
    std::int64_t build_id = 0;
    int ordinal = 0;
    std::string title;
    std::optional<std::string> caution; ///< key of a caution text, see `resources/cautions`
};

/// One thing to do and tick. A tick can be taken back; the history keeps both.
struct Step {
    std::int64_t id = 0;
    std::int64_t stage_id = 0;
    int ordinal = 0;
    std::string title;
    std::optional<std::string> ticked_by;
    std::optional<std::string> ticked_at; ///< UTC
};

/// A number as somebody typed it. The unit is empty for counts and words.
struct TypedValue {
    std::string text;
    std::string unit;

    bool operator==(const TypedValue&) const = default;
};

/// An engine's geometry as typed: path of the field -> value. `core/engine/set_up` makes a model of
/// it.
using SetUpFields = std::map<std::string, TypedValue>;

/// A set-up belongs to one build; the newest is the one in hand.
struct SetUpRecord {
    std::int64_t id = 0;
    std::int64_t build_id = 0;
    std::string name;
    SetUpFields fields;
};

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
};

/// A picture stored once by its content.
struct Photo {
    std::int64_t id = 0;
    std::int64_t build_id = 0;
    std::optional<std::int64_t> stage_id;
    std::string digest;    ///< SHA-256 of the content, hexadecimal
    std::string file_name; ///< as it was called when it was dropped
    std::optional<std::string> caption;
    std::string added_at; ///< UTC
};

} // namespace rodway
