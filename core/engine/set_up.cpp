#include "core/engine/set_up.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "core/engine/set_up_fields.h"
#include "core/units/typed_text.h"

namespace rodway {
namespace {

Error bad_field(ErrorCode code, std::string_view path, std::string_view value,
                std::string_view expected = {}) {
    return {code, std::string(path), std::string(value), std::string(expected), {}, {}};
}

/// Pairs of numbers, "a b; a b; …".
struct Pairs {
    std::vector<std::pair<double, double>> rows;
    int decimals = 0; ///< of the second numbers, the most there are
};

Result<Pairs> pairs_from_text(std::string_view path, std::string_view text) {
    Pairs pairs;
    while (!text.empty()) {
        const auto end = text.find(';');
        std::string_view row = text.substr(0, end);
        text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
        while (!row.empty() && row.front() == ' ') {
            row.remove_prefix(1);
        }
        const auto gap = row.find(' ');
        const auto first = parse_number(row.substr(0, gap));
        const auto second =
            gap == std::string_view::npos ? first : parse_number(row.substr(gap + 1));
        if (!first || !second || gap == std::string_view::npos) {
            Error error = bad_field(ErrorCode::not_a_number, path, row);
            error.line = static_cast<int>(pairs.rows.size()) + 1;
            return error;
        }
        pairs.rows.emplace_back(*first, *second);
        const auto point = row.find('.', gap);
        if (point != std::string_view::npos) {
            pairs.decimals = std::max(pairs.decimals, static_cast<int>(row.size() - point - 1));
        }
    }
    return pairs;
}

/// Takes fields one by one, and keeps the first thing that was wrong.
class Fields {
  public:
    explicit Fields(const SetUpFields& fields) : fields_(fields) {}

    [[nodiscard]] bool has(const std::string& path) const { return fields_.count(path) > 0; }
    [[nodiscard]] bool has_any_under(const std::string& path) const {
        const auto next = fields_.lower_bound(path + "/");
        return next != fields_.end() && next->first.compare(0, path.size() + 1, path + "/") == 0;
    }
    [[nodiscard]] const std::optional<Error>& error() const { return error_; }
    void refuse(Error error) {
        if (!error_) {
            error_ = std::move(error);
        }
    }

    std::string words(const std::string& path) {
        const TypedValue* value = find(path);
        if (value && value->text.empty()) {
            refuse(bad_field(ErrorCode::empty_text, path, {}));
        }
        return value ? value->text : std::string();
    }

    double length_mm(const std::string& path) {
        const TypedValue* value = find(path);
        if (!value) {
            return 0.0;
        }
        const auto read = length_field_mm(path, *value);
        if (!read) {
            refuse(read.error());
            return 0.0;
        }
        return *read;
    }

    double angle_deg(const std::string& path) {
        const TypedValue* value = find(path);
        if (!value) {
            return 0.0;
        }
        const auto number = parse_number(value->text);
        if (!number) {
            refuse(bad_field(ErrorCode::not_an_angle, path, value->text));
            return 0.0;
        }
        const FieldSpec* spec = field_spec(path);
        if (*number < spec->low || *number > spec->high) {
            Error error = bad_field(ErrorCode::out_of_range, path, value->text);
            error.limits = Limits{spec->low, spec->high, value->unit};
            refuse(error);
        }
        return *number;
    }

    Vec3 point_mm(const std::string& path) {
        const double x = length_mm(path + "/x");
        const double y = length_mm(path + "/y");
        return {x, y, length_mm(path + "/z")};
    }

    /// A direction, made of unit length. Its components may be typed to few digits.
    Vec3 direction(const std::string& path) {
        Vec3 axis = Vec3::Zero();
        static constexpr std::array<const char*, 3> names{"/x", "/y", "/z"};
        for (int at = 0; at < 3; ++at) {
            const std::string component = path + names[static_cast<std::size_t>(at)];
            const TypedValue* value = find(component);
            if (!value) {
                return Vec3::UnitZ();
            }
            const auto number = parse_number(value->text);
            if (!number || std::abs(*number) > 1.0 + 1e-6) {
                Error error = bad_field(number ? ErrorCode::out_of_range : ErrorCode::not_a_number,
                                        component, value->text);
                error.limits = Limits{-1.0, 1.0, {}};
                refuse(error);
                return Vec3::UnitZ();
            }
            axis[at] = *number;
        }
        if (std::abs(axis.norm() - 1.0) > 0.01) {
            refuse(bad_field(ErrorCode::not_a_direction, path, exact_text(axis.norm()), "1"));
            return Vec3::UnitZ();
        }
        return axis.normalized();
    }

