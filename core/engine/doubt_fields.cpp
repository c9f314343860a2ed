#include "core/engine/doubt_fields.h"

#include <array>

#include "core/units/angle.h"

namespace rodway {
namespace {

DoubtSource source_of(FieldReader& fields, const std::string& path) {
    static constexpr std::array sources{DoubtSource::assumed, DoubtSource::measured,
                                        DoubtSource::from_the_box, DoubtSource::common_practice};
    return sources[fields.choice_or_first(path + "/source")];
}

std::optional<StatedSize> stated_length(FieldReader& fields, const std::string& path) {
    if (!fields.has_any_under(path)) {
        return std::nullopt;
    }
    return StatedSize{fields.length_mm(path + "/size"), source_of(fields, path)};
}

void read_input(FieldReader& fields, EngineDoubt& doubt, const std::string& name) {
    const std::string path = "doubt/inputs/" + name;
    const auto kind = parameter_called(name);
    if (!kind) {
        std::string names;
        for (const ParameterKind known : parameter_kinds()) {
            names += (names.empty() ? "" : " ") + std::string(parameter_name(known));
        }
        fields.refuse(bad_field(ErrorCode::not_a_choice, path, name, names));
        return;
    }
    const char* leaf = is_angle(*kind) ? "/angle" : "/size";
    const std::string other = path + (is_angle(*kind) ? "/size" : "/angle");
    if (fields.has(other)) {
        fields.refuse(
            bad_field(ErrorCode::not_of_this_kind, other, fields.find(other)->text, leaf + 1));
        return;
    }
    doubt.inputs.emplace(*kind, StatedSize{is_angle(*kind) ? radians(fields.angle_deg(path + leaf))
                                                           : fields.length_mm(path + leaf),
                                           source_of(fields, path)});
}

} // namespace

EngineDoubt read_doubt(FieldReader& fields) {
    EngineDoubt doubt;
    if (fields.has_any_under("doubt/lash_float")) {
        doubt.lash_float = source_of(fields, "doubt/lash_float");
    }
    doubt.end_float = source_of(fields, "doubt/end_float");
    doubt.seat_off_axis = stated_length(fields, "doubt/seat_off_axis");
    doubt.rod_runout = stated_length(fields, "doubt/rod_runout");
    doubt.lifter_bore_slop = stated_length(fields, "doubt/lifter_bore_slop");
    doubt.leak_down = stated_length(fields, "doubt/leak_down");
    for (const std::string& name : fields.names_under("doubt/inputs")) {
        read_input(fields, doubt, name);
    }
    return doubt;
}

} // namespace rodway
