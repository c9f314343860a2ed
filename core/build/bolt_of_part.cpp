#include "core/build/bolt_of_part.h"

#include <algorithm>

#include "core/build/word_list.h"
#include "core/fasteners/thread.h"
#include "core/intake/intake_bolts.h"
#include "core/sheets/position.h"
#include "core/units/typed_text.h"

namespace rodway {
namespace {

using Places = std::vector<SheetPosition>;

/// Nothing if one of them is no bolt: then nobody knows which are meant.
Places bolts_named(const PartRecord& part) {
    Places places;
    for (const std::string& word : split_list(part.position.value_or(std::string()), ',')) {
        auto place = parse_sheet_position(word, Place::bolt);
        if (!place || !place->part(PlacePart::bolt)) {
            return {};
        }
        places.push_back(std::move(place).value());
    }
    return places;
}

bool agree(const std::optional<std::string>& one, const std::optional<std::string>& other) {
    return !one || !other || *one == *other;
}

/// Bolts and holes of one joint have the same numbers.
bool is_meant(const Places& bolts, const SheetPosition& read, PlacePart number) {
    return bolts.empty() || std::any_of(bolts.begin(), bolts.end(), [&](const SheetPosition& one) {
               return one.part(PlacePart::bolt) == read.part(number) &&
                      agree(one.part(PlacePart::bank), read.part(PlacePart::bank)) &&
                      agree(one.part(PlacePart::joint), read.part(PlacePart::joint));
           });
}

Result<std::optional<double>> diameter_of(const PartRecord& part) {
    if (!part.thread) {
        return std::optional<double>();
    }
    const auto thread = parse_thread(*part.thread);
    if (!thread) {
        return thread.error();
    }
    return std::optional(thread->diameter_mm);
}

Result<std::vector<BoltInPlace>> intake_bolts(const Places& bolts, const Interval& length_mm,
                                              const TakenReadings& readings) {
    std::vector<BoltInPlace> found;
    for (const Taken& taken : readings.of("intake_bolt_grip")) {
        const auto grip_mm = taken.range();
        if (!grip_mm || !is_meant(bolts, taken.place, PlacePart::bolt)) {
            continue;
        }
        const std::string position = sheet_position_text(taken.place);
        const auto thread_mm = readings.number("intake_thread_depth", position);
        constexpr Interval any_thread_mm{0.0, 200.0};
        const auto reach =
            intake_bolt_reach({length_mm, *grip_mm, thread_mm.value_or(any_thread_mm),
                               readings.number("intake_hole_bottom", position),
                               readings.number("intake_hole_to_passage", position)},
                              0.0);
        if (!reach) {
            return reach.error();
        }
        BoltInPlace bolt;
        bolt.position = position;
        bolt.to_bottom_mm = reach->to_bottom_mm;
        bolt.to_passage_mm = reach->to_passage_mm;
        if (thread_mm) {
            bolt.engaged_mm = reach->engaged_mm;
        }
        found.push_back(std::move(bolt));
    }
    return found;
}

std::vector<BoltInPlace> head_bolts(const Places& bolts, const Interval& length_mm,
                                    const TakenReadings& readings) {
    std::vector<BoltInPlace> found;
    for (const Taken& taken : readings.of("head_bolt_hole_depth")) {
        const auto depth_mm = taken.range();
        if (!depth_mm || !is_meant(bolts, taken.place, PlacePart::hole)) {
            continue;
        }
        BoltInPlace bolt;
        bolt.position = sheet_position_text(taken.place);
        bolt.least_grip_mm = length_mm - *depth_mm;
        found.push_back(std::move(bolt));
    }
    return found;
}

} // namespace

Result<std::optional<Interval>> length_of_part(const PartRecord& part) {
    if (!part.length) {
        return std::optional<Interval>();
    }
    const auto length = parse_length(*part.length, BareNumber::inches);
    if (!length) {
        Error error = length.error();
        error.field = "length";
        return error;
    }
    const double step_mm = length->resolution.in_mm();
    return std::optional(Interval::read(length->low.in_mm(), length->high.in_mm(), step_mm));
}

Result<std::vector<BoltInPlace>> bolts_in_place(const PartRecord& part,
                                                const TakenReadings& readings) {
    const auto length_mm = length_of_part(part);
    const auto diameter_mm = diameter_of(part);
    if (!length_mm || !diameter_mm) {
        return !length_mm ? length_mm.error() : diameter_mm.error();
    }
    if (!*length_mm) {
        return std::vector<BoltInPlace>();
    }
    const Places bolts = bolts_named(part);
    auto found = part.role == "intake_bolt" ? intake_bolts(bolts, **length_mm, readings)
                 : part.role == "head_bolt" ? Result(head_bolts(bolts, **length_mm, readings))
                                            : Result(std::vector<BoltInPlace>());
    if (!found) {
        return found.error();
    }
    std::vector<BoltInPlace> all = std::move(found).value();
    for (BoltInPlace& bolt : all) {
        bolt.diameter_mm = *diameter_mm;
    }
    return all;
}

} // namespace rodway
