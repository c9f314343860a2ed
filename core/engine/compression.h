#pragma once

#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/engine/displacement.h"
#include "core/units/bounded.h"

namespace rodway {

/// Compression, cylinder by cylinder. Volumes are cc, lengths mm. Every result is bounded: see
/// `worst_case` (`core/units/bounded.h`) for what its low and high mean.

/// A head gasket as fitted. Its room is its bore times its compressed thickness, or a volume that
/// is stated; with a volume, the thickness is wanted for the quench alone.
struct HeadGasket {
    std::optional<Bounded> compressed_mm; ///< 0 to 20
    std::optional<Bounded> bore_mm;       ///< 10 to 1000; not together with `volume_cc`
    std::optional<Bounded> volume_cc;     ///< 0 to 5000
};

/// One cylinder with its piston at top dead centre: all that makes the room left over it.
///
/// A piston's dome and dish are two fields, both 0 or more, because the trade writes a signed
/// volume both ways round: a dome takes room away, a dish (and valve reliefs) gives room.
struct CylinderAtTop {
    BoreAndStroke size;
    Bounded chamber_cc; ///< 0 to 20 000
    Bounded dome_cc;    ///< above the crown's edge: takes room away; 0 to 5000
    Bounded dish_cc;    ///< dish and reliefs below the crown's edge: gives room; 0 to 5000
    HeadGasket gasket;
    /// Of the piston's edge from the block's face, -50 to 50: positive below it, negative where
    /// the piston stands proud of it. Counts over the whole bore.
    Bounded deck_mm;
    Bounded crevice_cc; ///< round the piston down to its top ring, 0 to 500
};

/// One cylinder's compression.
struct Compression {
    Bounded swept_cc;
    Bounded gasket_cc;
    Bounded deck_cc;      ///< below 0 where the piston stands proud
    Bounded clearance_cc; ///< all the room left at top dead centre
    Bounded ratio;        ///< (swept + clearance)/clearance
    /// Deck and gasket together; nothing if the gasket's thickness isn't known. Not above 0: the
    /// piston's edge reaches the head.
    std::optional<Bounded> quench_mm;
    bool gasket_overhangs = false; ///< the gasket's bore is certainly smaller than the cylinder's
};

/// (swept + clearance)/clearance. Source: Heywood, Internal Combustion Engine Fundamentals,
/// eq. 2.1. Errors: not_a_number, order_wrong, out_of_range; "swept" (0.1 to 100 000 cc),
/// "clearance" (1 % of the swept volume, at its greatest, to ten times it).
Result<Bounded> compression_ratio(const Bounded& swept_cc, const Bounded& clearance_cc);

/// Errors: as `wrong_size`; not_a_number, order_wrong, out_of_range for "chamber", "dome", "dish",
/// "gasket_compressed", "gasket_bore", "gasket_volume", "deck", "crevice" and, where the parts
/// together leave no room or too much, "clearance"; missing_field ("gasket_compressed",
/// "gasket_bore" where no volume is stated); not_of_this_kind ("gasket_bore" where one is:
/// `expected` "gasket_volume").
Result<Compression> compression_of(const CylinderAtTop& cylinder);

/// The ratio from where only a part of the stroke is left: (swept from there +
/// clearance)/clearance. `stroke_left_mm`: 0 to 2000. Errors: as `compression_of`; "stroke_left".
Result<Bounded> ratio_from(const CylinderAtTop& cylinder, const Bounded& stroke_left_mm);

/// The cylinders of an engine side by side.
struct CompressionSurvey {
    std::vector<Compression> cylinders;
    std::size_t lowest = 0;  ///< place of the lowest ratio in the list, counted from 0
    std::size_t highest = 0; ///< of the highest; the first of several
    /// Highest less lowest ratio. `low` is the least difference that all the bounds leave, 0 if
    /// they might all be equal; errors that the cylinders share (one gasket measured short) widen
    /// it more than they should.
    Bounded spread;
};
/// Errors: as `compression_of`, `line` the cylinder's place, counted from 1; too_few_rows
/// ("cylinders").
Result<CompressionSurvey> compression_survey(const std::vector<CylinderAtTop>& cylinders);

/// What milling a head takes from its chamber: as stated by who has milled such heads, or from the
/// chamber's opening. One of the two.
struct ChamberLoss {
    std::optional<double> cc_per_mm; ///< 0.01 to 200
    std::optional<double> area_mm2;  ///< of the chamber at the head's face, 10 to 200 000
};

/// What brings one cylinder to a ratio: a volume, and each way to take it off by itself. Positive
/// is taken off (the ratio rises), negative is given: a chamber ground out, a thicker gasket. What
/// is left is given beside, and may be impossible: that is the caller's to say.
struct WayToRatio {
    Bounded clearance_cc; ///< wanted: swept/(ratio - 1)
    Bounded take_off_cc;  ///< the clearance there is, less the wanted one
    Bounded chamber_left_cc;
    std::optional<Bounded> head_mm; ///< off the head's face; nothing without a `ChamberLoss`
    Bounded deck_mm;                ///< off the block's face
    Bounded deck_left_mm;
    /// Off the gasket's thickness; nothing if that isn't known.
    std::optional<Bounded> gasket_mm;
    std::optional<Bounded> gasket_left_mm;
    std::optional<Bounded> quench_by_deck_mm;   ///< quench if the block is cut
    std::optional<Bounded> quench_by_gasket_mm; ///< quench if the gasket is changed
};
/// `ratio`: 2 to 40. Errors: as `compression_of`; out_of_range ("ratio"), and as `compression_if`
/// for "chamber_cc_per_mm", "chamber_area".
Result<WayToRatio> way_to_ratio(const CylinderAtTop& cylinder, double ratio,
                                const ChamberLoss& loss = {});
/// The same for each cylinder; a survey's lowest and highest ratio are two natural aims. Errors: as
/// above, `line` the cylinder's place, counted from 1.
Result<std::vector<WayToRatio>> way_to_ratio(const std::vector<CylinderAtTop>& cylinders,
                                             double ratio, const ChamberLoss& loss = {});

/// What may be changed. Dome, dish, chamber and crevice stay as they are but for what milling takes
/// from the chamber.
struct CompressionChange {
    double bore_over_mm = 0.0;    ///< on the diameter, 0 to 50
    double head_milled_mm = 0.0;  ///< 0 to 10; wants a loss
    double block_decked_mm = 0.0; ///< 0 to 10
    ChamberLoss loss;
    std::optional<HeadGasket> gasket; ///< another gasket
};
struct CompressionWhatIf {
    CylinderAtTop cylinder; ///< changed
    Compression before;
    Compression after;
    double ratio_gained = 0.0; ///< of the two values
};
/// Errors: as `compression_of`; out_of_range and not_a_number ("bore_over", "head_milled" (at most
/// all of the chamber), "block_decked", "chamber_cc_per_mm", "chamber_area"); missing_field
/// ("chamber_cc_per_mm") and not_of_this_kind ("chamber_area" where both are given: `expected`
/// "chamber_cc_per_mm").
Result<CompressionWhatIf> compression_if(const CylinderAtTop& cylinder,
                                         const CompressionChange& change);

} // namespace rodway
