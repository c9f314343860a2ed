#include "core/fasteners/bolt_stretch.h"

#include <numbers>

#include "core/units/within.h"

namespace rodway {
namespace {

/// Differences of lengths typed in inches don't come out even; a limit met to this is met.
constexpr double rounding_mm = 1e-6;

Result<double> compliance_mm_per_N(const std::vector<BoltSection>& sections, double modulus_MPa) {
    if (auto bad = outside("modulus", modulus_MPa, {10000.0, 500000.0, "MPa"})) {
        return *bad;
    }
    double sum_per_mm = 0.0;
    for (std::size_t at = 0; at < sections.size(); ++at) {
        const int line = static_cast<int>(at) + 1;
        const BoltSection& section = sections[at];
        if (auto bad = outside("section/length", section.length_mm, {0.0, 1000.0, "mm"}, line)) {
            return *bad;
        }
        if (auto bad = outside("section/area", section.area_mm2, {1.0, 5000.0, "mm2"}, line)) {
            return *bad;
        }
        sum_per_mm += section.length_mm / section.area_mm2;
    }
    if (sum_per_mm <= 0.0) {
        return Error{ErrorCode::too_few_rows, "section/length", "0", "1", {}, {}};
    }
    return sum_per_mm / modulus_MPa;
}

SetStanding standing_of(const Interval& set_mm, double most_mm) {
    if (set_mm.high < -rounding_mm) {
        return SetStanding::shorter;
    }
    if (set_mm.low > most_mm + rounding_mm) {
        return SetStanding::beyond;
    }
    if (set_mm.high > most_mm + rounding_mm) {
        return SetStanding::too_close_to_call;
    }
    return set_mm.low > rounding_mm ? SetStanding::within : SetStanding::none_seen;
}

} // namespace

std::vector<BoltSection> bolt_sections(const Thread& thread, double plain_length_mm,
                                       double plain_diameter_mm, double free_thread_length_mm) {
    const double plain_area_mm2 = std::numbers::pi / 4.0 * plain_diameter_mm * plain_diameter_mm;
    std::vector<BoltSection> sections;
    if (plain_length_mm != 0.0) {
        sections.push_back({plain_length_mm, plain_area_mm2});
    }
    if (free_thread_length_mm != 0.0) {
        sections.push_back({free_thread_length_mm, thread.stress_area_mm2()});
    }
    return sections;
}

Result<double> bolt_stiffness_N_per_mm(const std::vector<BoltSection>& sections,
                                       double modulus_MPa) {
    const auto compliance = compliance_mm_per_N(sections, modulus_MPa);
    return compliance ? Result<double>(1.0 / *compliance) : compliance.error();
}

Result<double> stretch_at_preload_mm(Force preload, const std::vector<BoltSection>& sections,
                                     double modulus_MPa) {
    if (auto bad = outside("preload", preload.in_N(), {0.0, 1e6, "N"})) {
        return *bad;
    }
    const auto compliance = compliance_mm_per_N(sections, modulus_MPa);
    return compliance ? Result<double>(preload.in_N() * *compliance) : compliance.error();
}

Result<Interval> preload_at_stretch_N(const Interval& stretch_mm,
                                      const std::vector<BoltSection>& sections,
                                      double modulus_MPa) {
    if (auto bad = wrong_interval("stretch", stretch_mm, {0.0, 10.0, "mm"})) {
        return *bad;
    }
    const auto compliance = compliance_mm_per_N(sections, modulus_MPa);
    return compliance ? Result<Interval>(stretch_mm * (1.0 / *compliance)) : compliance.error();
}

Result<PermanentSet> permanent_set(const Interval& new_length_mm, const Interval& length_now_mm,
                                   const SetLimit& limit) {
    const Limits lengths{1.0, 1000.0, "mm"};
    if (auto bad = wrong_interval("new_length", new_length_mm, lengths)) {
        return *bad;
    }
    if (auto bad = wrong_interval("length_now", length_now_mm, lengths)) {
        return *bad;
    }
    if (auto bad = outside("limit", limit.most_mm, {0.0, 5.0, "mm"})) {
        return *bad;
    }
    const Interval set_mm = length_now_mm - new_length_mm;
    return PermanentSet{set_mm, standing_of(set_mm, limit.most_mm)};
}

} // namespace rodway
