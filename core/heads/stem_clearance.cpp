#include "core/heads/stem_clearance.h"

#include "core/units/length.h"
#include "core/units/typed_text.h"
#include "core/units/within.h"

namespace rodway {
namespace {

const Limits diameters{2.0, 30.0, "mm"};
const Limits depths_allowed{0.0, 200.0, "mm"};

std::optional<Error> wrong_reading(const GuideReading& reading, int line) {
    if (auto bad = outside("depth", reading.depth_mm, depths_allowed, line)) {
        return bad;
    }
    const Interval good = Interval::exactly(diameters.low);
    return first_outside({{"bore", reading.bore_mm.value_or(good), diameters, line},
                          {"stem", reading.stem_mm.value_or(good), diameters, line}});
}

std::optional<Error> wrong_readings(const GuideAndStem& readings) {
    int line = 0;
    for (const GuideReading& reading : readings.depths) {
        if (auto bad = wrong_reading(reading, ++line)) {
            return bad;
        }
        if (line > 1 &&
            !(reading.depth_mm > readings.depths[static_cast<std::size_t>(line) - 2].depth_mm)) {
            return Error{
                ErrorCode::order_wrong, "depth", exact_text(reading.depth_mm), {}, line, {}};
        }
    }
    return readings.unworn_stem_mm
               ? first_outside({{"unworn_stem", *readings.unworn_stem_mm, diameters}})
               : std::nullopt;
}

Error none_read(const char* field) {
    return {ErrorCode::too_few_rows, field, "0", "1", {}, {}};
}

} // namespace

Result<StemClearance> stem_clearance(const GuideAndStem& readings) {
    if (const auto bad = wrong_readings(readings)) {
        return *bad;
    }
    StemClearance found;
    std::vector<Interval> bores;
    std::vector<Interval> stems;
    for (const GuideReading& reading : readings.depths) {
        if (reading.bore_mm) {
            bores.push_back(*reading.bore_mm);
        }
        if (reading.stem_mm) {
            stems.push_back(*reading.stem_mm);
        }
        if (reading.bore_mm && reading.stem_mm) {
            found.at_depths.push_back({reading.depth_mm, *reading.bore_mm - *reading.stem_mm});
        }
    }
    if (bores.empty()) {
        return none_read("bore");
    }
    if (stems.empty()) {
        return none_read("stem");
    }
    found.tightest_mm = least_of(bores) - greatest_of(stems);
    found.loosest_mm = greatest_of(bores) - least_of(stems);
    if (readings.depths.front().bore_mm && readings.depths.back().bore_mm && bores.size() >= 3) {
        const Interval between = least_of({bores.begin() + 1, bores.end() - 1});
        found.upper_bell_mm = bores.front() - between;
        found.lower_bell_mm = bores.back() - between;
    }
    if (readings.unworn_stem_mm) {
        found.stem_wear_mm = *readings.unworn_stem_mm - least_of(stems);
    }
    return found;
}

FigureBand usual_stem_clearance_mm(ValveKind kind) {
    const bool intake = kind == ValveKind::intake;
    return {Length::inches(intake ? 0.0010 : 0.0015).in_mm(),
            Length::inches(intake ? 0.0020 : 0.0025).in_mm(), FigureSource::common_practice};
}

} // namespace rodway
