#include "core/clearance/variant_fields.h"

#include <gtest/gtest.h>

#include <set>

#include "core/clearance/survey.h"
#include "core/engine/set_up.h"
#include "tests/core/engine/castings_set_up.h"

namespace rodway {
namespace {

/// Paths of the fields in which two set-ups differ.
std::set<std::string> differing(const SetUpFields& a, const SetUpFields& b) {
    std::set<std::string> paths;
    for (const auto& [path, value] : b) {
        const auto found = a.find(path);
        if (found == a.end() || !(found->second == value)) {
            paths.insert(path);
        }
    }
    EXPECT_EQ(a.size(), b.size());
    return paths;
}

void expect_same_survey(const Engine& a, const Engine& b) {
    const auto lines_a = survey(a);
    const auto lines_b = survey(b);
    ASSERT_EQ(lines_a->size(), lines_b->size());
    for (std::size_t at = 0; at < lines_a->size(); ++at) {
        // Sizes are written to 0.0001 mm; a clearance follows some of them threefold.
        EXPECT_NEAR((*lines_a)[at].found.minimum->clearance_mm,
                    (*lines_b)[at].found.minimum->clearance_mm, 1e-3);
    }
}

TEST(VariantFields, TheSetUpMadeOfThemHasTheTriedClearances) {
    const SetUpFields fields = demo_with_card_lobes();
    const Engine engine = *make_engine(fields);
    const Variant variants[] = {
        {.lifter_taller_mm = 1.27},
        {.rod_thicker_mm = -0.5},
        {.gasket_thicker_mm = {0.381, -0.2}},
        {.rod_longer_mm = 0.4},
        {.ratio_more = 0.03},
        {.adjuster_in_more_mm = 0.7},
        {.lifter_taller_mm = -0.3, .gasket_thicker_mm = {0.1}, .ratio_more = -0.02}};
    for (const Variant& variant : variants) {
        const auto changed = fields_with_variant(fields, engine, variant);
        ASSERT_TRUE(changed.ok()) << changed.error().field;
        expect_same_survey(*make_engine(*changed), *with_variant(engine, variant));
        EXPECT_FALSE(differing(fields, *changed).empty());
    }
}

TEST(VariantFields, OnlyWhatTheVariantChangesIsWrittenAnew) {
    const SetUpFields fields = demo_with_card_lobes();
    const Engine engine = *make_engine(fields);
    const auto gasket = fields_with_variant(fields, engine, {.gasket_thicker_mm = {0.381}});
    EXPECT_EQ(differing(fields, *gasket), (std::set<std::string>{"banks/left/flange/gasket"}));
    EXPECT_EQ(gasket->at("banks/left/flange/gasket").text, "0.075");
    EXPECT_EQ(gasket->at("banks/left/flange/gasket").unit, "in");
    const auto lifters = fields_with_variant(fields, engine, {.lifter_taller_mm = 0.254});
    EXPECT_EQ(differing(fields, *lifters).size(), engine.trains.size());
    EXPECT_TRUE(differing(fields, *lifters).contains("trains/3I/lifter/seat_height"));
    EXPECT_EQ(differing(fields, *fields_with_variant(fields, engine, {})).size(), 0U);
}

TEST(VariantFields, AGasketGivenNewAndCrushedChangesByTheOneThatIsIn) {
    SetUpFields fields = demo_with_card_lobes();
    fields.erase("banks/left/flange/gasket");
    put(fields, "banks/left/flange/gasket_new", ".065");
    put(fields, "banks/left/flange/gasket_crushed", ".060");
    put_word(fields, "banks/left/flange/gasket_state", "crushed");
    const Engine engine = *make_engine(fields);
    const Variant variant{.gasket_thicker_mm = {-0.254}};
    const auto changed = fields_with_variant(fields, engine, variant);
    EXPECT_EQ(differing(fields, *changed),
              (std::set<std::string>{"banks/left/flange/gasket_crushed"}));
    expect_same_survey(*make_engine(*changed), *with_variant(engine, variant));
}

TEST(VariantFields, RefusesWhatNoSizeOfTheSetUpSays) {
    const SetUpFields fields = demo_with_card_lobes();
    const Engine engine = *make_engine(fields);
    const auto code = [&](const Variant& variant) {
        const auto refused = fields_with_variant(fields, engine, variant);
        EXPECT_FALSE(refused.ok());
        return refused.ok() ? std::string() : refused.error().expected;
    };
    EXPECT_EQ(code({.lash_more_mm = 0.1}), "lash_as_found");
    EXPECT_EQ(code({.lobe_lift_more_mm = 0.1}), "lobe_as_measured");
    EXPECT_EQ(code({.head_gasket_thicker_mm = {0.1}}), "gasket_not_stated");
    const auto too_tall = fields_with_variant(fields, engine, {.lifter_taller_mm = 500.0});
    ASSERT_FALSE(too_tall.ok());
    EXPECT_EQ(too_tall.error().code, ErrorCode::out_of_range);
}

} // namespace
} // namespace rodway
