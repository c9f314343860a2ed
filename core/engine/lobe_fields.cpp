#include "core/engine/lobe_fields.h"

#include "core/engine/set_up.h"
#include "core/units/typed_text.h"

namespace rodway {
namespace {

bool has_curve(const FieldReader& fields, const std::string& path) {
    return fields.has(path + "/lift_table") || fields.has(path + "/card/durations");
}

std::optional<Lobe> lobe_from_table(FieldReader& fields, const std::string& path, LobesMade& made) {
    const TypedValue* value = fields.find(path);
    if (!value) {
        return std::nullopt;
    }
    const std::string made_of = value->unit + ' ' + value->text;
    if (const Lobe* before = made.find(made_of)) {
        return *before;
    }
    const auto table = lift_table_from_text(value->text, value->unit);
    auto lobe = table ? Lobe::from_table(*table) : Result<Lobe>(table.error());
    if (!lobe) {
        Error error = lobe.error();
        error.field = path;
        fields.refuse(error);
        return std::nullopt;
    }
    made.keep(made_of, *lobe);
    return *lobe;
}

std::optional<Lobe> lobe_from_card(FieldReader& fields, const std::string& path, LobesMade& made) {
    const double peak = fields.length_mm(path + "/peak_lift");
    std::vector<CardDuration> durations;
    std::string made_of = "card " + exact_text(peak);
    for (const auto& [lift, duration] : fields.pairs(path + "/durations")) {
        made_of += "; " + exact_text(lift) + ' ' + exact_text(duration);
        durations.push_back({lift, duration});
    }
    if (fields.error()) {
        return std::nullopt;
    }
    if (const Lobe* before = made.find(made_of)) {
        return *before;
    }
    const auto lobe = Lobe::from_card(peak, durations);
    if (!lobe) {
        Error error = lobe.error();
        error.field = path + "/durations";
        error.value = fields.find(error.field)->text;
        fields.refuse(error);
        return std::nullopt;
    }
    made.keep(made_of, *lobe);
    return *lobe;
}

std::optional<Lobe> read_lobe(FieldReader& fields, const std::string& path, LobesMade& made) {
    return fields.has(path + "/card/durations") && !fields.has(path + "/lift_table")
               ? lobe_from_card(fields, path + "/card", made)
               : lobe_from_table(fields, path + "/lift_table", made);
}

} // namespace

std::optional<CamLobes> read_lobes(FieldReader& fields, const std::string& kind, LobesMade& made) {
    const std::string path = "lobes/" + kind;
    std::optional<Lobe> lobe = read_lobe(fields, path, made);
    const double base = fields.length_mm(path + "/base_circle_radius");
    const double lash = fields.length_mm(path + "/lash");
    const double centreline = fields.angle_deg(path + "/centreline");
    if (!lobe) {
        return std::nullopt;
    }
    return CamLobes{*lobe, base, lash, centreline};
}

void read_own_lobes(FieldReader& fields, Engine& engine, LobesMade& made) {
    for (const std::string& name : fields.names_under("lobes")) {
        if (name == "intake" || name == "exhaust") {
            continue;
        }
        const std::string path = "lobes/" + name;
        const auto valve = parse_position(name);
        if (!valve || position_name(*valve) != name) {
            fields.refuse(bad_field(ErrorCode::not_a_position, path, name, "3I"));
            return;
        }
        CamLobes own = engine.lobes(valve->kind);
        if (has_curve(fields, path)) {
            const auto lobe = read_lobe(fields, path, made);
            if (!lobe) {
                return;
            }
            own.lobe = *lobe;
        }
        own.base_circle_radius_mm =
            fields.length_mm_or(path + "/base_circle_radius", own.base_circle_radius_mm);
        own.lash_mm = fields.length_mm_or(path + "/lash", own.lash_mm);
        if (fields.has(path + "/centreline")) {
            own.centreline_crank_deg = fields.angle_deg(path + "/centreline");
        }
        engine.own_lobes.emplace(*valve, own);
    }
}

} // namespace rodway
