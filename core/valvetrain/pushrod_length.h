#pragma once

#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/engine/valve_position.h"

namespace rodway {

/// A pushrod's length by each of the definitions in use, and which lengths to order for a set of
/// valves. All lengths in mm. The definitions are common practice without a standard: a length is
/// worth nothing without the name of its definition.

enum class RodEndKind {
    ball, ///< the rod ends in a ball
    cup,  ///< the rod ends in a cup, in which another part's ball sits
};

/// One end of a rod.
struct RodEnd {
    RodEndKind kind = RodEndKind::ball;
    double ball_diameter_mm = 0.0;      ///< of the ball, or of the ball that sits in the cup
    std::optional<double> cup_depth_mm; ///< of a cup: from its lip to its bottom
};

struct RodEnds {
    RodEnd lower;
    RodEnd upper;
};

enum class LengthDefinition {
    between_centres, ///< centre of ball to centre of ball, a cup's being that of the ball in it
    overall,         ///< what callipers over all span: tip of a ball, lip of a cup
    effective,       ///< tip of a ball, bottom of a cup
    gauge,           ///< between two gauges whose holes seat on the balls
};

/// How a length is measured.
struct LengthMeasure {
    LengthDefinition definition = LengthDefinition::between_centres;
    std::optional<double> gauge_hole_mm; ///< of both gauges, such as 3.556 (0.140 in)
};

/// What a measure adds to the length between centres, mm; negative where it takes away. For each
/// end, with ball radius r: overall, ball: r; overall, cup of depth c: c - r; effective, ball: r;
/// effective, cup: -r; gauge with hole g: √(r² - (g/2)²), the plane in which the hole's edge
/// touches the ball.
/// Errors: out_of_range (`lower/ball_diameter`, `upper/cup_depth`, …: ball 2 to 30 mm; cup depth
/// above 0, up to the ball's diameter; `gauge_hole` above 0, smaller than each ball), missing_field
/// (`upper/cup_depth`, `gauge_hole`), not_a_choice (`upper/kind`: a gauge needs a ball at each
/// end).
Result<double> beyond_centres_mm(const RodEnds& ends, const LengthMeasure& measure);

/// A length measured one way, as measured another. Errors: as `beyond_centres_mm`, and out_of_range
/// (`length`: no number, above 1000 mm, or so short that nothing is left between the centres).
Result<double> convert_length_mm(double length_mm, const RodEnds& ends, const LengthMeasure& from,
                                 const LengthMeasure& to);

/// A length beside the stocked lengths next to it.
struct SteppedLength {
    double down_mm = 0.0;    ///< the longest stocked length that is not longer
    double up_mm = 0.0;      ///< the shortest that is not shorter
    double nearest_mm = 0.0; ///< of the two; halfway between them, the longer
    double left_mm = 0.0;    ///< nearest less the length wanted
};

/// Stocked lengths are the multiples of a step, such as 1.27 mm (0.050 in). A length within a
/// millionth of a step of one counts as that one.
/// Errors: out_of_range (`length`, 0 to 1000 mm; `step`, 0.01 to 100 mm).
Result<SteppedLength> round_to_step(double length_mm, double step_mm);

/// In which lengths rods are to be had.
struct Stock {
    double step_mm = 0.0;
    /// What the definition in which they are stocked adds to the length between centres.
    double beyond_centres_mm = 0.0;
};

/// The rod one valve wants, between centres, and how far its adjuster or plunger can still do with
/// a shorter and with a longer one.
struct RequiredLength {
    ValvePosition valve;
    double centres_mm = 0.0;
    double may_be_shorter_mm = 0.0;
    double may_be_longer_mm = 0.0;
};

/// One valve with the rod it gets.
struct FittedLength {
    ValvePosition valve;
    double centres_mm = 0.0;      ///< of the rod it gets
    double shorter_left_mm = 0.0; ///< how much shorter that rod could still be
    double longer_left_mm = 0.0;  ///< how much longer
};

/// One length for all valves.
struct SingleLength {
    double centres_mm = 0.0;
    std::vector<FittedLength> valves; ///< in the order given; what is left may be negative here
};

struct LengthSurvey {
    double shortest_mm = 0.0; ///< of the lengths required, between centres
    double longest_mm = 0.0;
    double spread_mm = 0.0;
    /// The middle between shortest and longest, moved no further than it takes to suit all valves
    /// where one length does.
    SingleLength best_single;
    bool one_length_suits_all = false;
    /// The stocked length next to that which suits all; empty if none does, or no stock was given.
    std::optional<SingleLength> stocked_single;
    /// The fewest lengths (stocked ones, if stock was given) with which every valve can do, and
    /// which valve takes which. Each length is as near the middle of what its valves want as they
    /// allow. Shortest first.
    std::vector<double> lengths_mm;
    std::vector<FittedLength> valves; ///< in the order given, less those that none can serve
    std::vector<ValvePosition> no_stocked_length; ///< valves between two stocked lengths
};

/// Which lengths a set of valves needs. The fewest are found by taking, again and again, the
/// longest length that the valve with the shortest upper limit allows (stabbing of intervals;
/// Kleinberg and Tardos, Algorithm Design, ch. 4, from memory: the greedy choice stays ahead).
/// Errors: too_few_rows (none), duplicate_field (a valve twice), out_of_range (`centres`,
/// `may_be_shorter`, `may_be_longer`, `step`, `beyond_centres`).
Result<LengthSurvey> survey_lengths(const std::vector<RequiredLength>& required,
                                    const std::optional<Stock>& stock = {});

} // namespace rodway
