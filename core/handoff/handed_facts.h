#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/build/build_facts.h"
#include "core/clearance/survey.h"

namespace rodway {

/// One thing that a book said when it was given away. What it is called never changes: "reading
/// lash_hot 3I", "part 12", "open_item 4".
struct HandedFact {
    std::string name;
    std::string value;

    bool operator==(const HandedFact&) const = default;
};

/// What a build's book says, as a later one is compared with it: readings that count, least
/// clearances (in, to the ten-thousandth), parts, stages signed off, items open and closed,
/// waivers, decisions, and what the customer answered. By name.
struct HandedSources {
    const BuildFacts& work;
    const std::vector<Reading>& readings; ///< in the order taken
    const std::vector<Decision>& decisions;
    const std::vector<ValveClearance>& clearances;
};
[[nodiscard]] std::vector<HandedFact> handed_facts(const HandedSources& sources);

/// As a record keeps them: a line each, name and value with a tab between them.
[[nodiscard]] std::string handed_text(const std::vector<HandedFact>& facts);
/// Error: wrong_format, `line` the one without a tab.
Result<std::vector<HandedFact>> read_handed_text(std::string_view text);

/// What is different now; what is only in one has nothing on the other side. By name.
struct HandedChange {
    std::string name;
    std::optional<std::string> before;
    std::optional<std::string> now;
};
[[nodiscard]] std::vector<HandedChange> handed_changes(const std::vector<HandedFact>& before,
                                                       const std::vector<HandedFact>& now);

} // namespace rodway
