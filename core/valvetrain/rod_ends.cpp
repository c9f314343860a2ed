#include "core/valvetrain/rod_ends.h"

#include <string>
#include <string_view>

#include "core/units/typed_text.h"

namespace rodway {
namespace {

/// A size as the set-up calls it, and as pushrod_length.h does.
struct SizeName {
    std::string_view measured;
    std::string_view in_set_up;
};
constexpr SizeName size_names[] = {{"lower/ball_diameter", "lower_ball"},
                                   {"upper/ball_diameter", "upper_ball"},
                                   {"upper/cup_depth", "cup_depth"},
                                   {"upper/kind", "top_end"}};

Error in_set_up_names(Error error) {
    for (const SizeName& name : size_names) {
        if (error.field == name.measured) {
            error.field = name.in_set_up;
        }
    }
    return error;
}

Error missing(const char* field) {
    return {ErrorCode::missing_field, field, {}, {}, {}, {}};
}

} // namespace

Result<double> beyond_centres_mm(const Pushrod& rod, LengthDefinition definition) {
    if (definition == LengthDefinition::between_centres) {
        return 0.0;
    }
    if (definition == LengthDefinition::gauge && rod.cup_at_top) {
        return Error{ErrorCode::not_a_choice, "top_end", "cup", "ball", {}, {}};
    }
    if (!rod.lower_ball_diameter_mm) {
        return missing("lower_ball");
    }
    if (!rod.upper_ball_diameter_mm) {
        return missing("upper_ball");
    }
    RodEnds ends;
    ends.lower.ball_diameter_mm = *rod.lower_ball_diameter_mm;
    ends.upper.ball_diameter_mm = *rod.upper_ball_diameter_mm;
    if (rod.cup_at_top) {
        ends.upper.kind = RodEndKind::cup;
        ends.upper.cup_depth_mm = rod.cup_depth_mm;
    }
    const auto beyond = beyond_centres_mm(ends, LengthMeasure{definition, rod.gauge_hole_mm});
    return beyond ? beyond : Result<double>(in_set_up_names(beyond.error()));
}

Result<double> centres_length_mm(double length_mm, const Pushrod& rod,
                                 LengthDefinition definition) {
    const auto beyond = beyond_centres_mm(rod, definition);
    if (!beyond) {
        return beyond;
    }
    const double centres = length_mm - *beyond;
    if (!(centres >= shortest_rod_mm && centres <= longest_rod_mm)) {
        return Error{ErrorCode::out_of_range,
                     "length",
                     exact_text(length_mm),
                     {},
                     {},
                     Limits{shortest_rod_mm + *beyond, longest_rod_mm + *beyond, "mm"}};
    }
    return centres;
}

} // namespace rodway
