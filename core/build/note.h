#pragma once

#include <cstdint>
#include <optional>
#include <string>

namespace rodway {

/// A few words about a build, a step or a place on the engine.
struct Note {
    std::int64_t id = 0;
    std::int64_t build_id = 0;
    std::optional<std::int64_t> stage_id;
    std::optional<std::int64_t> step_id;
    std::optional<std::int64_t> sheet_id;
    std::optional<std::string> position;
    std::string text;
    bool in_book = false;
    std::string written_by;
    std::string written_at; ///< UTC
    std::optional<std::int64_t> part_id = {};
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
    std::optional<std::int64_t> step_id = {};
    std::optional<std::int64_t> reading_id = {}; ///< the reading it shows
    std::optional<std::string> position = {};
    bool in_book = false;
    std::optional<std::string> added_by = {};
    std::optional<std::string> taken_at = {}; ///< UTC, from the camera
    std::optional<std::int64_t> part_id = {};
    std::optional<std::int64_t> sheet_id = {};
};

} // namespace rodway
