#include "core/build/engine_place.h"

#include <gmock/gmock.h>

namespace rodway {
namespace {

const BanksOfCylinders banks{{3, "left"}, {4, "right"}};

EnginePlace at(const std::string& position, Place place) {
    return place_of_position(position, place);
}

TEST(EnginePlace, ReadsPositionsPathsAndParts) {
    EXPECT_EQ(at("3I", Place::valve).cylinder, 3);
    EXPECT_EQ(at("3I", Place::valve).valve->kind, ValveKind::intake);
    EXPECT_EQ(at("3I/tube/rocker/3/full_lift", Place::rod_gap).cylinder, 3);
    EXPECT_EQ(at("left front", Place::spot).bank, "left");
    EXPECT_EQ(at("main 2 bolt 1", Place::bolt).joint, "main");
    EXPECT_EQ(at("head left bolt 7", Place::bolt).joint, "head");
    EXPECT_EQ(at("head left bolt 7", Place::bolt).bank, "left");
    EXPECT_EQ(at("nowhere", Place::valve).cylinder, std::nullopt);
    EXPECT_EQ(place_of_path("trains/3I/rod/length").valve->cylinder, 3);
    EXPECT_EQ(place_of_path("banks/left/head/gasket").bank, "left");
    EXPECT_EQ(place_of_path("cylinders/4/bank").cylinder, 4);
    EXPECT_EQ(place_of_path("lobes/intake/lash").valve, std::nullopt);
    EXPECT_EQ(place_of_path("obstacles/3I/length").valve, std::nullopt);
    EXPECT_EQ(places_of_part("3I, cyl 4, left").size(), 3u);
    EXPECT_TRUE(places_of_part("").empty());
    EXPECT_TRUE(places_of_part("3I, somewhere").empty());
}

TEST(EnginePlace, AChangeReachesAsFarAsItIsKnown) {
    using R = DependenceReach;
    const EnginePlace valve = at("3I", Place::valve);
    const auto to = [&](const EnginePlace& change, const EnginePlace& check, R reach) {
        return reaches(change, check, reach, banks);
    };
    EXPECT_TRUE(to(valve, at("3I", Place::valve), R::valve));
    EXPECT_FALSE(to(valve, at("3E", Place::valve), R::valve));
    EXPECT_TRUE(to(valve, at("3E", Place::valve), R::cylinder));
    EXPECT_FALSE(to(valve, at("4I", Place::valve), R::cylinder));
    EXPECT_FALSE(to(valve, at("4I", Place::valve), R::bank));
    EXPECT_TRUE(to(valve, at("4I", Place::valve), R::engine));
    EXPECT_TRUE(to(valve, at("3", Place::cylinder), R::valve)); // of its cylinder
    EXPECT_FALSE(to(valve, at("4", Place::cylinder), R::valve));
    EXPECT_TRUE(to(at("left", Place::bank), valve, R::valve));
    EXPECT_FALSE(to(at("right", Place::bank), valve, R::valve));
    EXPECT_TRUE(to(EnginePlace(), valve, R::valve)); // nobody knows where
    EXPECT_TRUE(to(valve, EnginePlace(), R::valve));
    EXPECT_TRUE(reaches(at("right", Place::bank), valve, R::bank, {})); // nor in which bank
}

TEST(EnginePlace, BanksComeOutOfTheSetUp) {
    EXPECT_EQ(banks_of_cylinders({{"cylinders/3/bank", {"left", ""}},
                                  {"cylinders/4/bank", {"right", ""}},
                                  {"cylinders/4/centre_x", {"4.5", "in"}}}),
              banks);
}

} // namespace
} // namespace rodway
