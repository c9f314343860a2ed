#include "core/engine/casting_fields.h"

namespace rodway {
namespace {

/// What counts now of a gasket: its one thickness, or, where it is given new and crushed, the one
/// of the two that is in. Needed.
double gasket_now_mm(FieldReader& fields, const std::string& path) {
    const std::string gasket = path + "/gasket";
    if (!fields.has(gasket + "_new") && !fields.has(gasket + "_crushed") &&
        !fields.has(gasket + "_state")) {
        return fields.length_mm(gasket);
    }
    fields.refuse_beside("gasket_state", {gasket});
    const bool crushed = fields.choice(gasket + "_state") == 1;
    const auto new_mm = fields.length_mm_if_any(gasket + "_new");
    const auto crushed_mm = fields.length_mm_if_any(gasket + "_crushed");
    if (new_mm && crushed_mm && *crushed_mm > *new_mm) {
        fields.refuse_length(gasket + "_crushed", 0.0, *new_mm);
    }
    return fields.length_mm(gasket + (crushed ? "_crushed" : "_new"));
}

bool has_gasket(const FieldReader& fields, const std::string& path) {
    for (const char* leaf : {"", "_new", "_crushed", "_state", "_when_located"}) {
        if (fields.has(path + "/gasket" + leaf)) {
            return true;
        }
    }
    return false;
}

} // namespace

std::optional<FlangeSetting> read_flange(FieldReader& fields, const std::string& bank_path) {
    const std::string path = bank_path + "/flange";
    if (!fields.has_any_under(path)) {
        return std::nullopt;
    }
    FlangeSetting flange;
    flange.normal_K = fields.direction(path + "/normal");
    flange.gasket_mm = gasket_now_mm(fields, path);
    flange.gasket_when_located_mm = fields.length_mm(path + "/gasket_when_located");
    flange.spacer_mm = fields.length_mm_or(path + "/spacer", 0.0);
    flange.spacer_when_located_mm = fields.length_mm_or(path + "/spacer_when_located", 0.0);
    flange.head_face_milled_mm = fields.length_mm_or(path + "/head_face_milled", 0.0);
    flange.manifold_face_milled_mm = fields.length_mm_or(path + "/manifold_face_milled", 0.0);
    return flange;
}

HeadSetting read_head(FieldReader& fields, const std::string& bank_path) {
    const std::string path = bank_path + "/head";
    HeadSetting head;
    head.deck_milled_mm = fields.length_mm_or(bank_path + "/deck_milled", 0.0);
    head.deck_face_milled_mm = fields.length_mm_or(path + "/deck_face_milled", 0.0);
    // A thickness alone says nothing of a movement: a gasket needs the one it is compared with.
    if (has_gasket(fields, path)) {
        head.gasket_mm = gasket_now_mm(fields, path);
        head.gasket_when_located_mm = fields.length_mm(path + "/gasket_when_located");
    }
    return head;
}

} // namespace rodway
