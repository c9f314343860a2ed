#include "core/engine/set_up.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/describe/description.h"
#include "core/describe/written_out.h"
#include "core/engine/casting_fields.h"
#include "core/engine/doubt_fields.h"
#include "core/engine/field_reader.h"
#include "core/engine/hot_fields.h"
#include "core/engine/lobe_fields.h"
#include "core/engine/obstacle_fields.h"
#include "core/engine/running_fields.h"
#include "core/engine/set_up_fields.h"
#include "core/engine/train_fields.h"
#include "core/engine/valve_fields.h"
#include "core/units/typed_text.h"

namespace rodway {
namespace {

std::optional<Error> stray_field(const SetUpFields& fields) {
    for (const auto& [path, value] : fields) {
        const FieldSpec* spec = field_spec(path);
        if (!spec) {
            return bad_field(ErrorCode::unknown_field, path, value.text);
        }
        if (!unit_fits(spec->kind, value.unit)) {
            return bad_field(ErrorCode::wrong_type, path, value.text, value.unit);
        }
    }
    return std::nullopt;
}

/// Looks at each value by itself, without what it takes to make an engine of them.
void read_each(FieldReader& fields, const SetUpFields& set_up) {
    for (const auto& [path, value] : set_up) {
        switch (field_spec(path)->kind) {
            case FieldKind::length:
                fields.length_mm(path);
                break;
            case FieldKind::angle:
            case FieldKind::crank_angle:
                fields.angle_deg(path);
                break;
            case FieldKind::choice:
                fields.choice(path);
                break;
            case FieldKind::number:
            case FieldKind::temperature:
            case FieldKind::modulus:
            case FieldKind::mass:
            case FieldKind::speed:
            case FieldKind::expansion:
                fields.amount(path);
                break;
            default:
                break;
        }
    }
}

void read_banks(FieldReader& fields, Engine& engine) {
    for (const std::string& name : fields.names_under("banks")) {
        const std::string path = "banks/" + name;
        Bank bank;
        bank.name = name;
        bank.lean_deg = fields.angle_deg(path + "/lean");
        bank.frame = BankFrame(radians(bank.lean_deg));
        engine.layout.banks.push_back(bank);
        engine.flanges.push_back(read_flange(fields, path));
    }
    if (engine.layout.banks.empty()) {
        fields.refuse(bad_field(ErrorCode::missing_field, "banks", {}));
    }
}

void read_cylinders(FieldReader& fields, EngineLayout& layout) {
    const std::vector<std::string> names = fields.names_under("cylinders");
    for (std::size_t number = 1; number <= names.size(); ++number) {
        const std::string path = "cylinders/" + std::to_string(number);
        Cylinder cylinder;
        cylinder.number = static_cast<int>(number);
        cylinder.centre_x_mm = fields.length_mm(path + "/centre_x");
        const std::string bank = fields.words(path + "/bank");
        const auto found =
            std::find_if(layout.banks.begin(), layout.banks.end(),
                         [&](const Bank& candidate) { return candidate.name == bank; });
        if (found == layout.banks.end()) {
            fields.refuse(bad_field(ErrorCode::not_a_choice, path + "/bank", bank));
            return;
        }
        cylinder.bank = static_cast<std::size_t>(found - layout.banks.begin());
        layout.cylinders.push_back(cylinder);
    }
    if (names.empty()) {
        fields.refuse(bad_field(ErrorCode::missing_field, "cylinders", {}));
    }
}

void read_layout(FieldReader& fields, Engine& engine) {
    EngineLayout& layout = engine.layout;
    layout.name = fields.words("engine/name");
    static constexpr std::array arrangements{Arrangement::vee, Arrangement::inline_row,
                                             Arrangement::flat};
    layout.arrangement = arrangements[fields.choice("engine/arrangement")];
    layout.turning =
        fields.choice("engine/turns") == 0 ? Turning::clockwise : Turning::counter_clockwise;
    layout.bore_mm = fields.length_mm("engine/bore");
    layout.stroke_mm = fields.length_mm("engine/stroke");
    layout.cam_y_mm = fields.length_mm("camshaft/beside_crank");
    layout.cam_z_mm = fields.length_mm("camshaft/above_crank");
    if (fields.has("engine/intake_casting")) {
        engine.one_intake_for_all = fields.choice("engine/intake_casting") == 0;
    }
    read_banks(fields, engine);
    read_cylinders(fields, layout);
    layout.firing_order_text = fields.words("engine/firing_order");
    if (fields.error()) {
        return;
    }
    const auto order =
        FiringOrder::parse(layout.firing_order_text, static_cast<int>(layout.cylinders.size()));
    if (!order) {
        fields.refuse(order.error());
        return;
    }
    for (const Cylinder& cylinder : layout.cylinders) {
        layout.firing_angles.push_back(order->firing_angle(cylinder.number));
    }
}

/// Only now, since every train is there: what a head carries moves with it.
void set_heads(FieldReader& fields, Engine& engine) {
    for (std::size_t bank = 0; bank < engine.layout.banks.size(); ++bank) {
        engine.set_head(bank, read_head(fields, "banks/" + engine.layout.banks[bank].name));
    }
}

Result<Engine> engine_of_places(const SetUpFields& set_up, LobesMade& made) {
    FieldReader fields(set_up);
    const auto intake = read_lobes(fields, "intake", made);
    const auto exhaust = read_lobes(fields, "exhaust", made);
    if (fields.error()) {
        return *fields.error();
    }
    Engine engine{.intake = *intake, .exhaust = *exhaust};
    read_layout(fields, engine);
    read_own_lobes(fields, engine, made);
    engine.connecting_rod_mm = fields.length_mm_if_any("engine/connecting_rod");
    if (fields.has("limits/rod_clearance")) {
        engine.rod_clearance_limit_mm = fields.length_mm("limits/rod_clearance");
    }
    if (fields.has("doubt/assumed")) {
        engine.assumed_doubt_mm = fields.length_mm("doubt/assumed");
    }
    engine.doubt = read_doubt(fields);
    const std::vector<std::string> valves = fields.names_under("trains");
    if (valves.empty()) {
        fields.refuse(bad_field(ErrorCode::missing_field, "trains", {}));
    }
    for (const std::string& valve : valves) {
        if (fields.error()) {
            return *fields.error();
        }
        read_train(fields, engine, valve);
    }
    if (!fields.error()) {
        read_springs(fields, engine);
        read_valve_drops(fields, engine);
        read_obstacles(fields, engine);
        check_running(fields, engine);
        check_hot(fields, engine);
        set_heads(fields, engine);
        // Flanges that don't fix the intake are bad input, not something for each rod to find out.
        for (std::size_t bank = 0; bank < engine.layout.banks.size(); ++bank) {
            if (const auto moved = engine.intake_movement_K(bank); !moved) {
                Error error = moved.error();
                error.field = "banks/" + engine.layout.banks[bank].name + "/flange/normal";
                fields.refuse(error);
            }
        }
    }
    if (fields.error()) {
        return *fields.error();
    }
    std::sort(engine.trains.begin(), engine.trains.end(),
              [](const Train& a, const Train& b) { return a.position < b.position; });
    return engine;
}

/// What is wrong with a field that was worked out is told of the size that was typed.
Result<Engine> engine_described(const SetUpFields& set_up, LobesMade& made) {
    const auto out = written_out(set_up);
    if (!out) {
        return out.error();
    }
    auto engine = engine_of_places(out->fields, made);
    if (engine) {
        return engine;
    }
    Error error = engine.error();
    if (const auto from = out->made_from.find(error.field); from != out->made_from.end()) {
        error.field = from->second;
    }
    return error;
}

} // namespace

Result<double> length_field_mm(std::string_view path, const TypedValue& value) {
    const FieldSpec* spec = field_spec(path);
    RODWAY_ASSERT(spec && spec->kind == FieldKind::length);
    const auto read = parse_length(value.text + " " + value.unit, BareNumber::refused);
    if (!read || read->is_interval()) {
        return bad_field(ErrorCode::not_a_length, path, value.text);
    }
    const double mm = read->low.in_mm();
    if (mm < spec->low || mm > spec->high) {
        const double unit = value.unit == "mm" ? 1.0 : Length::mm_per_inch;
        Error error = bad_field(ErrorCode::out_of_range, path, value.text);
        error.limits =
            Limits{spec->low / unit, spec->high / unit, value.unit == "mm" ? "mm" : "in"};
        return error;
    }
    return mm;
}

Result<LiftTable> lift_table_from_text(std::string_view text, std::string_view unit) {
    const auto pairs = pairs_from_text("lift_table", text);
    if (!pairs) {
        return pairs.error();
    }
    const double angle_unit = unit.substr(0, 3) == "cam" ? 1.0 : 0.5;
    const double lift_unit = unit.substr(unit.size() - 2) == "in" ? Length::mm_per_inch : 1.0;
    LiftTable table;
    table.resolution_mm = lift_unit * std::pow(10.0, -pairs->decimals);
    for (const auto& [angle, lift] : pairs->rows) {
        table.rows.push_back({angle * angle_unit, lift * lift_unit});
    }
    return table;
}

Result<Engine> make_engine(const SetUpFields& set_up) {
    LobesMade none;
    return make_engine(set_up, none);
}

Result<Engine> make_engine(const SetUpFields& set_up, LobesMade& made) {
    if (const auto stray = stray_field(set_up)) {
        return *stray;
    }
    FieldReader fields(set_up);
    read_each(fields, set_up);
    if (fields.error()) {
        return *fields.error();
    }
    auto engine =
        is_described(set_up) ? engine_described(set_up, made) : engine_of_places(set_up, made);
    const auto stated_for = set_up.find("doubt/assumed_for");
    if (!engine || stated_for == set_up.end() ||
        stated_for->second.text == described_mark(set_up)) {
        return engine;
    }
    Engine changed_since = *std::move(engine);
    changed_since.assumed_doubt_mm.reset();
    changed_since.assumed_doubt_outdated = true;
    return changed_since;
}

} // namespace rodway