    /// Place of the word in the field's list of choices.
    std::size_t choice(const std::string& path) {
        const TypedValue* value = find(path);
        if (!value) {
            return 0;
        }
        const std::string_view choices = field_spec(path)->choices;
        std::size_t place = 0;
        for (std::size_t start = 0; start < choices.size(); ++place) {
            const std::size_t end = std::min(choices.find(' ', start), choices.size());
            if (choices.substr(start, end - start) == value->text) {
                return place;
            }
            start = end + 1;
        }
        refuse(bad_field(ErrorCode::not_a_choice, path, value->text, choices));
        return 0;
    }

    /// Names that stand at the place of the `*` in "banks/*/…".
    std::vector<std::string> names_under(const std::string& root) const {
        std::set<std::string> names;
        for (auto at = fields_.lower_bound(root + "/"); at != fields_.end(); ++at) {
            const auto parts = path_parts(at->first);
            if (parts[0] != root) {
                break;
            }
            names.insert(parts[1]);
        }
        return {names.begin(), names.end()};
    }

    const TypedValue* find(const std::string& path) {
        const auto found = fields_.find(path);
        if (found == fields_.end()) {
            refuse(bad_field(ErrorCode::missing_field, path, {}));
            return nullptr;
        }
        return &found->second;
    }

