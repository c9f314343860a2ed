#include <algorithm>

#include "core/build/part_wait.h"
#include "db/build_records.h"
#include "db/build_store.h"
#include "db/parts_to_come.h"
#include "db/today.h"
#include "tests/db/work_shop.h"

namespace rodway {
namespace {

TodayRequest on(const std::string& day) {
    TodayRequest request;
    request.day = {day, day + "T00:00:00Z", day + "T24:00:00Z"};
    request.now_utc = day + "T12:00:00Z";
    return request;
}

template <typename Record>
void append(ShopFile& shop, std::int64_t build_id, std::vector<Record>& all) {
    for (Record& record : take(load_records<Record>(shop, build_id))) {
        all.push_back(std::move(record));
    }
}

/// Every record of every build in hand; books, visits and kept parts of those put away too.
TodayFacts all_facts(ShopFile& shop) {
    TodayFacts facts;
    for (const Build& build : take(load_builds(shop))) {
        std::vector<PartRecord> parts;
        append(shop, build.id, parts);
        if (!build.archived) {
            facts.builds.push_back(build);
            append(shop, build.id, facts.cures);
            append(shop, build.id, facts.open_items);
        }
        for (const PartRecord& part : parts) {
            const bool replaced =
                std::any_of(parts.begin(), parts.end(), [&](const PartRecord& other) {
                    return other.replaces_id == part.id && !other.returned;
                });
            const auto wait = part_wait(part, "2026-03-01");
            if (!build.archived && !replaced && wait && is_to_come(*wait)) {
                facts.parts.push_back(part);
            }
            facts.kept.push_back(part);
        }
        std::vector<HandOff> books;
        append(shop, build.id, books);
        if (!books.empty()) facts.hand_offs.push_back(books.back());
        append(shop, build.id, facts.visits);
    }
    return facts;
}

using Line = std::tuple<DueKind, RecordKind, std::int64_t, std::int64_t, std::string>;
std::vector<Line> lines(const std::vector<Due>& list) {
    std::vector<Line> all;
    for (const Due& due : list) {
        all.emplace_back(due.kind, due.record.kind, due.record.id, due.build_id, due.at);
    }
    std::sort(all.begin(), all.end());
    return all;
}

class TodayFactsTest : public ShopTest {
  protected:
    ShopFile shop_ = new_shop();
};

// What is left out of the file's answer is never due.
TEST_F(TodayFactsTest, GiveTheSameListAsEveryRecordOfTheShop) {
    const WorkShop work(shop_, 21, 50);
    const TodayFacts all = all_facts(shop_);
    std::set<DueKind> kinds;
    for (int day = 10; day <= 30; ++day) {
        const TodayRequest request = on("2026-03-" + std::to_string(day));
        const auto list = due_today(take(load_today_facts(shop_, request)), request);
        EXPECT_EQ(lines(list), lines(due_today(all, request))) << day;
        for (const Due& due : list) kinds.insert(due.kind);
    }
    EXPECT_EQ(kinds.size(), 11u); // every kind came up
}

TEST_F(TodayFactsTest, ADayMustBeADay) {
    TodayRequest request = on("2026-03-10");
    request.day.day = "today";
    EXPECT_EQ(refusal(load_today_facts(shop_, request)).code, ErrorCode::not_a_date);
}

TEST_F(TodayFactsTest, BuildsThatWaitForPartsComeWithThemAndTheirPlan) {
    const WorkShop work(shop_, 22, 40);
    const auto waiting = take(builds_waiting_for_parts(shop_));
    ASSERT_GT(waiting.size(), 5u);
    std::vector<std::int64_t> found;
    for (const BuildWaiting& one : waiting) {
        EXPECT_FALSE(one.build.archived);
        EXPECT_EQ(one.plan.stages.size(), 2u);
        EXPECT_EQ(one.plan.steps.size(), 4u);
        EXPECT_EQ(one.plan.parts.size(),
                  take(load_records<PartRecord>(shop_, one.build.id)).size());
        for (const PartRecord& part : one.to_come) {
            EXPECT_EQ(part.build_id, one.build.id);
            found.push_back(part.id);
        }
    }
    std::vector<std::int64_t> expected;
    for (const Build& build : take(builds_in_hand(shop_))) {
        const auto parts = take(load_records<PartRecord>(shop_, build.id));
        for (const PartRecord& part : parts) {
            const auto wait = part_wait(part, "2026-03-01");
            const bool replaced =
                std::any_of(parts.begin(), parts.end(), [&](const PartRecord& other) {
                    return other.replaces_id == part.id && !other.returned;
                });
            if (wait && is_to_come(*wait) && !replaced) expected.push_back(part.id);
        }
    }
    EXPECT_EQ(found, expected);
}

} // namespace
} // namespace rodway
