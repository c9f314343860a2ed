#include "core/valvetrain/lash_setting.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <string>

#include "core/units/length.h"
#include "core/units/typed_text.h"

namespace rodway {
namespace {

constexpr double least_ratio = 0.5;
constexpr double greatest_ratio = 4.0;
constexpr double greatest_lash_mm = 5.0;
constexpr double greatest_offset_mm = 2.0;
constexpr double greatest_gap_mm = 50.0;
constexpr double greatest_travel_mm = 1000.0;
constexpr double greatest_turns = 1000.0;

Error outside(const char* field, double value, double low, double high, const char* unit) {
    return {ErrorCode::out_of_range, field, exact_text(value), {}, {}, Limits{low, high, unit}};
}

/// One number to be checked before it is used.
struct Checked {
    const char* field;
    double value;
    double low;
    double high;
    const char* unit;
};

template <std::size_t N>
std::optional<Error> first_outside(const std::array<Checked, N>& inputs) {
    for (const Checked& input : inputs) {
        if (!(input.value >= input.low && input.value <= input.high)) {
            return outside(input.field, input.value, input.low, input.high, input.unit);
        }
    }
    return std::nullopt;
}

Checked pitch_input(double pitch_mm) {
    return {"pitch", pitch_mm, finest_pitch_mm, coarsest_pitch_mm, "mm"};
}
Checked ratio_input(double ratio) {
    return {"ratio", ratio, least_ratio, greatest_ratio, ""};
}
Checked gap_input(const char* field, double mm) {
    return {field, mm, -greatest_gap_mm, greatest_gap_mm, "mm"};
}

std::string trimmed_lower(std::string_view text) {
    std::string plain(text);
    std::transform(plain.begin(), plain.end(), plain.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    const auto first = plain.find_first_not_of(" \t\r\n");
    return first == std::string::npos
               ? std::string()
               : plain.substr(first, plain.find_last_not_of(" \t\r\n") - first + 1);
}

bool digits_only(std::string_view text) {
    return !text.empty() && text.size() <= 4 && std::all_of(text.begin(), text.end(), [](char c) {
        return std::isdigit(static_cast<unsigned char>(c));
    });
}

/// Threads per inch from "18 tpi", "5/16-18", "#10-32"; the size in front must be a fraction or a
/// number size.
std::optional<double> threads_per_inch(const std::string& text) {
    const auto number = [](std::string_view digits) { return *parse_number(digits); };
    if (text.size() > 3 && text.ends_with("tpi")) {
        const std::string count = trimmed_lower(text.substr(0, text.size() - 3));
        return digits_only(count) ? std::optional(number(count)) : std::nullopt;
    }
    const std::size_t dash = text.find('-');
    if (dash == std::string::npos) {
        return std::nullopt;
    }
    const std::string_view count = std::string_view(text).substr(dash + 1);
    std::string_view size = std::string_view(text).substr(0, dash);
    if (size.starts_with('#')) {
        size.remove_prefix(1);
    }
    const std::size_t slash = size.find('/');
    const bool fraction = slash != std::string_view::npos && digits_only(size.substr(0, slash)) &&
                          digits_only(size.substr(slash + 1));
    const bool a_size = fraction || digits_only(size);
    return a_size && digits_only(count) ? std::optional(number(count)) : std::nullopt;
}

/// Pitch from "M8x1.0", "m8 x 1,25".
std::optional<double> metric_pitch_mm(const std::string& text) {
    const std::size_t by = text.find('x');
    if (!text.starts_with('m') || by == std::string::npos) {
        return std::nullopt;
    }
    const auto size = parse_number(text.substr(1, by - 1));
    const auto pitch = parse_number(text.substr(by + 1));
    return size && pitch && *size > 0.0 ? std::optional(*pitch) : std::nullopt;
}

} // namespace

Result<double> parse_thread_pitch(std::string_view text) {
    const std::string plain = trimmed_lower(text);
    const auto checked = [&](double pitch_mm) -> Result<double> {
        if (!(pitch_mm >= finest_pitch_mm && pitch_mm <= coarsest_pitch_mm)) {
            return Error{ErrorCode::out_of_range,
                         "pitch",
                         std::string(text),
                         {},
                         {},
                         Limits{finest_pitch_mm, coarsest_pitch_mm, "mm"}};
        }
        return pitch_mm;
    };
    if (const auto threads = threads_per_inch(plain)) {
        return checked(*threads > 0.0 ? Length::mm_per_inch / *threads : 0.0);
    }
    if (const auto pitch = metric_pitch_mm(plain)) {
        return checked(*pitch);
    }
    const auto length = parse_length(text, BareNumber::refused);
    if (!length) {
        return length.error();
    }
    if (length->is_interval()) {
        return Error{ErrorCode::not_a_length, "pitch", std::string(text), {}, {}, {}};
    }
    return checked(length->low.in_mm());
}

Result<double> thread_travel_mm(double pitch_mm, double turned_deg) {
    constexpr double furthest_deg = 360.0 * greatest_turns;
    if (const auto wrong = first_outside(
            std::array{pitch_input(pitch_mm),
                       Checked{"turned", turned_deg, -furthest_deg, furthest_deg, "deg"}})) {
        return *wrong;
    }
    return pitch_mm * turned_deg / 360.0;
}

Result<ScrewTurn> turn_for_travel(double pitch_mm, double travel_mm) {
    if (const auto wrong = first_outside(std::array{
            pitch_input(pitch_mm),
            Checked{"travel", travel_mm, -greatest_travel_mm, greatest_travel_mm, "mm"}})) {
        return *wrong;
    }
    const double turns = travel_mm / pitch_mm;
    return ScrewTurn{turns, 360.0 * turns};
}

Result<double> nut_lever_rule_of_thumb(double rocker_ratio) {
    if (const auto wrong = first_outside(std::array{ratio_input(rocker_ratio)})) {
        return *wrong;
    }
    return 1.0 + 1.0 / rocker_ratio;
}

Result<double> preload_rule_of_thumb_mm(double pitch_mm, double turns, double rocker_ratio) {
    if (const auto wrong =
            first_outside(std::array{pitch_input(pitch_mm), Checked{"turns", turns, -greatest_turns,
                                                                    greatest_turns, "turns"}})) {
        return *wrong;
    }
    const auto factor = nut_lever_rule_of_thumb(rocker_ratio);
    if (!factor) {
        return factor;
    }
    return pitch_mm * turns * *factor;
}

double published_cold_less_hot_mm(EngineMetals metals) {
    switch (metals) {
        case EngineMetals::iron:
            return Length::inches(0.002).in_mm();
        case EngineMetals::iron_block_aluminium_heads:
            return Length::inches(-0.006).in_mm();
        case EngineMetals::aluminium:
            break;
    }
    return Length::inches(-0.012).in_mm();
}

Result<ColdLash> cold_lash(double hot_lash_mm, const std::optional<double>& own_cold_less_hot_mm,
                           const std::optional<EngineMetals>& metals) {
    if (const auto wrong =
            first_outside(std::array{Checked{"hot_lash", hot_lash_mm, 0.0, greatest_lash_mm, "mm"},
                                     Checked{"own_offset", own_cold_less_hot_mm.value_or(0.0),
                                             -greatest_offset_mm, greatest_offset_mm, "mm"}})) {
        return *wrong;
    }
    if (!own_cold_less_hot_mm && !metals) {
        return Error{ErrorCode::missing_field, "offset", {}, {}, {}, {}};
    }
    ColdLash lash;
    lash.source =
        own_cold_less_hot_mm ? LashOffsetSource::own_measured : LashOffsetSource::published;
    lash.cold_less_hot_mm =
        own_cold_less_hot_mm ? *own_cold_less_hot_mm : published_cold_less_hot_mm(*metals);
    const double cold = hot_lash_mm + lash.cold_less_hot_mm;
    if (cold >= 0.0) {
        lash.cold_mm = cold;
    }
    return lash;
}

Result<double> measured_cold_less_hot_mm(double cold_lash_mm, double hot_lash_mm) {
    if (const auto wrong = first_outside(
            std::array{Checked{"cold_lash", cold_lash_mm, 0.0, greatest_lash_mm, "mm"},
                       Checked{"hot_lash", hot_lash_mm, 0.0, greatest_lash_mm, "mm"}})) {
        return *wrong;
    }
    return cold_lash_mm - hot_lash_mm;
}

Result<double> dry_clearance_with_rod_mm(double dry_clearance_mm, double rod_longer_mm,
                                         double rocker_ratio) {
    if (const auto wrong = first_outside(std::array{gap_input("dry_clearance", dry_clearance_mm),
                                                    gap_input("rod_longer", rod_longer_mm),
                                                    ratio_input(rocker_ratio)})) {
        return *wrong;
    }
    return dry_clearance_mm - rod_longer_mm * rocker_ratio;
}

Result<RodChange> rod_change_for_dry_clearance(double dry_clearance_mm, double low_mm,
                                               double high_mm, double rocker_ratio) {
    if (const auto wrong = first_outside(std::array{
            gap_input("dry_clearance", dry_clearance_mm), gap_input("low", low_mm),
            Checked{"high", high_mm, low_mm, greatest_gap_mm, "mm"}, ratio_input(rocker_ratio)})) {
        return *wrong;
    }
    return RodChange{(dry_clearance_mm - high_mm) / rocker_ratio,
                     (dry_clearance_mm - low_mm) / rocker_ratio};
}

} // namespace rodway