  private:
    const SetUpFields& fields_;
    std::optional<Error> error_;
};

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

void read_banks(Fields& fields, Engine& engine) {
    for (const std::string& name : fields.names_under("banks")) {
        const std::string path = "banks/" + name;
        Bank bank;
        bank.name = name;
        bank.lean_deg = fields.angle_deg(path + "/lean");
        bank.frame = BankFrame(radians(bank.lean_deg));
        engine.layout.banks.push_back(bank);
        std::optional<FlangeSetting> flange;
        if (fields.has_any_under(path + "/flange")) {
            flange = FlangeSetting{fields.direction(path + "/flange/normal"),
                                   fields.length_mm(path + "/flange/gasket"),
                                   fields.length_mm(path + "/flange/gasket_when_located")};
        }
        engine.flanges.push_back(flange);
    }
    if (engine.layout.banks.empty()) {
        fields.refuse(bad_field(ErrorCode::missing_field, "banks", {}));
    }
}

void read_cylinders(Fields& fields, EngineLayout& layout) {
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

void read_layout(Fields& fields, Engine& engine) {
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

std::optional<Lobe> read_lobe(Fields& fields, const std::string& path) {
    const std::string table_path = path + "/lift_table";
    if (fields.has(table_path)) {
        const TypedValue* value = fields.find(table_path);
        const auto table = lift_table_from_text(value->text, value->unit);
        auto lobe = table ? Lobe::from_table(*table) : Result<Lobe>(table.error());
        if (!lobe) {
            Error error = lobe.error();
            error.field = table_path;
            fields.refuse(error);
            return std::nullopt;
        }
        return *lobe;
    }
    if (!fields.has(path + "/card/durations")) {
        fields.refuse(bad_field(ErrorCode::missing_field, table_path, {}));
        return std::nullopt;
    }
    const double peak = fields.length_mm(path + "/card/peak_lift");
    const TypedValue* value = fields.find(path + "/card/durations");
    const auto pairs = pairs_from_text(path + "/card/durations", value->text);
    if (!pairs) {
        fields.refuse(pairs.error());
        return std::nullopt;
    }
    const double unit = value->unit == "in/crank_deg" ? Length::mm_per_inch : 1.0;
    std::vector<CardDuration> durations;
    for (const auto& [lift, duration] : pairs->rows) {
        durations.push_back({lift * unit, duration});
    }
    const auto lobe = Lobe::from_card(peak, durations);
    if (!lobe) {
        Error error = lobe.error();
        error.field = path + "/card/durations";
        error.value = value->text;
        fields.refuse(error);
        return std::nullopt;
    }
    return *lobe;
}

std::optional<CamLobes> read_lobes(Fields& fields, const std::string& kind) {
    const std::string path = "lobes/" + kind;
    std::optional<Lobe> lobe = read_lobe(fields, path);
    const double base = fields.length_mm(path + "/base_circle_radius");
    const double lash = fields.length_mm(path + "/lash");
    const double centreline = fields.angle_deg(path + "/centreline");
    if (!lobe) {
        return std::nullopt;
    }
    return CamLobes{*lobe, base, lash, centreline};
}

/// What a train's fields must mean together.
void check_train(Fields& fields, const Engine& engine, const Train& train,
                 const std::string& path) {
    const auto arm_across = [&](const Vec3& arm) {
        return (arm - arm.dot(train.rocker.axis_K) * train.rocker.axis_K).norm();
    };
    const auto need = [&](double value, double low, double high, const std::string& field) {
        if (value < low || value > high) {
            Error error = bad_field(ErrorCode::out_of_range, path + field, exact_text(value));
            error.limits = Limits{low, high, "mm"};
            fields.refuse(error);
        }
    };
    need(arm_across(train.rocker.ball_arm_K), 5.0, 300.0, "/rocker/ball_arm");
    need(arm_across(train.lifter.lower_ball_K() - train.rocker.pivot_K), 5.0, 1000.0,
         "/lifter/foot");
    const RoundTube& bore = train.tube.bore;
    if (2.0 * bore.bore_radius_mm <= train.rod.diameter_mm) {
        Error error =
            bad_field(ErrorCode::bore_smaller_than_rod, path + "/tube/bore",
                      exact_text(2.0 * bore.bore_radius_mm), exact_text(train.rod.diameter_mm));
        fields.refuse(error);
    }
    if (train.tube.casting == TubeCasting::intake && !engine.flanges[train.bank]) {
        fields.refuse(bad_field(ErrorCode::missing_field,
                                "banks/" + engine.layout.banks[train.bank].name + "/flange", {}));
    }
    const auto closing = Linkage::close(train);
    const double full_lift = engine.lobes(train.position).lobe.full_lift_mm();
    const auto lifted = closing.linkage ? closing.linkage->at(full_lift) : std::nullopt;
    if (lifted && closing.linkage->gross_lift_mm(*lifted) < 0.0) {
        fields.refuse(bad_field(ErrorCode::valve_swapped, path + "/valve/axis", {}));
    }
    const Vec3 rod = train.rocker.pivot_K + train.rocker.ball_arm_K - train.lifter.lower_ball_K();
    if (bore.axis_K.dot(rod) < 0.0) {
        fields.refuse(bad_field(ErrorCode::passage_swapped, path + "/tube/axis", {}));
    }
}

void read_train(Fields& fields, Engine& engine, const std::string& name) {
    const std::string path = "trains/" + name;
    const auto position = parse_position(name);
    if (!position || position_name(*position) != name) {
        fields.refuse(bad_field(ErrorCode::not_a_position, path, name, "3I"));
        return;
    }
    if (position->cylinder > static_cast<int>(engine.layout.cylinders.size())) {
        fields.refuse(bad_field(ErrorCode::valve_unknown, path, name));
        return;
    }
    Train train;
    train.position = *position;
    train.bank = engine.layout.cylinder(position->cylinder).bank;
    train.lifter.foot_K = fields.point_mm(path + "/lifter/foot");
    train.lifter.axis_K = fields.direction(path + "/lifter/axis");
    train.lifter.seat_height_mm = fields.length_mm(path + "/lifter/seat_height");
    train.rod.length_mm = fields.length_mm(path + "/rod/length");
    train.rod.diameter_mm = fields.length_mm(path + "/rod/diameter");
    train.rocker.pivot_K = fields.point_mm(path + "/rocker/pivot");
    train.rocker.axis_K = fields.direction(path + "/rocker/axis");
    train.rocker.ball_arm_K = fields.point_mm(path + "/rocker/ball_arm");
    train.rocker.tip_arm_K = fields.point_mm(path + "/rocker/tip_arm");
    train.adjuster.axis_K = fields.direction(path + "/adjuster/axis");
    train.adjuster.can_go_in_mm = fields.length_mm(path + "/adjuster/thread_towards_rod");
    train.adjuster.can_go_out_mm = fields.length_mm(path + "/adjuster/thread_away_from_rod");
    train.valve.axis_K = fields.direction(path + "/valve/axis");
    train.valve.lash_mm = engine.lobes(position->kind).lash_mm;
    train.tube.casting =
        fields.choice(path + "/tube/casting") == 0 ? TubeCasting::intake : TubeCasting::head;
    train.tube.bore.centre_K = fields.point_mm(path + "/tube/centre");
    train.tube.bore.axis_K = fields.direction(path + "/tube/axis");
    train.tube.bore.length_mm = fields.length_mm(path + "/tube/length");
    train.tube.bore.bore_radius_mm = fields.length_mm(path + "/tube/bore") / 2.0;
    if (!fields.error()) {
        check_train(fields, engine, train, path);
        engine.trains.push_back(train);
    }
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
    if (const auto stray = stray_field(set_up)) {
        return *stray;
    }
    Fields fields(set_up);
    const auto intake = read_lobes(fields, "intake");
    const auto exhaust = read_lobes(fields, "exhaust");
    if (fields.error()) {
        return *fields.error();
    }
    Engine engine{.intake = *intake, .exhaust = *exhaust};
    read_layout(fields, engine);
    if (fields.has("limits/rod_clearance")) {
        engine.rod_clearance_limit_mm = fields.length_mm("limits/rod_clearance");
    }
    if (fields.has("doubt/assumed")) {
        engine.assumed_doubt_mm = fields.length_mm("doubt/assumed");
    }
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
        // Flanges that don't fix the intake are bad input, not something for each rod to find out.
        for (std::size_t bank = 0; bank < engine.layout.banks.size(); ++bank) {
            if (const auto moved = engine.intake_movement_K(bank); !moved) {
                fields.refuse(moved.error());
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

} // namespace rodway
