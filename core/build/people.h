#pragma once

#include <cstdint>
#include <optional>
#include <string>

namespace rodway {

/// Somebody who works in the shop. Edits carry the initials.
struct Person {
    std::int64_t id = 0;
    std::string name;
    std::optional<std::string> initials;
    std::optional<std::string> role;
    std::optional<std::string> left; ///< ISO date of the last day
    std::optional<std::string> note;
};

/// Somebody whose engines are built here. All of it is personal and can be erased, see
/// `db/erasure`.
struct Customer {
    std::int64_t id = 0;
    std::string name;
    std::optional<std::string> phone;
    std::optional<std::string> email;
    std::optional<std::string> address;
    std::optional<std::string> note;
    std::optional<std::string> erased; ///< UTC time when the personal data were erased
};

/// A micrometer, bore gauge, torque wrench, burette, ...
struct Instrument {
    std::int64_t id = 0;
    std::string name;
    std::optional<std::string> measures;   ///< what and over which range
    std::optional<std::string> resolution; ///< as typed, with its unit
    std::optional<std::string> serial_number;
    std::optional<std::string> calibrated;      ///< ISO date
    std::optional<std::string> calibration_due; ///< ISO date
    std::optional<std::string> retired;         ///< ISO date
    std::optional<std::string> note;
};

/// Something the shop prints on its papers: its name, its address, the file of its sign.
struct ShopDetail {
    std::int64_t id = 0;
    std::string name;
    std::string content;
};

} // namespace rodway
