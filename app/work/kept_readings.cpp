#include "app/work/kept_readings.h"

#include <array>
#include <utility>

#include "core/base/assert.h"
#include "core/sheets/typed_pair.h"
#include "db/record_fields.h"

namespace rodway {
namespace {

using Pair = std::array<std::string, 2>;

/// The parts of a place that are said together, in that order.
std::optional<std::pair<PlacePart, Pair>> said_together(Place place) {
    switch (place) {
        case Place::ring:
            return std::pair{PlacePart::ring, Pair{"top", "second"}};
        case Place::valve:
        case Place::card_lobe:
            return std::pair{PlacePart::valve, Pair{"I", "E"}};
        default:
            return std::nullopt;
    }
}

/// Both neighbours' positions, whether the first of them was typed or what they share.
std::optional<Pair> neighbours(const std::string& position, Place place) {
    const auto parts = said_together(place);
    if (!parts) {
        return std::nullopt;
    }
    const auto& [first, second] = parts->second;
    const auto with_first = kept_position(position + ' ' + first, place);
    const auto with_second = kept_position(position + ' ' + second, place);
    if (with_first && with_second) {
        return Pair{*with_first, *with_second};
    }
    // "3I" and "3 top" end with the first of the two.
    const auto whole = kept_position(position, place);
    if (!whole || !whole->ends_with(first)) {
        return std::nullopt;
    }
    const std::string shared = whole->substr(0, whole->size() - first.size());
    const auto other = kept_position(shared + ' ' + second, place);
    return other ? std::optional(Pair{*whole, *other}) : std::nullopt;
}

} // namespace

Result<std::vector<Reading>> readings_to_keep(const Quantity& quantity, const std::string& position,
                                              const std::string& text, const std::string& unit) {
    const bool parted = quantity.form == Form::lash || is_spoken_pair(text);
    const auto pair = parted ? split_pair(text) : std::nullopt;
    const auto places = pair ? neighbours(position, quantity.place) : std::nullopt;
    if (!places) {
        auto reading = reading_to_keep(quantity, position, text, unit);
        if (!reading) {
            return reading.error();
        }
        return std::vector<Reading>{std::move(reading).value()};
    }
    std::vector<Reading> both;
    for (const auto& [place, said] :
         {std::pair{(*places)[0], pair->first}, std::pair{(*places)[1], pair->second}}) {
        auto reading = reading_to_keep(quantity, place, said, unit);
        if (!reading) {
            return reading.error();
        }
        both.push_back(std::move(reading).value());
    }
    return both;
}

Result<std::vector<std::int64_t>> keep_readings(ShopSession& session, std::int64_t build_id,
                                                const BuildSheets& sheets,
                                                std::vector<Reading> readings,
                                                const QString& what) {
    RODWAY_ASSERT(!readings.empty());
    const std::string now = session.now();
    const auto first = session.create(
        RecordKind::reading,
        [&](std::int64_t id) {
            std::vector<Edit> edits;
            for (Reading& reading : readings) {
                reading.id = id++;
                reading.build_id = build_id;
                reading.set_up_id = sheets.set_up_id();
                reading.taken_by = session.who().toStdString();
                reading.taken_at = now;
                for (Edit& edit : edits_to_create(reading)) {
                    edits.push_back(std::move(edit));
                }
            }
            return edits;
        },
        what);
    if (!first) {
        return first.error();
    }
    std::vector<std::int64_t> ids;
    for (const Reading& reading : readings) {
        ids.push_back(reading.id);
    }
    return ids;
}

} // namespace rodway
