#include "core/engine/set_up.h"

#include <gtest/gtest.h>

#include <cmath>
#include <functional>

#include "core/clearance/survey.h"
#include "core/engine/set_up_fields.h"
#include "core/units/typed_text.h"
#include "tests/core/demo_set_ups.h"

namespace rodway {
namespace {

using Change = std::function<void(SetUpFields&)>;

Result<Engine> changed(const Change& change) {
    static const SetUpFields good = demo_fields("v8-port-tubes");
    SetUpFields fields = good;
    change(fields);
    return make_engine(fields);
}

/// One train stands for all sixteen.
bool of_another_train(const std::string& path) {
    return path.rfind("trains/", 0) == 0 && path.rfind("trains/5E/", 0) != 0;
}

void expect_refused(const Result<Engine>& engine, ErrorCode code, const std::string& field) {
    ASSERT_FALSE(engine.ok()) << field;
    EXPECT_EQ(static_cast<int>(engine.error().code), static_cast<int>(code)) << field;
    EXPECT_EQ(engine.error().field, field);
}

TEST(SetUp, EveryDemoEngineIsMadeAsItsFileSays) {
    for (const char* name : demo_names) {
        EXPECT_TRUE(make_engine(demo_fields(name)).ok()) << name;
    }
    const Engine engine = demo_engine("v8-port-tubes");
    ASSERT_EQ(engine.trains.size(), 16u);
    EXPECT_EQ(engine.layout.cylinders.size(), 8u);
    EXPECT_EQ(engine.layout.firing_angle(8), CrankAngle::deg(90.0)); // 1-8-4-3-6-5-7-2
    const Train* train = engine.train({1, ValveKind::intake, 1});
    ASSERT_NE(train, nullptr);
    EXPECT_DOUBLE_EQ(train->rod.length_mm, 8.97 * 25.4);
    EXPECT_DOUBLE_EQ(train->tube.bore.bore_radius_mm, 0.5625 * 25.4 / 2.0);
    EXPECT_DOUBLE_EQ(train->valve.lash_mm, 0.018 * 25.4);
    EXPECT_DOUBLE_EQ(engine.train({1, ValveKind::exhaust, 1})->valve.lash_mm, 0.020 * 25.4);
    EXPECT_NEAR(train->tube.bore.axis_K.norm(), 1.0, 1e-15);
    EXPECT_DOUBLE_EQ(*engine.assumed_doubt_mm, 0.003 * 25.4);
    // Full lift: intake 106 after, exhaust 112 before the top dead centre of the overlap, 360 after
    // firing.
    EXPECT_EQ(engine.full_lift_angle({8, ValveKind::intake, 1}),
              CrankAngle::deg(90.0 + 360.0 + 106.0));
    EXPECT_EQ(engine.full_lift_angle({8, ValveKind::exhaust, 1}),
              CrankAngle::deg(90.0 + 360.0 - 112.0));
    for (std::size_t at = 1; at < engine.trains.size(); ++at) {
        EXPECT_LT(engine.trains[at - 1].position, engine.trains[at].position);
    }
}

TEST(SetUp, ValvesWithoutATrainAreNamed) {
    EXPECT_TRUE(demo_engine("v8-port-tubes").valves_without_train().empty());
    const auto engine = changed([](SetUpFields& fields) {
        for (const char* train : {"trains/5E/", "trains/2I/"}) {
            std::erase_if(fields,
                          [&](const auto& field) { return field.first.rfind(train, 0) == 0; });
        }
    });
    ASSERT_TRUE(engine.ok());
    const std::vector<ValvePosition> expected{{2, ValveKind::intake, 1},
                                              {5, ValveKind::exhaust, 1}};
    EXPECT_EQ(engine->valves_without_train(), expected);
}

TEST(SetUp, AMissingFieldIsRefusedByItsName) {
    for (const auto& [path, value] : demo_fields("v8-port-tubes")) {
        ASSERT_NE(field_spec(path), nullptr);
        if (of_another_train(path)) {
            continue;
        }
        const std::string leaf = path.substr(path.rfind('/') + 1);
        const bool may_miss = path == "engine/intake_casting" || path == "limits/rod_clearance" ||
                              path == "doubt/assumed" || path == "engine/connecting_rod" ||
                              leaf == "radial_gap" || leaf == "bind_height" ||
                              leaf == "retainer_to_seal" || leaf == "pitch" ||
                              path.rfind("doubt/inputs/", 0) == 0 ||
                              path.rfind("running/", 0) == 0 || path.rfind("hot/", 0) == 0;
        const auto engine = changed([&](SetUpFields& fields) { fields.erase(path); });
        if (may_miss) {
            EXPECT_TRUE(engine.ok()) << path;
        } else {
            expect_refused(engine, ErrorCode::missing_field, path);
        }
    }
}

TEST(SetUp, AValueOutOfItsRangeIsRefusedWithItsLimits) {
    for (const auto& [path, value] : demo_fields("v8-port-tubes")) {
        if (of_another_train(path)) {
            continue;
        }
        const FieldSpec& spec = *field_spec(path);
        std::string unit = value.unit;
        if (spec.kind == FieldKind::length) {
            unit = "mm";
        } else if (spec.kind != FieldKind::angle && spec.kind != FieldKind::crank_angle &&
                   spec.kind != FieldKind::direction) {
            continue;
        }
        for (const double beyond : {spec.low - 0.01, spec.high + 0.01, spec.high + 1e6}) {
            const auto engine = changed([&](SetUpFields& fields) {
                fields[path] = TypedValue{exact_text(beyond), unit};
            });
            expect_refused(engine, ErrorCode::out_of_range, path);
            ASSERT_TRUE(engine.error().limits.has_value()) << path;
            EXPECT_DOUBLE_EQ(engine.error().limits->low, spec.low) << path;
            EXPECT_DOUBLE_EQ(engine.error().limits->high, spec.high) << path;
        }
        for (const char* text : {"", "x", "nan", "inf", "1.2.3"}) {
            const auto engine = changed([&](SetUpFields& fields) { fields[path].text = text; });
            ASSERT_FALSE(engine.ok()) << path << " '" << text << "'";
            EXPECT_EQ(engine.error().field, path) << "'" << text << "'";
        }
    }
    // Limits come in the field's own unit.
    const auto engine = changed([](SetUpFields& fields) { fields["engine/bore"].text = "0.5"; });
    ASSERT_FALSE(engine.ok());
    EXPECT_EQ(engine.error().limits->unit, "in");
    EXPECT_NEAR(engine.error().limits->low, 40.0 / 25.4, 1e-12);
}

TEST(SetUp, AFieldOrUnitNobodyAskedForIsRefused) {
    for (const char* path : {"engine/colour", "engine", "trains/1I/rod", "trains/1I/rod/length/x",
                             "trains//rod/length", "", "/"}) {
        expect_refused(changed([&](SetUpFields& fields) {
                           fields[path] = {"1", "in"};
                       }),
                       ErrorCode::unknown_field, path);
    }
    expect_refused(changed([](SetUpFields& f) { f["engine/bore"].unit = ""; }),
                   ErrorCode::wrong_type, "engine/bore");
    expect_refused(changed([](SetUpFields& f) { f["engine/bore"].unit = "deg"; }),
                   ErrorCode::wrong_type, "engine/bore");
    expect_refused(changed([](SetUpFields& f) { f["engine/name"].unit = "in"; }),
                   ErrorCode::wrong_type, "engine/name");
}

TEST(SetUp, RefusesWhatDoesNotBelongTogether) {
    using C = ErrorCode;
    const auto text = [](const char* path, const char* value) {
        return changed([&](SetUpFields& fields) { fields.at(path).text = value; });
    };
    expect_refused(text("engine/firing_order", "1-8-4-3-6-5-7-1"), C::cylinder_twice,
                   "engine/firing_order");
    expect_refused(text("engine/firing_order", "1-8-4-3-6-5-7"), C::cylinder_missing,
                   "engine/firing_order");
    expect_refused(text("engine/firing_order", "1-8-4-3-6-5-7-9"), C::cylinder_unknown,
                   "engine/firing_order");
    expect_refused(text("engine/firing_order", "round"), C::not_a_firing_order,
                   "engine/firing_order");
    expect_refused(text("engine/arrangement", "square"), C::not_a_choice, "engine/arrangement");
    expect_refused(text("engine/name", ""), C::empty_text, "engine/name");
    expect_refused(text("cylinders/3/bank", "middle"), C::not_a_choice, "cylinders/3/bank");
    expect_refused(text("trains/3I/tube/bore", ".3125"), C::bore_smaller_than_rod,
                   "trains/3I/tube/bore");
    expect_refused(text("trains/3I/rod/diameter", ".5625"), C::bore_smaller_than_rod,
                   "trains/3I/tube/bore");
    EXPECT_TRUE(text("trains/3I/rod/diameter", ".5624").ok());
    const auto turned = changed([](SetUpFields& fields) {
        for (const char* axis : {"x", "y", "z"}) {
            std::string& component = fields.at(std::string("trains/3I/tube/axis/") + axis).text;
            component = component[0] == '-' ? component.substr(1) : "-" + component;
        }
    });
    expect_refused(turned, C::passage_swapped, "trains/3I/tube/axis");
    const auto valve_turned = changed([](SetUpFields& fields) {
        for (const char* axis : {"y", "z"}) {
            std::string& component = fields.at(std::string("trains/3I/valve/axis/") + axis).text;
            component = component[0] == '-' ? component.substr(1) : "-" + component;
        }
    });
    expect_refused(valve_turned, C::valve_swapped, "trains/3I/valve/axis");
    const auto no_flange = changed([](SetUpFields& fields) {
        for (const char* field :
             {"gasket", "gasket_when_located", "normal/x", "normal/y", "normal/z"}) {
            fields.erase(std::string("banks/left/flange/") + field);
        }
    });
    expect_refused(no_flange, C::missing_field,
                   "banks/left/flange"); // its tubes move with the intake
    const auto no_axis = changed([](SetUpFields& fields) {
        for (const char* axis : {"x", "y", "z"}) {
            fields.at(std::string("trains/3I/valve/axis/") + axis).text = "0";
        }
    });
    expect_refused(no_axis, C::not_a_direction, "trains/3I/valve/axis");
    const auto moved_to = [](const std::string& valve) {
        return changed([&](SetUpFields& fields) {
            SetUpFields made;
            for (const auto& [path, value] : fields) {
                const bool of_train = path.rfind("trains/3I/", 0) == 0;
                made[of_train ? "trains/" + valve + path.substr(9) : path] = value;
            }
            fields = made;
        });
    };
    expect_refused(moved_to("9I"), C::valve_unknown, "trains/9I");
    expect_refused(moved_to("3X"), C::not_a_position, "trains/3X");
    expect_refused(moved_to("3i"), C::not_a_position, "trains/3i"); // one name for one valve
    const auto parallel = changed([](SetUpFields& fields) {
        fields.at("banks/left/lean").text = "45";
        fields.at("banks/left/flange/normal/y").text = "-1";
    });
    ASSERT_FALSE(parallel.ok());
    EXPECT_EQ(parallel.error().code, C::banks_parallel);
    EXPECT_EQ(parallel.error().field, "banks/left/flange/normal");
    const auto no_trains = changed(
        [](SetUpFields& fields) { fields.erase(fields.lower_bound("trains/"), fields.end()); });
    expect_refused(no_trains, C::missing_field, "trains");
}

/// Multiplies the number of one field.
void scale(SetUpFields& fields, const std::string& path, double factor) {
    TypedValue& value = fields.at(path);
    value.text = exact_text(
        parse_length(value.text + " " + value.unit, BareNumber::refused)->low.in_mm() * factor);
    value.unit = "mm";
}

// Inches taken for millimetres, or the other way: sizes are refused outright.
TEST(SetUp, ASizeOffByTheInchIsRefused) {
    for (const char* path :
         {"engine/bore", "engine/stroke", "lobes/intake/base_circle_radius",
          "trains/1I/lifter/seat_height", "trains/1I/rod/length", "trains/1I/rod/diameter",
          "trains/1I/tube/length", "trains/1I/tube/bore"}) {
        for (const double factor : {25.4, 1.0 / 25.4}) {
            expect_refused(changed([&](SetUpFields& f) { scale(f, path, factor); }),
                           ErrorCode::out_of_range, path);
        }
    }
    for (const char* unit : {"cam_deg/mm", "crank_deg/mm"}) {
        const auto engine =
            changed([&](SetUpFields& f) { f.at("lobes/intake/lift_table").unit = unit; });
        expect_refused(engine, ErrorCode::out_of_range, "lobes/intake/lift_table");
    }
}

// A place can't be too large by itself: then no clearance comes of it.
TEST(SetUp, APlaceOffByTheInchNeverHasAClearance) {
    for (const char* point : {"lifter/foot", "rocker/pivot", "rocker/ball_arm", "tube/centre"}) {
        for (const double factor : {25.4, 1.0 / 25.4}) {
            const auto engine = changed([&](SetUpFields& fields) {
                for (const char* axis : {"/x", "/y", "/z"}) {
                    scale(fields, std::string("trains/1I/") + point + axis, factor);
                }
            });
            if (!engine.ok()) {
                continue;
            }
            const auto lines = survey(*engine);
            ASSERT_TRUE(lines.ok());
            EXPECT_NE(lines->front().found.status, TrainStatus::answered)
                << point << " × " << factor;
            EXPECT_FALSE(lines->front().verdict.has_value());
        }
    }
    // The whole file in the wrong unit is refused.
    for (const double factor : {25.4, 1.0 / 25.4}) {
        EXPECT_FALSE(changed([&](SetUpFields& fields) {
                         for (const auto& [path, value] : demo_fields("v8-port-tubes")) {
                             if (field_spec(path)->kind == FieldKind::length) {
                                 scale(fields, path, factor);
                             }
                         }
                     }).ok());
    }
}

TEST(SetUp, ACardServesWhereThereIsNoTable) {
    const auto with_card = [](const char* durations) {
        return changed([&](SetUpFields& fields) {
            fields.erase("lobes/intake/lift_table");
            fields["lobes/intake/card/peak_lift"] = {".380", "in"};
            fields["lobes/intake/card/durations"] = {durations, "in/crank_deg"};
        });
    };
    const auto engine = with_card(".020 264; .050 236");
    ASSERT_TRUE(engine.ok());
    EXPECT_TRUE(engine->intake.lobe.estimated());
    EXPECT_FALSE(engine->exhaust.lobe.estimated());
    EXPECT_NEAR(engine->intake.lobe.full_lift_mm(), 0.380 * 25.4, 1e-6);
    expect_refused(with_card(".020 264"), ErrorCode::too_few_rows, "lobes/intake/card/durations");
    expect_refused(with_card(".020 264; .050 wide"), ErrorCode::not_a_number,
                   "lobes/intake/card/durations");
    expect_refused(with_card(".020 236; .050 264"), ErrorCode::order_wrong,
                   "lobes/intake/card/durations");
}

TEST(LiftTableText, ReadsItsUnitsAndSteps) {
    const auto table = lift_table_from_text("-2 0.0000; 0 .3500;4 0.1", "crank_deg/in");
    ASSERT_TRUE(table.ok());
    EXPECT_EQ(table->rows.size(), 3u);
    EXPECT_DOUBLE_EQ(table->rows[0].cam_deg, -1.0);
    EXPECT_DOUBLE_EQ(table->rows[2].cam_deg, 2.0);
    EXPECT_DOUBLE_EQ(table->rows[1].lift_mm, 0.35 * 25.4);
    EXPECT_DOUBLE_EQ(table->resolution_mm, 0.0001 * 25.4);
    EXPECT_DOUBLE_EQ(lift_table_from_text("1 8.25", "cam_deg/mm")->resolution_mm, 0.01);
    const auto wrong = lift_table_from_text("1 0; 2", "cam_deg/mm");
    ASSERT_FALSE(wrong.ok());
    EXPECT_EQ(wrong.error().code, ErrorCode::not_a_number);
    EXPECT_EQ(wrong.error().line, 2);
}

} // namespace
} // namespace rodway
