#include "core/engine/rod_length_fields.h"

#include <array>

#include "core/units/length.h"
#include "core/valvetrain/rod_ends.h"

namespace rodway {
namespace {

struct RodLengthField {
    const char* leaf;
    LengthDefinition definition;
};
constexpr std::array<RodLengthField, 4> rod_length_fields{
    {{"/length", LengthDefinition::between_centres},
     {"/overall_length", LengthDefinition::overall},
     {"/effective_length", LengthDefinition::effective},
     {"/gauge_length", LengthDefinition::gauge}}};

/// The one that is given; `length` if none is. Two are refused.
RodLengthField given_field(FieldReader& fields, const std::string& path) {
    const RodLengthField* given = nullptr;
    for (const RodLengthField& field : rod_length_fields) {
        if (!fields.has(path + field.leaf)) {
            continue;
        }
        if (given) {
            fields.refuse(bad_field(ErrorCode::not_of_this_kind, path + field.leaf,
                                    fields.find(path + field.leaf)->text, "rod_length"));
        }
        given = &field;
    }
    return given ? *given : rod_length_fields.front();
}

/// A fault of a size or of the length, told of the field as it was typed.
Error as_typed(FieldReader& fields, Error error, const std::string& path, const char* length_leaf) {
    error.field = path + (error.field == "length" ? length_leaf : "/" + error.field);
    if (!fields.has(error.field)) {
        return error;
    }
    const TypedValue& typed = *fields.find(error.field);
    error.value = typed.text;
    if (error.limits && typed.unit != "mm") {
        error.limits->low /= Length::mm_per_inch;
        error.limits->high /= Length::mm_per_inch;
        error.limits->unit = "in";
    }
    return error;
}

} // namespace

double read_rod_length_mm(FieldReader& fields, const Pushrod& rod, const std::string& path) {
    const RodLengthField given = given_field(fields, path);
    const double length_mm = fields.length_mm(path + given.leaf);
    if (fields.error()) {
        return length_mm;
    }
    const auto centres = centres_length_mm(length_mm, rod, given.definition);
    if (!centres) {
        fields.refuse(as_typed(fields, centres.error(), path, given.leaf));
        return length_mm;
    }
    return *centres;
}

} // namespace rodway
