#pragma once

#include <optional>

namespace rodway {

enum class Verdict {
    passed,
    passed_little_room, ///< passed, but under 0.015 in: a warning
    passed_for_now,     ///< passed, but under the 0.030 in wanted at mock-up: a note
    too_close_to_call,
    failed,
    contact,        ///< no clearance at all: can't be waived, only cured and measured again
    no_doubt_given, ///< a clearance whose doubt nobody has stated is no ground for a pass
};

[[nodiscard]] bool is_pass(Verdict verdict);

/// The one of two verdicts on the same rod that rules: contact before a fail, a fail before what is
/// open, what is open before a pass, little room before much.
[[nodiscard]] Verdict worse(Verdict a, Verdict b);

/// Limits of a rod in its tube, mm. Common practice, no source; a shop sets its own.
struct RodClearanceLimits {
    double least_mm = 0.254;       ///< 0.010 in
    double little_room_mm = 0.381; ///< 0.015 in
    double wanted_mm = 0.762;      ///< 0.030 in, cold, at mock-up
};

/// Judges a clearance with a guard band as wide as its doubt (JCGM 106:2012): failed if even the
/// most that it may be misses the limit, passed if even the least reaches it, else too close to
/// call. All in mm; `doubt_mm` is ± at about 95 %, empty if nobody has stated it: then a figure
/// under the limit fails by itself, and nothing passes.
[[nodiscard]] Verdict judge(double clearance_mm, std::optional<double> doubt_mm,
                            const RodClearanceLimits& limits);

} // namespace rodway
