#pragma once

#include <cstdint>
#include <optional>
#include <string>

namespace rodway {

enum class OpenItemKind { temporary_part, watch, decision, risk, question, other };

/// Something that must not be forgotten: a temporary fastener, a doubtful thread, a risk accepted.
/// It follows the build into the book and to later visits until it is closed.
struct OpenItem {
    std::int64_t id = 0;
    std::int64_t build_id = 0;
    std::optional<std::int64_t> step_id; ///< where it came up
    std::optional<std::int64_t> gate_id; ///< the gate that waits for it
    OpenItemKind kind = OpenItemKind::other;
    std::string title;
    std::optional<std::string> detail;
    std::optional<std::string> position;
    std::optional<std::string> if_it_goes_wrong;
    bool customer_told = false;
    std::optional<std::string> due; ///< ISO date
    std::string opened_by;
    std::string opened_at; ///< UTC
    std::optional<std::string> closed_by;
    std::optional<std::string> closed_at; ///< UTC
    std::optional<std::string> outcome;
    std::optional<std::int64_t> part_id = {}; ///< the temporary part, or the one to watch
};

/// What was chosen, and why.
struct Decision {
    std::int64_t id = 0;
    std::int64_t build_id = 0;
    std::string question;
    std::string choice;
    std::optional<std::string> reason;
    std::string decided_by;
    std::string decided_at; ///< UTC
};

} // namespace rodway
