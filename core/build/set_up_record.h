#pragma once

#include <cstdint>
#include <map>
#include <string>

namespace rodway {

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

} // namespace rodway
