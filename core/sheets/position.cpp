#include "core/sheets/position.h"

#include <algorithm>
#include <charconv>

#include "core/sheets/position_reader.h"
#include "core/sheets/rod_gap_position.h"
#include "core/units/plain_text.h"
#include "core/units/typed_text.h"

namespace rodway {
namespace {

using Part = PlacePart;

/// How a part stands in a kept position: "2" of a journal is "J2", of a bolt "bolt 2".
std::string written(Part part, const std::string& value) {
    switch (part) {
        case Part::journal:
            return "J" + value;
        case Part::bolt:
            return "bolt " + value;
        case Part::hole:
            return "hole " + value;
        case Part::plug:
            return "plug " + value;
        case Part::pass:
            return "pass " + value;
        case Part::pull:
            return "pull " + value;
        case Part::speed:
            return value + " rpm";
        case Part::of_cylinder:
            return "cyl " + value;
        default:
            return value;
    }
}

std::optional<int> whole_part(const std::optional<std::string>& text) {
    int number = 0;
    if (!text ||
        std::from_chars(text->data(), text->data() + text->size(), number).ec != std::errc()) {
        return std::nullopt;
    }
    return number;
}

/// The parts of one text, each at most once, in any order.
std::optional<std::map<Part, std::string>> parts_in(std::string_view text,
                                                    const PlaceShape& shape) {
    PositionReader reader(plain_text(text));
    std::map<Part, std::string> parts;
    while (!reader.at_end()) {
        const auto taken =
            std::find_if(shape.parts.begin(), shape.parts.end(), [&](const PlacePartUse& use) {
                if (parts.contains(use.part)) {
                    return false;
                }
                auto value = reader.take_part(use.part);
                if (value) {
                    parts.emplace(use.part, std::move(*value));
                }
                return value.has_value();
            });
        if (taken == shape.parts.end()) {
            return std::nullopt;
        }
    }
    const bool complete = std::all_of(
        shape.parts.begin(), shape.parts.end(),
        [&](const PlacePartUse& use) { return !use.needed || parts.contains(use.part); });
    return complete && (shape.may_be_empty || !parts.empty()) ? std::optional(parts) : std::nullopt;
}

} // namespace

std::optional<std::string> SheetPosition::part(PlacePart wanted) const {
    const auto found = parts.find(wanted);
    return found == parts.end() ? std::nullopt : std::optional(found->second);
}

std::optional<int> SheetPosition::cylinder() const {
    if (const auto of_valve = valve()) {
        return of_valve->cylinder;
    }
    const auto own = whole_part(part(Part::cylinder));
    return own ? own : whole_part(part(Part::of_cylinder));
}

std::optional<ValvePosition> SheetPosition::valve() const {
    if (const auto gap = part(Part::gap)) {
        const auto position = parse_rod_gap_position(*gap);
        return position ? std::optional(position->valve) : std::nullopt;
    }
    const auto name = part(Part::valve);
    const auto position = name ? parse_position(*name) : Result<ValvePosition>(Error{});
    return position ? std::optional(*position) : std::nullopt;
}

std::optional<int> SheetPosition::journal() const {
    return whole_part(part(Part::journal));
}

std::optional<CrankAngle> SheetPosition::angle() const {
    const auto text = part(Part::angle);
    return text ? PositionReader(plain_text(*text)).take_crank_angle() : std::nullopt;
}

std::optional<Length> SheetPosition::rise() const {
    const auto text = part(Part::rise);
    const auto typed =
        text ? parse_length(*text, BareNumber::refused) : Result<TypedLength>(Error{});
    return typed ? std::optional(typed->low) : std::nullopt;
}

Result<SheetPosition> parse_sheet_position(std::string_view text, Place place) {
    const PlaceShape& shape = shape_of(place);
    const Error refused{ErrorCode::not_a_place,     "position", std::string(text),
                        std::string(shape.example), {},         {}};
    if (place == Place::rod_gap) {
        if (!parse_rod_gap_position(text)) {
            return refused;
        }
        return SheetPosition{place, {{Part::gap, std::string(text)}}};
    }
    auto parts = parts_in(text, shape);
    if (!parts) {
        return refused;
    }
    return SheetPosition{place, std::move(*parts)};
}

std::string sheet_position_text(const SheetPosition& position) {
    std::string text;
    for (const PlacePartUse& use : shape_of(position.place).parts) {
        if (const auto value = position.part(use.part)) {
            text += text.empty() ? "" : " ";
            text += written(use.part, *value);
        }
    }
    return text;
}

Result<std::string> kept_position(std::string_view text, Place place) {
    const auto position = parse_sheet_position(text, place);
    if (!position) {
        return position.error();
    }
    return sheet_position_text(*position);
}

} // namespace rodway
