#pragma once

#include <string_view>
#include <vector>

namespace rodway {

/// What a settings card speaks of, in its order.
enum class SettingsTopic { lash, ignition, fuel, oil, cooling, torque, break_in };

/// Where a topic's figures come from: quantities of the sheets, and parts by their role.
struct SettingsGroup {
    SettingsTopic topic = SettingsTopic::lash;
    std::vector<std::string_view> quantities;
    std::vector<std::string_view> part_roles;
    /// Of these one at least must be known, or the card lacks something: see `missing_for_book`.
    /// Empty: nobody would miss it.
    std::vector<std::string_view> wanted;
};

[[nodiscard]] const std::vector<SettingsGroup>& settings_groups();

} // namespace rodway
