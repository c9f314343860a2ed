#include "db/alike_builds.h"

#include "tests/db/shop_test.h"

namespace rodway {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::SizeIs;

class AlikeBuildsTest : public ShopTest {
  protected:
    void add_build(std::int64_t id, const char* customer, const char* engine) {
        take(apply(shop_,
                   edits_to_create(Build{id, "Build " + std::to_string(id), customer, engine,
                                         std::nullopt, std::nullopt, std::nullopt}),
                   "Dee", noon));
    }
    void read(std::int64_t build, const char* position, const char* text,
              const char* quantity = "spring_installed_height") {
        Reading reading;
        reading.id = ++last_reading_;
        reading.build_id = build;
        reading.quantity = quantity;
        reading.position = position;
        reading.text = text;
        reading.unit = "in";
        reading.taken_by = "Dee";
        reading.taken_at = noon;
        take(apply(shop_, edits_to_create(reading), "Dee", noon));
    }
    std::vector<std::int64_t> found(std::int64_t build, int most = 10) {
        std::vector<std::int64_t> ids;
        for (const AlikeBuild& one :
             take(alike_builds(shop_, build, "spring_installed_height", most))) {
            ids.push_back(one.build_id);
        }
        return ids;
    }

    ShopFile shop_ = new_shop();
    std::int64_t last_reading_ = 0;
};

TEST_F(AlikeBuildsTest, SameFamilyOrSameCustomerTheNewestFirst) {
    add_build(1, "R. Marsh", "Halden 402 V8, solid tappets");
    add_build(2, "O. Vik", "halden 402 v8 , roller");    // same family, written otherwise
    add_build(3, "r. marsh", "Corran flat four");        // same customer
    add_build(4, "O. Vik", "Halden 402 V8 marine, wet"); // another family
    add_build(5, "O. Vik", "Halden 402 V8");
    add_build(6, "O. Vik", "Halden 402 V8");
    for (const std::int64_t build : {1, 2, 3, 4, 5}) {
        read(build, "1I", "1.810");
    }
    read(6, "J2", "2.448", "main_diameter"); // nothing of this quantity
    EXPECT_THAT(found(1), ElementsAre(5, 3, 2));
    EXPECT_THAT(found(1, 2), ElementsAre(5, 3));
    EXPECT_THAT(found(3), ElementsAre(1));
    const auto all = take(alike_builds(shop_, 1, "spring_installed_height", 10));
    EXPECT_EQ(all[0].because, Alike::engine);
    EXPECT_EQ(all[1].because, Alike::customer);
    EXPECT_EQ(all[1].name, "Build 3");
    EXPECT_EQ(all[2].engine, "halden 402 v8 , roller");
}

TEST_F(AlikeBuildsTest, OfRetakesTheLastCountsAndOtherQuantitiesStayOut) {
    add_build(1, "R. Marsh", "Halden 402 V8");
    add_build(2, "O. Vik", "Halden 402 V8");
    read(2, "2I", "1.900");
    read(2, "1I", "1.810");
    read(2, "2I", "1.815");
    read(2, "2I", "120", "spring_seat_load");
    const auto builds = take(alike_builds(shop_, 1, "spring_installed_height", 10));
    ASSERT_THAT(builds, SizeIs(1));
    ASSERT_THAT(builds[0].readings, SizeIs(2));
    EXPECT_EQ(builds[0].readings[0].position, "1I");
    EXPECT_EQ(builds[0].readings[0].text, "1.810");
    EXPECT_EQ(builds[0].readings[0].unit, "in");
    EXPECT_EQ(builds[0].readings[0].taken_by, "Dee");
    EXPECT_EQ(builds[0].readings[1].position, "2I");
    EXPECT_EQ(builds[0].readings[1].text, "1.815");
}

TEST_F(AlikeBuildsTest, WithoutAnEngineOrACustomerNothingIsAlike) {
    add_build(1, "", "");
    add_build(2, "", "");
    read(2, "1I", "1.810");
    EXPECT_THAT(found(1), IsEmpty());
    EXPECT_EQ(refusal(alike_builds(shop_, 9, "spring_installed_height", 10)).code,
              ErrorCode::no_such_record);
}

TEST_F(AlikeBuildsTest, ACustomersRecordTellsWhoHeIsWhateverTheJobSays) {
    take(apply(shop_, edits_to_create(Customer{7, "Marsh", {}, {}, {}, {}, {}}), "Dee", noon));
    for (const std::int64_t id : {1, 2}) {
        Build build{id, "Build", id == 1 ? "R. Marsh" : "Robin Marsh", "", {}, {}, {}};
        build.customer_id = 7;
        take(apply(shop_, edits_to_create(build), "Dee", noon));
    }
    read(2, "1I", "1.810");
    EXPECT_THAT(found(1), ElementsAre(2));
}

} // namespace
} // namespace rodway
