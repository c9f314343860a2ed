#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/bottom_end/bearing_clearance.h"

namespace rodway {

/// A micrometer read one turn of its thimble out, or one number of its sleeve.
enum class SlipOf {
    inch_micrometer,   ///< .025 in a turn, .100 in a number
    metric_micrometer, ///< 0.5 mm a turn
};

/// What the bearings are meant to be, if it is known: all of them alike.
struct BearingNominal {
    std::optional<double> journal_mm;
    std::optional<double> bore_mm;    ///< shells in
    std::optional<double> housing_mm; ///< without shells
    std::optional<double> clearance_mm;
};

enum class MeasuredSize { journal, bore, housing };

enum class SlipSuspect {
    readings,      ///< some readings of one size, the others of it are right
    whole_size,    ///< all readings of one size of one bearing
    nominal,       ///< no reading: all bearings are off alike, or the clearance is as it should be,
                   ///< so another nominal size (a reground shaft) is more likely
    some_readings, ///< readings of one size fall into two halves; nothing says which is right
    either,        ///< journal or bore; nothing says which
};

/// What a reading was found to be off against.
enum class SlipAgainst {
    mates,    ///< other readings of the same size, of this bearing or of the others
    nominal,  ///< what it is meant to be
    clearance ///< what goes with it: the clearance is off by a slip
};

struct SlipFinding {
    std::string bearing; ///< empty: all of them
    SlipSuspect suspect = SlipSuspect::readings;
    std::optional<MeasuredSize> size;  ///< empty: journal or bore
    std::vector<std::size_t> readings; ///< indices, of the suspected ones
    /// The suspect reads too large by so much, exactly a slip, mm; negative: too small. With
    /// either: the clearance comes out too large by it.
    double too_large_mm = 0.0;
    std::vector<SlipAgainst> against;
};

/// How near to a slip a difference must come to be one: honest sizes of one kind are no further
/// apart than this. .0015 in is common practice, no source.
constexpr double slip_within_mm = 0.0381;

/// Finds readings that are off by exactly a slip: among readings of one size, against nominal,
/// against the other bearings, and where the clearance comes out a slip too large or small. The
/// likeliest culprit is what most of these point to. The bearings must be meant to be alike: rods
/// together, mains together, cam bearings of different sizes one by one.
/// Errors: those of `bearing_clearance`; not_a_number, out_of_range ("nominal/journal",
/// "nominal/bore", "nominal/housing", 5 to 1000 mm; "nominal/clearance", 0 to 1 mm).
Result<std::vector<SlipFinding>> find_slips(const std::vector<BearingReadings>& bearings,
                                            const BearingNominal& nominal, SlipOf slip);

} // namespace rodway
