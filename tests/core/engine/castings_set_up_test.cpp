// What holds for every field of moving castings, passages, obstacles and bodies alike.
#include "tests/core/engine/castings_set_up.h"

#include <algorithm>
#include <vector>

#include "core/engine/set_up_fields.h"
#include "core/units/typed_text.h"

namespace rodway {
namespace {

/// The fields that the demo doesn't have.
std::vector<std::string> added_paths() {
    const SetUpFields demo = demo_with_card_lobes();
    std::vector<std::string> added;
    for (const auto& [path, value] : castings_set_up()) {
        if (demo.count(path) == 0) {
            added.push_back(path);
        }
    }
    return added;
}

bool is_of_castings(const std::string& pattern) {
    for (const char* start :
         {"banks/*/deck_milled", "banks/*/head/", "banks/*/flange/", "trains/*/tube/",
          "trains/*/passages/", "trains/*/rocker/body/", "trains/*/lifter/body_", "obstacles/"}) {
        if (pattern.rfind(start, 0) == 0) {
            return true;
        }
    }
    return false;
}

TEST(CastingsSetUp, EveryFieldOfItIsReadAndSurvivesItsFile) {
    const SetUpFields fields = castings_set_up();
    const auto engine = make_engine(fields);
    ASSERT_TRUE(engine.ok()) << engine.error().field;
    for (const FieldSpec& spec : set_up_field_specs()) {
        const bool there = std::any_of(fields.begin(), fields.end(), [&](const auto& field) {
            return field_spec(field.first) == &spec;
        });
        EXPECT_TRUE(there || !is_of_castings(std::string(spec.pattern))) << spec.pattern;
    }
    const std::string written = write_set_up_file(fields);
    const auto again = read_set_up_file(written);
    ASSERT_TRUE(again.ok()) << again.error().field;
    EXPECT_EQ(*again, fields);
    EXPECT_EQ(write_set_up_file(*again), written);
}

// A name may hold anything but a slash: file and fields take it as it is.
TEST(CastingsSetUp, NamesSurviveTheirFile) {
    SetUpFields fields = demo_with_card_lobes();
    for (const char* name : {"x", "10", "9", "tube 2", "gauge_in", "axis", "\"quoted\" \\",
                             "Stößelrohr", "kind", " "}) {
        put_obstacle(fields, name, "box", "head");
        put_passage(fields, std::string("trains/1E/passages/") + name, "slot", "head");
    }
    const auto engine = make_engine(fields);
    ASSERT_TRUE(engine.ok()) << engine.error().field;
    EXPECT_EQ(engine->obstacles.size(), 10u);
    EXPECT_EQ(engine->train({1, ValveKind::exhaust, 1})->further_passages.size(), 10u);
    const auto again = read_set_up_file(write_set_up_file(fields));
    ASSERT_TRUE(again.ok()) << again.error().field;
    EXPECT_EQ(*again, fields);
}

TEST(CastingsSetUp, AValueOutOfItsRangeIsRefusedWithItsLimits) {
    for (const std::string& path : added_paths()) {
        const FieldSpec& spec = *field_spec(path);
        if (spec.kind == FieldKind::choice) {
            SetUpFields fields = castings_set_up();
            fields.at(path).text = "sideways";
            expect_refused_at(make_engine(fields), ErrorCode::not_a_choice, path);
            continue;
        }
        if (spec.kind != FieldKind::length && spec.kind != FieldKind::direction) {
            continue;
        }
        for (const double beyond : {spec.low - 0.01, spec.high + 0.01}) {
            SetUpFields fields = castings_set_up();
            fields.at(path) = {exact_text(beyond), spec.kind == FieldKind::length ? "mm" : ""};
            const auto engine = make_engine(fields);
            expect_refused_at(engine, ErrorCode::out_of_range, path);
            EXPECT_DOUBLE_EQ(engine.error().limits->low, spec.low) << path;
            EXPECT_DOUBLE_EQ(engine.error().limits->high, spec.high) << path;
        }
        for (const char* text : {"", "x", "nan", "inf", "1e400"}) {
            SetUpFields fields = castings_set_up();
            fields.at(path).text = text;
            const auto engine = make_engine(fields);
            ASSERT_FALSE(engine.ok()) << path << " '" << text << "'";
            EXPECT_EQ(engine.error().field, path) << "'" << text << "'";
        }
    }
}

TEST(CastingsSetUp, AFieldThatItsKindNeedsIsMissedByName) {
    const auto may_miss = [](const std::string& path) {
        for (const char* end : {"/deck_milled", "/deck_face_milled", "/spacer",
                                "/spacer_when_located", "_face_milled", "_edge", "/wall",
                                "/fitted_doubt", "/lifter/body_diameter", "/lifter/body_length"}) {
            const std::string_view ending = end;
            if (path.size() > ending.size() &&
                path.compare(path.size() - ending.size(), ending.size(), ending) == 0) {
                return true;
            }
        }
        // Of a gasket's two thicknesses only the one that is in counts.
        return path == "banks/left/head/gasket_new" || path == "banks/left/flange/gasket_crushed";
    };
    int needed = 0;
    for (const std::string& path : added_paths()) {
        SetUpFields fields = castings_set_up();
        fields.erase(path);
        const auto engine = make_engine(fields);
        if (may_miss(path)) {
            EXPECT_TRUE(engine.ok()) << path;
        } else if (path == "trains/1E/tube/shape") {
            // Round then, and a round tube has no long way.
            expect_refused_at(engine, ErrorCode::not_of_this_kind, "trains/1E/tube/long_bore");
        } else {
            expect_refused_at(engine, ErrorCode::missing_field, path);
            ++needed;
        }
    }
    EXPECT_GT(needed, 80);
}

} // namespace
} // namespace rodway
