#include "core/sheets/engine_places.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

#include "core/sheets/position.h"

namespace rodway {
namespace {

EnginePlaces v8() {
    EnginePlaces places;
    places.cylinders = {1, 2, 3, 4, 5, 6, 7, 8};
    places.front_to_rear = {1, 2, 3, 4, 5, 6, 7, 8};
    places.firing_order = {1, 8, 4, 3, 6, 5, 7, 2};
    places.banks = {"left", "right"};
    places.main_journals = places.cam_journals = 5;
    for (const int cylinder : places.cylinders) {
        places.valves.push_back({cylinder, ValveKind::intake});
        places.valves.push_back({cylinder, ValveKind::exhaust});
    }
    places.full_lift_order.assign(places.valves.rbegin(), places.valves.rend());
    return places;
}

// A position that isn't as it is kept would be another place to the readings.
TEST(EnginePlaces, EveryUsualPositionIsAsItIsKeptAndStandsOnce) {
    for (const PlaceShape& shape : place_shapes()) {
        std::set<std::string> seen;
        for (const std::string& position :
             usual_positions(shape.place, v8(), EntryOrder::by_number)) {
            const auto kept = kept_position(position, shape.place);
            ASSERT_TRUE(kept) << shape.id << ": " << position;
            EXPECT_EQ(*kept, position) << shape.id;
            EXPECT_TRUE(seen.insert(position).second) << shape.id << ": " << position;
        }
    }
}

TEST(EnginePlaces, AnOrderMovesPositionsAndLosesNone) {
    for (const PlaceShape& shape : place_shapes()) {
        const auto usual = usual_positions(shape.place, v8(), EntryOrder::by_number);
        for (const EntryOrder order :
             {EntryOrder::front_to_rear, EntryOrder::firing_order, EntryOrder::full_lift}) {
            EXPECT_THAT(usual_positions(shape.place, v8(), order),
                        ::testing::UnorderedElementsAreArray(usual))
                << shape.id;
        }
    }
    const auto fired = usual_positions(Place::valve, v8(), EntryOrder::firing_order);
    EXPECT_EQ(fired[2], "8I");
    const auto lifted = usual_positions(Place::valve, v8(), EntryOrder::full_lift);
    EXPECT_EQ(lifted.front(), "8E");
}

TEST(EnginePlaces, ABoreIsReadAtThreeHeightsInTwoDirections) {
    const auto bores = usual_positions(Place::bore, v8(), EntryOrder::by_number);
    ASSERT_EQ(bores.size(), 48U);
    EXPECT_EQ(bores[0], "1 top thrust");
    EXPECT_EQ(bores[47], "8 bottom pin");
}

} // namespace
} // namespace rodway
