#pragma once

#include <gtest/gtest.h>

#include <array>
#include <fstream>
#include <iterator>
#include <string>

#include "core/engine/set_up.h"
#include "core/files/set_up_file.h"

namespace rodway {

/// The demo shop's own engines; `resources/demo/NAME.json`.
constexpr std::array<const char*, 3> demo_names{"v8-port-tubes", "inline-six", "flat-four"};

inline std::string bytes_of(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    EXPECT_TRUE(file.good()) << path;
    return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

inline std::string demo_bytes(const std::string& name) {
    std::string path = RODWAY_RESOURCES "/demo/";
    path += name;
    path += ".json";
    return bytes_of(path);
}

inline SetUpFields demo_fields(const std::string& name) {
    const auto fields = read_set_up_file(demo_bytes(name));
    EXPECT_TRUE(fields.ok()) << name;
    return fields.ok() ? *fields : SetUpFields{};
}

/// Stops the test program if the demo set-up isn't good: nothing after it would mean anything.
inline Engine demo_engine(const std::string& name) {
    return *make_engine(demo_fields(name));
}

} // namespace rodway
