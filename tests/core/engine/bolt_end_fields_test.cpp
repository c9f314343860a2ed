#include "core/engine/bolt_end_fields.h"

#include <gtest/gtest.h>

#include "core/engine/set_up.h"
#include "core/units/typed_text.h"
#include "tests/core/engine/castings_set_up.h"

namespace rodway {
namespace {

const Obstacle& bolt_of(const Engine& engine) {
    const auto found = std::find_if(engine.obstacles.begin(), engine.obstacles.end(),
                                    [](const Obstacle& one) { return one.name == "bolt 4"; });
    return *found;
}

TEST(BoltEndFields, AreTheBoltsAmongTheObstacles) {
    EXPECT_EQ(bolt_ends_of(castings_set_up()), std::vector<std::string>{"bolt 4"});
    EXPECT_TRUE(bolt_ends_of({}).empty());
}

TEST(BoltEndFields, ALongerBoltEndsFurtherOutAndBeginsWhereItDid) {
    const SetUpFields before = castings_set_up();
    const auto engine = make_engine(before);
    ASSERT_TRUE(engine.ok());
    const auto was = std::get<RoundBar>(bolt_of(*engine).solid);
    for (const Length by : {Length::inches(0.25), Length::mm(-3.0)}) {
        const auto longer = with_bolt_longer(before, "bolt 4", by);
        ASSERT_TRUE(longer.ok());
        const auto made = make_engine(*longer);
        ASSERT_TRUE(made.ok());
        const auto is = std::get<RoundBar>(bolt_of(*made).solid);
        // Each component is rounded to a hundredth of a thousandth of an inch.
        constexpr double rounding_mm = 1e-5 * 25.4;
        EXPECT_NEAR((is.to_K - was.to_K).norm(), std::abs(by.in_mm()), 2.0 * rounding_mm);
        EXPECT_NEAR((is.from_K - was.from_K).norm(), 0.0, 3.0 * rounding_mm);
        const auto out = (was.to_K - was.from_K).normalized();
        EXPECT_NEAR((is.to_K - was.to_K).dot(out), by.in_mm(), 2.0 * rounding_mm);
        // Nothing else has moved.
        int changed = 0;
        for (const auto& [path, value] : *longer) {
            changed += before.at(path) == value ? 0 : 1;
            EXPECT_EQ(before.at(path).unit, value.unit) << path;
        }
        EXPECT_LE(changed, 4);
    }
}

TEST(BoltEndFields, RefuseWhatIsNoBoltOrLacksSomething) {
    SetUpFields fields = castings_set_up();
    EXPECT_EQ(with_bolt_longer(fields, "dowel", Length::mm(1.0)).error().code,
              ErrorCode::no_such_record);
    fields.erase("obstacles/bolt 4/axis/y");
    EXPECT_EQ(with_bolt_longer(fields, "bolt 4", Length::mm(1.0)).error().field,
              "obstacles/bolt 4/axis/y");
    fields = castings_set_up();
    fields["obstacles/bolt 4/point/x"].text = "far";
    EXPECT_EQ(with_bolt_longer(fields, "bolt 4", Length::mm(1.0)).error().field,
              "obstacles/bolt 4/point/x");
}

} // namespace
} // namespace rodway
