#include "core/build/caution.h"

#include <algorithm>

namespace rodway {

const std::vector<std::string_view>& cautions() {
    static const std::vector<std::string_view> keys{
        "lifting",  "barring_over", "torque",         "springs",        "solvents",
        "press",    "machining",    "compressed_air", "sealants",       "fuel",
        "ignition", "drill_prime",  "first_start",    "running_engine", "dyno",
    };
    return keys;
}

bool is_caution(std::string_view key) {
    return std::find(cautions().begin(), cautions().end(), key) != cautions().end();
}

} // namespace rodway
