#pragma once

#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/fasteners/thread.h"
#include "core/sheets/reading_interval.h"
#include "core/units/figure_band.h"
#include "core/units/force.h"

namespace rodway {

/// A length of a bolt of one cross-section: only what is pulled counts, from under the head to
/// where the thread holds.
struct BoltSection {
    double length_mm = 0.0; ///< 0 to 1000
    double area_mm2 = 0.0;  ///< 1 to 5000
};

/// Modulus of elasticity of carbon steel, 207 GPa. Source: Shigley, table A-5.
constexpr double steel_modulus_MPa = 207000.0;

/// A plain shank, and the free threads behind it at the thread's stress area (Shigley, table 8-7).
/// A waisted bolt has more sections: add them.
[[nodiscard]] std::vector<BoltSection> bolt_sections(const Thread& thread, double plain_length_mm,
                                                     double plain_diameter_mm,
                                                     double free_thread_length_mm);

/// Stiffness of sections in a row, N/mm: 1/Σ(L/(A·E)) (Shigley, eq. 4-4). `modulus_MPa` 10 000 to
/// 500 000. Errors: too_few_rows (none of any length), not_a_number, out_of_range; fields
/// "section/length", "section/area" (`line` counted from 1), "modulus".
Result<double> bolt_stiffness_N_per_mm(const std::vector<BoltSection>& sections,
                                       double modulus_MPa = steel_modulus_MPa);

/// How much longer a bolt is under a preload, mm: F·Σ(L/(A·E)) (Shigley, eq. 4-3), as long as it
/// doesn't yield. Errors: as above; "preload" (0 to 1000 kN).
Result<double> stretch_at_preload_mm(Force preload, const std::vector<BoltSection>& sections,
                                     double modulus_MPa = steel_modulus_MPa);

/// Preload of a bolt that is so much longer than free; `stretch_mm` 0 to 10, from an interval of
/// readings an interval of preloads, N. Errors: as above; "stretch".
Result<Interval> preload_at_stretch_N(const Interval& stretch_mm,
                                      const std::vector<BoltSection>& sections,
                                      double modulus_MPa = steel_modulus_MPa);

/// Most that a bolt may stay longer than it was new. .001 in is common practice, no source; the
/// maker's figure rules.
struct SetLimit {
    double most_mm = 0.0254;
    FigureSource source = FigureSource::common_practice;
};

enum class SetStanding {
    none_seen, ///< the readings' doubt alone explains the difference
    within,    ///< it stayed longer, but within the limit
    too_close_to_call,
    beyond,  ///< it yielded: not to be used again
    shorter, ///< shorter than new: another bolt, or a wrong reading
};

/// A bolt's free length now, beside what it was new.
struct PermanentSet {
    Interval set_mm; ///< now less new
    SetStanding standing = SetStanding::none_seen;
};

/// Errors: not_a_number, out_of_range; fields "new_length", "length_now" (1 to 1000 mm), "limit" (0
/// to 5).
Result<PermanentSet> permanent_set(const Interval& new_length_mm, const Interval& length_now_mm,
                                   const SetLimit& limit = {});

} // namespace rodway
