#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/core/demo_set_ups.h"
#include "tests/core/sheets/kinds/worked_sheet.h"

namespace rodway {
namespace {

using ::testing::IsEmpty;
using ::testing::SizeIs;

std::vector<SheetFinding> said_of(const char* order, const EnginePlaces* places = nullptr) {
    WrittenReadings written;
    written.write("firing_order", "", order);
    return WorkedSheet("numbering", written, nullptr, places).findings();
}

TEST(NumberingSheet, AFiringOrderNamesEachCylinderOnce) {
    for (const char* good : {"18436572", "1-8-4-3-6-5-7-2", "1 3 4 2", "153624", "18436572 LH"}) {
        EXPECT_THAT(said_of(good), IsEmpty()) << good;
    }
    for (const char* bad : {"18436577", "1843657", "1-3-4", "1 2 9", "clockwise"}) {
        const auto found = said_of(bad);
        ASSERT_THAT(found, SizeIs(1)) << bad;
        EXPECT_EQ(found[0].what, PointedOut::cannot_be) << bad;
        EXPECT_EQ(found[0].other, bad);
    }
}

EnginePlaces four(std::vector<int> order) {
    EnginePlaces places;
    places.cylinders = {1, 2, 3, 4};
    places.firing_order = std::move(order);
    return places;
}

// An order has no beginning: 3421 is 1342.
TEST(NumberingSheet, TheOrderMustBeTheSetUps) {
    const EnginePlaces places = four({1, 3, 4, 2});
    EXPECT_THAT(said_of("1342", &places), IsEmpty());
    EXPECT_THAT(said_of("3421", &places), IsEmpty());
    const auto found = said_of("1243", &places);
    ASSERT_THAT(found, SizeIs(1));
    EXPECT_EQ(found[0].what, PointedOut::differs_from_set_up);
    EXPECT_EQ(found[0].other, "1-3-4-2");
    // Good in itself, of another engine.
    ASSERT_THAT(said_of("153624", &places), SizeIs(1));
    EXPECT_EQ(said_of("153624", &places)[0].what, PointedOut::cannot_be);
}

TEST(NumberingSheet, TheTurningMustBeTheSetUps) {
    Engine engine = demo_engine("flat-four");
    const bool clockwise = engine.layout.turning == Turning::clockwise;
    WrittenReadings same;
    same.write("turning_direction", "", clockwise ? "clockwise" : "counter-clockwise");
    EXPECT_THAT(WorkedSheet("numbering", same, &engine).findings(), IsEmpty());
    WrittenReadings other;
    other.write("turning_direction", "", clockwise ? "counter-clockwise" : "clockwise");
    EXPECT_THAT(WorkedSheet("numbering", other, &engine).found(PointedOut::differs_from_set_up),
                SizeIs(1));
}

} // namespace
} // namespace rodway
