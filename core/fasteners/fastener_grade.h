#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/units/figure_band.h"

namespace rodway {

enum class GradeSystem {
    sae_j429,  ///< inch bolts: "8"
    iso_898_1, ///< metric bolts: "10.9"
    own        ///< the shop's own figures
};

/// How strong bolts of a grade are, over a range of diameters, ends included. MPa; a figure that
/// isn't known is empty.
struct FastenerStrength {
    GradeSystem system = GradeSystem::own;
    std::string grade; ///< "5", "10.9", or the shop's own name
    double from_diameter_mm = 0.0;
    double to_diameter_mm = 0.0;
    std::optional<double> proof_MPa;
    std::optional<double> tensile_MPa; ///< least
    std::optional<double> yield_MPa;   ///< least
    FigureSource source = FigureSource::published;
};

/// The rows of SAE J429 (Shigley, table 8-9) and ISO 898-1 (Shigley, table 8-11; for 8.8 up to M16
/// the standard's own 580/800/640, since the book's row begins there). Proof strength is a row of
/// its own: it isn't a share of the yield strength.
[[nodiscard]] const std::vector<FastenerStrength>& fastener_grades();

/// The strength of a bolt of a grade. Reads "8", "grade 8", "gr. 5", "SAE 5", "10.9",
/// "class 10.9". `diameter_mm` is nominal.
/// Errors: field "grade", empty_text and not_a_choice (`expected` holds the grades); field
/// "diameter", not_a_number and out_of_range with the limits of that grade.
Result<FastenerStrength> strength_of(std::string_view grade, double diameter_mm);

/// A bolt of the shop's own figures, at all diameters. Errors: missing_field (no figure at all);
/// out_of_range (each 50 to 3500 MPa; the proof strength no more than yield or tensile strength,
/// the yield strength no more than the tensile); fields "proof", "yield", "tensile".
Result<FastenerStrength> own_strength(std::string name, std::optional<double> proof_MPa,
                                      std::optional<double> tensile_MPa,
                                      std::optional<double> yield_MPa);

} // namespace rodway
