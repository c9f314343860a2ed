#include "core/clearance/bowed_rod.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace rodway {

double bow_at_mm(double bow_mm, double station_mm, double length_mm) {
    return bow_mm * std::sin(std::numbers::pi * std::clamp(station_mm / length_mm, 0.0, 1.0));
}

RoundSections bowed_rod(const RoundSections& straight, double bow_mm) {
    // A chord over π/20 of the wave falls short of it by bow·(π/20)²/8.
    constexpr int pieces = 20;
    const double length_mm = straight.empty() ? 0.0 : straight.back().to_mm;
    RoundSections bowed;
    for (const RoundSection& section : straight) {
        const double span_mm = section.to_mm - section.from_mm;
        const int count = std::max(1, static_cast<int>(std::ceil(pieces * span_mm / length_mm)));
        for (int piece = 0; piece < count; ++piece) {
            const double from_mm = section.from_mm + span_mm * piece / count;
            const double to_mm = piece + 1 == count
                                     ? section.to_mm
                                     : section.from_mm + span_mm * (piece + 1) / count;
            bowed.push_back({from_mm, to_mm,
                             section.radius_at(from_mm) + bow_at_mm(bow_mm, from_mm, length_mm),
                             section.radius_at(to_mm) + bow_at_mm(bow_mm, to_mm, length_mm)});
        }
    }
    return bowed;
}

} // namespace rodway
