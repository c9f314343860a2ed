#include "core/engine/lobes_made.h"

#include <gtest/gtest.h>

#include "tests/core/demo_set_ups.h"

namespace rodway {
namespace {

/// The slow, obvious twin: every lobe made anew.
void expect_as_made_anew(const SetUpFields& fields, LobesMade& made) {
    const auto anew = make_engine(fields);
    const auto again = make_engine(fields, made);
    ASSERT_EQ(anew.ok(), again.ok());
    if (!anew.ok()) {
        EXPECT_EQ(anew.error().field, again.error().field);
        return;
    }
    for (const Train& train : anew->trains) {
        const CamLobes& expected = anew->lobes(train.position);
        const CamLobes& found = again->lobes(train.position);
        EXPECT_EQ(found.lash_mm, expected.lash_mm);
        EXPECT_EQ(found.lobe.estimated(), expected.lobe.estimated());
        for (double cam_deg = -90.0; cam_deg <= 90.0; cam_deg += 7.5) {
            EXPECT_EQ(found.lobe.lift_mm(CamAngle::deg(cam_deg)),
                      expected.lobe.lift_mm(CamAngle::deg(cam_deg)));
        }
    }
}

TEST(LobesMade, AnEngineIsAsIfEveryLobeWereMadeAnew) {
    LobesMade made;
    for (int time = 0; time < 2; ++time) {
        for (const char* demo : demo_names) {
            expect_as_made_anew(demo_fields(demo), made);
        }
    }
    SetUpFields fields = demo_fields("v8-port-tubes");
    // Intake and exhaust don't take each other's.
    std::swap(fields["lobes/intake/lift_table"], fields["lobes/exhaust/lift_table"]);
    expect_as_made_anew(fields, made);
    // One digit of one row.
    std::string& table = fields["lobes/intake/lift_table"].text;
    const auto digit = table.find("0.30") + 3;
    table[digit] = table[digit] == '0' ? '1' : '0';
    expect_as_made_anew(fields, made);
    // The same rows in another unit, and a base circle, which is no part of the curve.
    fields["lobes/intake/lift_table"].unit = "crank_deg/in";
    fields["lobes/intake/base_circle_radius"].text = "0.600";
    expect_as_made_anew(fields, made);
    // Cards that differ in their peak, or in one duration.
    fields.erase("lobes/intake/lift_table");
    for (const char* peak : {".380", ".375"}) {
        for (const char* durations : {".020 264; .050 236", ".020 264; .050 235"}) {
            fields["lobes/intake/card/peak_lift"] = {peak, "in"};
            fields["lobes/intake/card/durations"] = {durations, "in/crank_deg"};
            expect_as_made_anew(fields, made);
        }
    }
    // What was refused stays refused.
    fields["lobes/intake/card/durations"] = {".020 236; .050 264", "in/crank_deg"};
    expect_as_made_anew(fields, made);
    expect_as_made_anew(fields, made);
}

TEST(LobesMade, KeepsNoMoreThanItShould) {
    LobesMade made;
    const auto lobe =
        Lobe::from_law(MotionLaw::cycloidal, 8.0, CamAngle::deg(60.0), CamAngle::deg(60.0));
    ASSERT_TRUE(lobe.ok());
    EXPECT_EQ(made.find("0"), nullptr);
    for (int at = 0; at < 1000; ++at) {
        made.keep(std::to_string(at), *lobe);
        EXPECT_NE(made.find(std::to_string(at)), nullptr) << "the one just kept";
    }
    EXPECT_EQ(made.find("0"), nullptr);
}

} // namespace
} // namespace rodway
