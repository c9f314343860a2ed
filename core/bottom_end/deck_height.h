#pragma once

#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/bottom_end/size_stack.h"
#include "core/sheets/reading_interval.h"

namespace rodway {

/// A piston at top dead centre against the deck, mm: below it ("in the hole") is positive, above it
/// negative. Rocked to both sides over the pin, since it tips. Empty: not measured.
struct DeckReading {
    int cylinder = 0;
    double along_mm = 0.0; ///< the cylinder's place along the block, from the front; ±5000
    std::optional<Interval> rocked_one_way_mm;
    std::optional<Interval> rocked_other_way_mm;
};

struct DeckCylinder {
    int cylinder = 0;
    std::optional<Interval> below_mm;  ///< mean of both ways; empty: both are needed
    std::optional<Interval> rocked_mm; ///< by how much it tips
};

/// A straight line through the cylinders of one bank, by least squares.
struct DeckLine {
    double front_mm = 0.0;     ///< below the deck at the foremost cylinder
    double rear_mm = 0.0;      ///< at the rearmost
    double worst_off_mm = 0.0; ///< the cylinder furthest from the line: what no straight cut mends
    int worst_cylinder = 0;
};

/// One bank's deck, by its pistons.
struct DeckSurvey {
    std::vector<DeckCylinder> cylinders; ///< as given
    int measured = 0;
    std::optional<int> nearest; ///< the cylinder least below the deck, or furthest above
    std::optional<int> furthest;
    std::optional<Interval> spread_mm; ///< empty for fewer than two
    /// Rear deeper than front, ends as measured, mm; empty for fewer than two.
    std::optional<Interval> taper_mm;
    std::optional<DeckLine> line; ///< empty for fewer than three
};

/// One bank at a time. Errors, `line` counted from 1: too_few_rows ("deck": none); not_a_number,
/// out_of_range ("deck", ±50 mm; "along"); duplicate_field ("cylinder").
Result<DeckSurvey> survey_deck(const std::vector<DeckReading>& bank);

/// What is to be taken off a bank's deck. All mm; negative: it is too low there already, and no cut
/// brings it back.
struct DeckCut {
    /// Parallel to the deck as it is: the nearest piston comes to the target, no other nearer.
    double parallel_mm = 0.0;
    /// Straightened as well: at the foremost and rearmost cylinder, so that the line through the
    /// pistons comes to the target. Empty for fewer than three cylinders.
    std::optional<double> front_mm;
    std::optional<double> rear_mm;
    /// After the straightened cut: how far below the deck the nearest piston is.
    std::optional<double> nearest_below_mm;
};

/// `target_mm`: below the deck is positive; ±20. Errors: those of `survey_deck`; not_a_number,
/// out_of_range ("target"); missing_field ("deck": no cylinder is measured).
Result<DeckCut> deck_cut(const std::vector<DeckReading>& bank, double target_mm);

/// Deck heights of one bank at its corners, from the crank's axis, mm. Empty: not measured.
struct DeckCorners {
    std::optional<Interval> front_inboard_mm;
    std::optional<Interval> front_outboard_mm;
    std::optional<Interval> rear_inboard_mm;
    std::optional<Interval> rear_outboard_mm;
};

/// How a deck lies by its corners. Empty where a corner is missing.
struct DeckLie {
    std::optional<Interval> spread_mm;          ///< highest less lowest of those measured
    std::optional<Interval> rear_higher_mm;     ///< mean of both sides
    std::optional<Interval> outboard_higher_mm; ///< mean of both ends
    /// How far one corner is off the plane through the other three.
    std::optional<Interval> twist_mm;
};

/// Errors: not_a_number, out_of_range ("corner", 20 to 2000 mm).
Result<DeckLie> deck_lie(const DeckCorners& corners);

/// What the pistons should be below the deck: deck height less half the stroke, rod and compression
/// height. The pin stands half a stroke and a rod above the crank's axis at top dead centre
/// (Heywood, eq. 2.5). Errors: those of `stack_of`.
Result<SizeStack> expected_below_deck(const Interval& deck_height_mm, const Interval& stroke_mm,
                                      const Interval& rod_mm,
                                      const Interval& compression_height_mm);

} // namespace rodway
