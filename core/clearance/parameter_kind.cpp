#include "core/clearance/parameter_kind.h"

#include <utility>

#include "core/base/assert.h"

namespace rodway {
namespace {

using Kind = ParameterKind;

constexpr std::array<std::pair<Kind, std::string_view>, 27> names{{
    {Kind::lifter_height, "lifter_height"},
    {Kind::lifter_rearward, "lifter_rearward"},
    {Kind::lifter_outboard, "lifter_outboard"},
    {Kind::lifter_lean_rearward, "lifter_lean_rearward"},
    {Kind::lifter_lean_outboard, "lifter_lean_outboard"},
    {Kind::base_circle, "base_circle"},
    {Kind::lobe_lift, "lobe_lift"},
    {Kind::rod_length, "rod_length"},
    {Kind::rod_diameter, "rod_diameter"},
    {Kind::pivot_height, "pivot_height"},
    {Kind::pivot_outboard, "pivot_outboard"},
    {Kind::pivot_rearward, "pivot_rearward"},
    {Kind::tip_arm_length, "tip_arm_length"},
    {Kind::shaft_tilt_up, "shaft_tilt_up"},
    {Kind::shaft_tilt_outboard, "shaft_tilt_outboard"},
    {Kind::ball_arm_length, "ball_arm_length"},
    {Kind::lash, "lash"},
    {Kind::adjuster, "adjuster"},
    {Kind::intake_gasket, "intake_gasket"},
    {Kind::head_gasket, "head_gasket"},
    {Kind::passage_rearward, "passage_rearward"},
    {Kind::passage_outboard, "passage_outboard"},
    {Kind::passage_slide, "passage_slide"},
    {Kind::passage_lean_rearward, "passage_lean_rearward"},
    {Kind::passage_lean_outboard, "passage_lean_outboard"},
    {Kind::passage_bore, "passage_bore"},
    {Kind::obstacle_away, "obstacle_away"},
}};

} // namespace

const std::array<ParameterKind, names.size()>& parameter_kinds() {
    static constexpr auto kinds = [] {
        std::array<ParameterKind, names.size()> all{};
        for (std::size_t at = 0; at < names.size(); ++at) {
            all[at] = names[at].first;
        }
        return all;
    }();
    return kinds;
}

std::string_view parameter_name(ParameterKind kind) {
    for (const auto& [known, name] : names) {
        if (known == kind) {
            return name;
        }
    }
    RODWAY_ASSERT(false);
    return {};
}

std::optional<ParameterKind> parameter_called(std::string_view name) {
    for (const auto& [kind, known] : names) {
        if (known == name) {
            return kind;
        }
    }
    return std::nullopt;
}

bool is_angle(ParameterKind kind) {
    switch (kind) {
        case ParameterKind::lifter_lean_rearward:
        case ParameterKind::lifter_lean_outboard:
        case ParameterKind::shaft_tilt_up:
        case ParameterKind::shaft_tilt_outboard:
        case ParameterKind::passage_lean_rearward:
        case ParameterKind::passage_lean_outboard:
            return true;
        default:
            return false;
    }
}

} // namespace rodway
