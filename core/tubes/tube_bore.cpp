#include "core/tubes/tube_bore.h"

#include <set>
#include <utility>

namespace rodway {
namespace {

std::optional<Error> wrong_readings(const std::vector<TubeBoreReading>& readings) {
    if (readings.empty()) {
        return Error{ErrorCode::too_few_rows, "bore", "0", "1", {}, {}};
    }
    std::set<std::pair<TubeDepth, TubeDirection>> seen;
    int line = 0;
    for (const TubeBoreReading& reading : readings) {
        if (auto bad = first_outside({{"bore", reading.bore_mm, {3.0, 60.0, "mm"}, ++line}})) {
            return bad;
        }
        if (!seen.insert({reading.depth, reading.direction}).second) {
            return Error{ErrorCode::duplicate_field, "bore", {}, {}, line, {}};
        }
    }
    return std::nullopt;
}

std::optional<Interval> read_at(const std::vector<TubeBoreReading>& readings, TubeDepth depth,
                                TubeDirection direction) {
    for (const TubeBoreReading& reading : readings) {
        if (reading.depth == depth && reading.direction == direction) {
            return reading.bore_mm;
        }
    }
    return std::nullopt;
}

std::optional<Interval> less(const std::optional<Interval>& one,
                             const std::optional<Interval>& other) {
    return one && other ? std::optional(*one - *other) : std::nullopt;
}

} // namespace

Result<TubeBore> tube_bore(const std::vector<TubeBoreReading>& readings) {
    if (const auto bad = wrong_readings(readings)) {
        return *bad;
    }
    std::vector<Interval> all_mm;
    all_mm.reserve(readings.size());
    for (const TubeBoreReading& reading : readings) {
        all_mm.push_back(reading.bore_mm);
    }
    TubeBore tube;
    tube.least_mm = least_of(all_mm);
    tube.greatest_mm = greatest_of(all_mm);
    std::vector<Interval> ovals_mm;
    for (const TubeDepth depth : {TubeDepth::top, TubeDepth::middle, TubeDepth::bottom}) {
        TubeSection section{depth,
                            read_at(readings, depth, TubeDirection::along),
                            read_at(readings, depth, TubeDirection::across),
                            {}};
        section.oval_mm = less(section.along_mm, section.across_mm);
        if (section.oval_mm) {
            ovals_mm.push_back(magnitude(*section.oval_mm));
        }
        if (section.along_mm || section.across_mm) {
            tube.sections.push_back(section);
        }
    }
    const auto taper = [&](TubeDirection direction) {
        return less(read_at(readings, TubeDepth::top, direction),
                    read_at(readings, TubeDepth::bottom, direction));
    };
    tube.taper_along_mm = taper(TubeDirection::along);
    tube.taper_across_mm = taper(TubeDirection::across);
    if (!ovals_mm.empty()) {
        tube.greatest_oval_mm = greatest_of(ovals_mm);
    }
    return tube;
}

} // namespace rodway
