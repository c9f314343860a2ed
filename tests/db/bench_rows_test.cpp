#include "db/bench_rows.h"

#include <algorithm>

#include "core/build/cure_state.h"
#include "core/build/part_wait.h"
#include "db/build_records.h"
#include "db/build_store.h"
#include "tests/db/work_shop.h"

namespace rodway {
namespace {

const std::string now = "2026-03-15T12:00:00Z";
const std::string today = "2026-03-15";

BenchRequest asked(BenchFilter filter, BenchOrder order = BenchOrder::promised) {
    BenchRequest request;
    request.filter = filter;
    request.order = order;
    request.limit = 1000;
    request.now_utc = now;
    request.today = today;
    return request;
}

std::vector<std::int64_t> ids(const BenchRows& page) {
    std::vector<std::int64_t> all;
    for (const BenchRow& row : page.rows) all.push_back(row.build.id);
    return all;
}

/// One build's row found by looking at every record of it.
struct SlowRow {
    int parts_to_come = 0;
    int parts_overdue = 0;
    std::optional<std::string> next_part;
    int cures_running = 0;
    int open_items = 0;
    int questions = 0;
};

SlowRow slow_row(ShopFile& shop, std::int64_t build_id) {
    SlowRow row;
    const auto parts = take(load_records<PartRecord>(shop, build_id));
    for (const PartRecord& part : parts) {
        const auto wait = part_wait(part, today);
        const bool replaced = std::any_of(parts.begin(), parts.end(), [&](const PartRecord& other) {
            return other.replaces_id == part.id && !other.returned;
        });
        if (!wait || !is_to_come(*wait) || replaced) continue;
        ++row.parts_to_come;
        row.parts_overdue += *wait == PartWait::overdue ? 1 : 0;
        if (part.promised) {
            row.next_part = std::min(row.next_part.value_or(*part.promised), *part.promised);
        }
    }
    for (const Cure& cure : take(load_records<Cure>(shop, build_id))) {
        row.cures_running += cure_state(cure, now).is_running() ? 1 : 0;
    }
    for (const OpenItem& item : take(load_records<OpenItem>(shop, build_id))) {
        row.open_items += item.closed_at ? 0 : 1;
    }
    for (const Approval& approval : take(load_records<Approval>(shop, build_id))) {
        row.questions += approval.answer == ApprovalAnswer::asked ? 1 : 0;
    }
    return row;
}

class BenchRowsTest : public ShopTest {
  protected:
    ShopFile shop_ = new_shop();
};

TEST_F(BenchRowsTest, AgreesWithEveryRecordLookedAt) {
    const WorkShop work(shop_, 11, 60);
    std::vector<std::int64_t> in_hand;
    std::vector<std::int64_t> put_away;
    std::vector<std::int64_t> for_part;
    std::vector<std::int64_t> for_cure;
    std::vector<std::int64_t> for_customer;
    std::vector<Build> builds = take(load_builds(shop_));
    std::stable_sort(builds.begin(), builds.end(), [](const Build& a, const Build& b) {
        return a.promised.value_or("9") < b.promised.value_or("9");
    });
    for (const Build& build : builds) {
        const SlowRow row = slow_row(shop_, build.id);
        if (build.archived) {
            put_away.push_back(build.id);
            continue;
        }
        in_hand.push_back(build.id);
        if (row.parts_to_come > 0) for_part.push_back(build.id);
        if (row.cures_running > 0) for_cure.push_back(build.id);
        if (row.questions > 0) for_customer.push_back(build.id);
    }
    // Enough of each that a filter which lets all or none through is found.
    for (const auto& some : {put_away, for_part, for_cure, for_customer}) {
        ASSERT_GT(some.size(), 3u);
        ASSERT_LT(some.size(), in_hand.size());
    }
    EXPECT_EQ(ids(take(bench_page(shop_, asked(BenchFilter::in_hand)))), in_hand);
    EXPECT_EQ(ids(take(bench_page(shop_, asked(BenchFilter::put_away)))), put_away);
    EXPECT_EQ(ids(take(bench_page(shop_, asked(BenchFilter::waits_for_part)))), for_part);
    EXPECT_EQ(ids(take(bench_page(shop_, asked(BenchFilter::waits_for_cure)))), for_cure);
    EXPECT_EQ(ids(take(bench_page(shop_, asked(BenchFilter::waits_for_customer)))), for_customer);
    for (const BenchRow& row : take(bench_page(shop_, asked(BenchFilter::in_hand))).rows) {
        const SlowRow slow = slow_row(shop_, row.build.id);
        EXPECT_EQ(row.parts_to_come, slow.parts_to_come) << row.build.id;
        EXPECT_EQ(row.parts_overdue, slow.parts_overdue) << row.build.id;
        EXPECT_EQ(row.next_part, slow.next_part) << row.build.id;
        EXPECT_EQ(row.cures_running, slow.cures_running) << row.build.id;
        EXPECT_EQ(row.open_items, slow.open_items) << row.build.id;
        EXPECT_EQ(row.questions, slow.questions) << row.build.id;
    }
}

TEST_F(BenchRowsTest, PagesFollowEachOtherAndSayHowManyThereAre) {
    const WorkShop work(shop_, 12, 30);
    for (const BenchOrder order : {BenchOrder::promised, BenchOrder::newest_change}) {
        for (const char* text : {"", "marsh"}) {
            BenchRequest request = asked(BenchFilter::in_hand, order);
            request.text = text;
            const BenchRows whole = take(bench_page(shop_, request));
            EXPECT_EQ(whole.total, static_cast<int>(whole.rows.size()));
            std::vector<std::int64_t> pieces;
            request.limit = 4;
            for (request.offset = 0; request.offset < whole.total; request.offset += 4) {
                const BenchRows page = take(bench_page(shop_, request));
                EXPECT_EQ(page.total, whole.total);
                EXPECT_LE(page.rows.size(), 4u);
                for (const std::int64_t id : ids(page)) pieces.push_back(id);
            }
            EXPECT_EQ(pieces, ids(whole));
            request.offset = whole.total + 5;
            EXPECT_TRUE(take(bench_page(shop_, request)).rows.empty());
        }
    }
}

TEST_F(BenchRowsTest, EveryWordMustStandSomewhereInWhateverLetters) {
    Build build = sample_build(1); // "Blue pickup", "R. Marsh", "big block, 454, ..."
    build.customer = "Ödön Marsh";
    build.job_number = "J-77";
    take(apply(shop_, edits_to_create(build), "Dee", noon));
    const auto found = [&](const char* text) {
        BenchRequest request = asked(BenchFilter::in_hand);
        request.text = text;
        return take(bench_page(shop_, request)).total;
    };
    EXPECT_EQ(found("blue ÖDÖN"), 1);
    EXPECT_EQ(found("  454   j-77 "), 1);
    EXPECT_EQ(found("blue reed"), 0);
    EXPECT_EQ(found("%"), 0);
    EXPECT_EQ(found("' OR 1=1 --"), 0);
    EXPECT_EQ(found(""), 1);
}

TEST_F(BenchRowsTest, TheNewestChangeComesFirst) {
    for (std::int64_t id = 1; id <= 3; ++id) {
        Build build = sample_build(id);
        take(apply(shop_, edits_to_create(build), "Dee", noon));
    }
    take(apply(shop_, {{{RecordKind::build, 2}, "note", sample_build(2).note, "louder"}}, "JW",
               "2026-03-02T12:00:00Z"));
    const BenchRows page =
        take(bench_page(shop_, asked(BenchFilter::in_hand, BenchOrder::newest_change)));
    EXPECT_EQ(ids(page), (std::vector<std::int64_t>{2, 3, 1}));
    EXPECT_EQ(page.rows[0].changed_at, "2026-03-02T12:00:00Z");
    EXPECT_EQ(page.rows[0].changed_by, "JW");
}

TEST_F(BenchRowsTest, TheRailCountsStepsAndSignOffs) {
    take(apply(shop_, edits_of_whole_build(), "Dee", noon));
    Stage second{2, 1, 9, "Later", {}};
    Step done{2, 2, 1, "Done", "MH", noon};
    Step left_out{3, 2, 2, "Left out", {}, {}};
    left_out.not_needed = "no";
    Step open{4, 2, 3, "Open", {}, {}};
    SignOff signed_off;
    signed_off.id = 1;
    signed_off.build_id = 1;
    signed_off.stage_id = 2;
    signed_off.subject = "Later";
    signed_off.verdict = "passed";
    signed_off.program_version = "1";
    signed_off.signed_by = "MH";
    signed_off.signed_at = noon;
    std::vector<Edit> edits = edits_to_create(second);
    const Gate gate{7, 2, 0, "Before it goes on", "steps", std::nullopt};
    for (const auto& more :
         {edits_to_create(done), edits_to_create(left_out), edits_to_create(open),
          edits_to_create(signed_off), edits_to_create(gate)}) {
        edits = joined(edits, more);
    }
    take(apply(shop_, edits, "Dee", noon));
    const BenchRow row = take(bench_page(shop_, asked(BenchFilter::in_hand))).rows.front();
    ASSERT_EQ(row.rail.size(), 2u);
    EXPECT_EQ(row.rail[1].title, "Later");
    EXPECT_EQ(row.rail[1].steps, 3);
    EXPECT_EQ(row.rail[1].steps_done, 2);
    EXPECT_TRUE(row.rail[1].signed_off);
    EXPECT_FALSE(row.rail[0].signed_off);
    EXPECT_TRUE(row.rail[1].gated);
    EXPECT_FALSE(row.rail[0].gated);
    take(apply(shop_,
               {{{RecordKind::sign_off, 1}, "withdrawn_by", std::nullopt, "MH"},
                {{RecordKind::sign_off, 1}, "withdrawn_at", std::nullopt, noon}},
               "MH", noon));
    EXPECT_FALSE(
        take(bench_page(shop_, asked(BenchFilter::in_hand))).rows.front().rail[1].signed_off);
}

TEST_F(BenchRowsTest, TheLastCureSaysWhenAllHaveCuredUnlessOneIsNotKnown) {
    take(apply(shop_, edits_to_create(sample_build(1)), "Dee", noon));
    Cure cure;
    cure.build_id = 1;
    cure.place = "tubes";
    cure.applied_by = "MH";
    cure.applied_at = "2026-03-15T10:00:00Z";
    const auto add = [&](std::int64_t id, std::optional<int> full) {
        cure.id = id;
        cure.full_minutes = full;
        take(apply(shop_, edits_to_create(cure), "Dee", noon));
        return take(bench_page(shop_, asked(BenchFilter::in_hand))).rows.front();
    };
    EXPECT_EQ(add(1, 60).cures_running, 0); // cured an hour ago, though nobody ended it
    EXPECT_EQ(add(2, 300).cured_at, "2026-03-15T15:00:00Z");
    EXPECT_EQ(add(3, 200).cured_at, "2026-03-15T15:00:00Z");
    EXPECT_EQ(add(4, std::nullopt).cured_at, std::nullopt);
    EXPECT_EQ(add(5, 400).cured_at, std::nullopt);
    EXPECT_EQ(add(5 + 1, 400).cures_running, 5);
}

TEST_F(BenchRowsTest, AnEmptyShopHasAnEmptyPageAndAPageHasItsLimits) {
    EXPECT_EQ(take(bench_page(shop_, asked(BenchFilter::in_hand))).total, 0);
    BenchRequest request = asked(BenchFilter::in_hand);
    request.offset = -1;
    EXPECT_EQ(refusal(bench_page(shop_, request)).field, "offset");
    request.offset = 0;
    request.limit = 0;
    EXPECT_EQ(refusal(bench_page(shop_, request)).field, "limit");
}

} // namespace
} // namespace rodway
