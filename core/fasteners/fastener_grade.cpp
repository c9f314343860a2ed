#include "core/fasteners/fastener_grade.h"

#include <algorithm>
#include <array>
#include <limits>
#include <utility>

#include "core/units/length.h"
#include "core/units/plain_text.h"
#include "core/units/pressure.h"
#include "core/units/within.h"

namespace rodway {
namespace {

struct GradeRow {
    const char* grade;
    double from; ///< in or mm
    double to;
    double proof; ///< ksi or MPa
    double tensile;
    double yield;
};
constexpr std::array sae_rows{
    GradeRow{"1", 0.25, 1.5, 33, 60, 36},    GradeRow{"2", 0.25, 0.75, 55, 74, 57},
    GradeRow{"2", 0.875, 1.5, 33, 60, 36},   GradeRow{"4", 0.25, 1.5, 65, 115, 100},
    GradeRow{"5", 0.25, 1.0, 85, 120, 92},   GradeRow{"5", 1.125, 1.5, 74, 105, 81},
    GradeRow{"5.2", 0.25, 1.0, 85, 120, 92}, GradeRow{"7", 0.25, 1.5, 105, 133, 115},
    GradeRow{"8", 0.25, 1.5, 120, 150, 130}, GradeRow{"8.2", 0.25, 1.0, 120, 150, 130},
};
constexpr std::array iso_rows{
    GradeRow{"4.6", 5, 36, 225, 400, 240},   GradeRow{"4.8", 1.6, 16, 310, 420, 340},
    GradeRow{"5.8", 5, 24, 380, 520, 420},   GradeRow{"8.8", 1.6, 16, 580, 800, 640},
    GradeRow{"8.8", 18, 36, 600, 830, 660},  GradeRow{"9.8", 1.6, 16, 650, 900, 720},
    GradeRow{"10.9", 5, 36, 830, 1040, 940}, GradeRow{"12.9", 1.6, 36, 970, 1220, 1100},
};
constexpr double MPa_per_ksi = Pressure::kPa_per_psi; // a thousand of each

std::vector<FastenerStrength> make_grades() {
    std::vector<FastenerStrength> all;
    all.reserve(sae_rows.size() + iso_rows.size());
    for (const GradeRow& row : sae_rows) {
        all.push_back({GradeSystem::sae_j429, row.grade, Length::inches(row.from).in_mm(),
                       Length::inches(row.to).in_mm(), row.proof * MPa_per_ksi,
                       row.tensile * MPa_per_ksi, row.yield * MPa_per_ksi,
                       FigureSource::published});
    }
    for (const GradeRow& row : iso_rows) {
        all.push_back({GradeSystem::iso_898_1, row.grade, row.from, row.to, row.proof, row.tensile,
                       row.yield, FigureSource::published});
    }
    return all;
}

/// The grade's number, words before it left out.
std::string grade_number(std::string_view text) {
    std::string plain = plain_text(text);
    for (const std::string_view word : {"sae", "iso", "grade", "gr.", "gr", "class", "cl.", "cl"}) {
        if (plain.starts_with(word)) {
            plain = plain_text(std::string_view(plain).substr(word.size()));
        }
    }
    return plain;
}

std::string grade_names() {
    std::string names;
    std::string last;
    for (const FastenerStrength& each : fastener_grades()) {
        if (each.grade != last) {
            names += (names.empty() ? "" : " ") + each.grade;
            last = each.grade;
        }
    }
    return names;
}

std::optional<Error> wrong_figure(const char* field, std::optional<double> figure_MPa,
                                  double greatest_MPa) {
    return figure_MPa ? outside(field, *figure_MPa, {50.0, greatest_MPa, "MPa"}) : std::nullopt;
}

} // namespace

const std::vector<FastenerStrength>& fastener_grades() {
    static const std::vector<FastenerStrength> all = make_grades();
    return all;
}

Result<FastenerStrength> strength_of(std::string_view grade, double diameter_mm) {
    const std::string number = grade_number(grade);
    if (number.empty()) {
        return Error{ErrorCode::empty_text, "grade", std::string(grade), {}, {}, {}};
    }
    constexpr double rounding_mm = 1e-6;
    Limits all{std::numeric_limits<double>::max(), 0.0, "mm"};
    for (const FastenerStrength& each : fastener_grades()) {
        if (each.grade != number) {
            continue;
        }
        if (diameter_mm >= each.from_diameter_mm - rounding_mm &&
            diameter_mm <= each.to_diameter_mm + rounding_mm) {
            return each;
        }
        all.low = std::min(all.low, each.from_diameter_mm);
        all.high = std::max(all.high, each.to_diameter_mm);
    }
    if (all.low > all.high) {
        return Error{ErrorCode::not_a_choice, "grade", std::string(grade), grade_names(), {}, {}};
    }
    if (auto bad = outside("diameter", diameter_mm, all)) {
        return *bad;
    }
    // Between two rows, where no standard bolt is: the weaker of the two.
    FastenerStrength between;
    for (const FastenerStrength& each : fastener_grades()) {
        if (each.grade == number &&
            (between.grade.empty() || *each.proof_MPa < *between.proof_MPa)) {
            between = each;
        }
    }
    return between;
}

Result<FastenerStrength> own_strength(std::string name, std::optional<double> proof_MPa,
                                      std::optional<double> tensile_MPa,
                                      std::optional<double> yield_MPa) {
    if (!proof_MPa && !tensile_MPa && !yield_MPa) {
        return Error{ErrorCode::missing_field, "proof", {}, {}, {}, {}};
    }
    constexpr double greatest_MPa = 3500.0;
    if (auto bad = wrong_figure("tensile", tensile_MPa, greatest_MPa)) {
        return *bad;
    }
    const double yield_below_MPa = tensile_MPa.value_or(greatest_MPa);
    if (auto bad = wrong_figure("yield", yield_MPa, yield_below_MPa)) {
        return *bad;
    }
    if (auto bad = wrong_figure("proof", proof_MPa, yield_MPa.value_or(yield_below_MPa))) {
        return *bad;
    }
    return FastenerStrength{
        GradeSystem::own, std::move(name), 0.0,       std::numeric_limits<double>::max(),
        proof_MPa,        tensile_MPa,     yield_MPa, FigureSource::shop};
}

} // namespace rodway
