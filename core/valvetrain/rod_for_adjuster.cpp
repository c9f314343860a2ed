#include "core/valvetrain/rod_for_adjuster.h"

#include <algorithm>

#include "core/valvetrain/adjuster_setting.h"

namespace rodway {
namespace {

void lengthen_body(Pushrod& rod, double longer_mm) {
    const auto length = [](const RodSection& section) { return section.to_mm - section.from_mm; };
    const auto body = std::max_element(
        rod.profile.begin(), rod.profile.end(),
        [&](const RodSection& a, const RodSection& b) { return length(a) < length(b); });
    if (body == rod.profile.end() || !(length(*body) + longer_mm > 0.0)) {
        return;
    }
    const double body_from = body->from_mm;
    body->to_mm += longer_mm;
    for (RodSection& section : rod.profile) {
        if (section.from_mm > body_from) {
            section.from_mm += longer_mm;
            section.to_mm += longer_mm;
        }
    }
}

} // namespace

std::optional<double> rod_for_adjuster_mm(Train train, double in_mm) {
    train.adjuster.can_go_in_mm = std::max(0.0, in_mm);
    train.adjuster.can_go_out_mm = std::max(0.0, -in_mm);
    const auto lengths = rod_lengths(train);
    if (!lengths) {
        return std::nullopt;
    }
    return in_mm > 0.0 ? lengths->shortest_mm : lengths->longest_mm;
}

void fit_rod(Train& train, double length_mm) {
    const double longer_mm = length_mm - train.rod.length_mm;
    train.rod.length_mm = length_mm;
    lengthen_body(train.rod, longer_mm);
}

} // namespace rodway
