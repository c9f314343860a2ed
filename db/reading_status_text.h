#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/build/records.h"

namespace rodway {

/// The word that the shop file and its history use for a status.
[[nodiscard]] std::string to_edit_text(ReadingStatus status);
[[nodiscard]] std::optional<ReadingStatus> reading_status_from(std::string_view word);

/// All words, parted by ", ".
[[nodiscard]] std::string reading_status_words();

/// The words in the order of the statuses.
[[nodiscard]] std::vector<std::string_view> reading_status_choices();

/// Whether a reading of this status is nothing without a number.
[[nodiscard]] bool needs_text(ReadingStatus status);

} // namespace rodway
