#include "core/build/today.h"

#include <gmock/gmock.h>

namespace rodway {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

TodayRequest on(const std::string& day, const std::string& begins, const std::string& ends,
                const std::string& now) {
    TodayRequest request;
    request.day = {day, begins, ends};
    request.now_utc = now;
    return request;
}

/// A shop one hour ahead of UTC.
TodayRequest on_march_10(const std::string& now = "2026-03-10T07:00:00Z") {
    return on("2026-03-10", "2026-03-09T23:00:00Z", "2026-03-10T23:00:00Z", now);
}

Cure applied(std::int64_t id, const std::string& at, std::optional<int> handling,
             std::optional<int> full) {
    Cure cure;
    cure.id = id;
    cure.build_id = 7;
    cure.place = "sealant";
    cure.applied_at = at;
    cure.handling_minutes = handling;
    cure.full_minutes = full;
    return cure;
}

std::string line(const Due& due) {
    std::string text = std::to_string(static_cast<int>(due.kind)) + ' ' +
                       std::to_string(due.record.id) + ' ' + due.at;
    return due.days ? text + ' ' + std::to_string(*due.days) : text;
}

std::vector<std::string> lines(const TodayFacts& facts, const TodayRequest& request) {
    std::vector<std::string> all;
    for (const Due& due : due_today(facts, request)) {
        all.push_back(line(due));
    }
    return all;
}

std::string kind(DueKind of) {
    return std::to_string(static_cast<int>(of)) + ' ';
}

TEST(Today, ACureThatEndsOvernightShowsOnTheDayItEnds) {
    TodayFacts facts;
    facts.cures = {applied(1, "2026-03-09T19:00:00Z", 30, 720)}; // 20:00 to 08:00 by the wall
    EXPECT_THAT(lines(facts, on("2026-03-09", "2026-03-08T23:00:00Z", "2026-03-09T23:00:00Z",
                                "2026-03-09T19:05:00Z")),
                ElementsAre(kind(DueKind::cure_handling) + "1 2026-03-09T19:30:00Z"));
    EXPECT_THAT(lines(facts, on_march_10()),
                ElementsAre(kind(DueKind::cure_full) + "1 2026-03-10T07:00:00Z"));
    EXPECT_THAT(lines(facts, on("2026-03-11", "2026-03-10T23:00:00Z", "2026-03-11T23:00:00Z",
                                "2026-03-11T07:00:00Z")),
                IsEmpty());
}

TEST(Today, TheDayEndsByTheShopsClockNotByUtc) {
    TodayFacts facts;
    facts.cures = {applied(1, "2026-03-10T20:00:00Z", {}, 179),  // 23:59 by the wall
                   applied(2, "2026-03-10T20:00:00Z", {}, 180)}; // midnight
    EXPECT_THAT(lines(facts, on_march_10()),
                ElementsAre(kind(DueKind::cure_full) + "1 2026-03-10T22:59:00Z"));
}

// Clocks in Europe go forward on 2026-03-29 and back on 2026-10-25 at 01:00 UTC (Directive
// 2000/84/EC): that day has 23 hours, this one 25.
TEST(Today, DaysOfTheChangeOfClocksAreShorterAndLonger) {
    TodayFacts facts;
    facts.cures = {applied(1, "2026-03-29T20:00:00Z", 0, 119), // 23:59, already an hour ahead
                   applied(2, "2026-03-29T20:00:00Z", 0, 120)};
    const auto spring = lines(facts, on("2026-03-29", "2026-03-28T23:00:00Z",
                                        "2026-03-29T22:00:00Z", "2026-03-29T20:00:00Z"));
    EXPECT_THAT(spring, ElementsAre(kind(DueKind::cure_handling) + "1 2026-03-29T20:00:00Z",
                                    kind(DueKind::cure_handling) + "2 2026-03-29T20:00:00Z",
                                    kind(DueKind::cure_full) + "1 2026-03-29T21:59:00Z"));
    facts.cures = {applied(3, "2026-10-25T20:00:00Z", 0, 179), // 23:59, an hour later than before
                   applied(4, "2026-10-25T20:00:00Z", 0, 180)};
    const auto autumn = lines(facts, on("2026-10-25", "2026-10-24T22:00:00Z",
                                        "2026-10-25T23:00:00Z", "2026-10-25T19:00:00Z"));
    EXPECT_THAT(autumn, ElementsAre(kind(DueKind::cure_handling) + "3 2026-10-25T20:00:00Z",
                                    kind(DueKind::cure_handling) + "4 2026-10-25T20:00:00Z",
                                    kind(DueKind::cure_full) + "3 2026-10-25T22:59:00Z"));
}

TEST(Today, ACureWithoutTimesShowsUntilSomebodyEndsIt) {
    TodayFacts facts;
    facts.cures = {applied(1, "2026-02-01T08:00:00Z", {}, {}),
                   applied(2, "2026-02-01T08:00:00Z", 30, {}),       // may be handled long since
                   applied(3, "2026-03-10T06:50:00Z", 30, {}),       // may be handled today
                   applied(4, "2026-03-10T06:50:00Z", 60 * 24, {})}; // tomorrow
    EXPECT_THAT(
        lines(facts, on_march_10()),
        ElementsAre(kind(DueKind::cure_handling) + "3 2026-03-10T07:20:00Z",
                    kind(DueKind::cure_not_known) + "1 ", kind(DueKind::cure_not_known) + "2 "));
    for (Cure& cure : facts.cures) {
        cure.ended = "2026-03-10T07:00:00Z";
    }
    EXPECT_THAT(lines(facts, on_march_10()), IsEmpty());
}

TEST(Today, PartsAreDueOrOverdueUntilTheyCome) {
    TodayFacts facts;
    for (const char* promised : {"2026-03-09", "2026-03-10", "2026-03-11"}) {
        PartRecord part;
        part.id = static_cast<std::int64_t>(facts.parts.size()) + 1;
        part.promised = promised;
        facts.parts.push_back(part);
    }
    EXPECT_THAT(lines(facts, on_march_10()),
                ElementsAre(kind(DueKind::part_overdue) + "1 2026-03-09 -1",
                            kind(DueKind::part_due) + "2 2026-03-10 0"));
    facts.parts[0].received = "2026-03-10";
    facts.parts[1].returned = "2026-03-10";
    EXPECT_THAT(lines(facts, on_march_10()), IsEmpty());
}

TEST(Today, APartWithoutDaysIsNeverDue) {
    TodayFacts facts;
    facts.parts = {PartRecord()};
    facts.parts[0].id = 1;
    EXPECT_THAT(lines(facts, on_march_10()), IsEmpty());
}

TEST(Today, PromisesShowWithinTheDaysAskedFor) {
    TodayFacts facts;
    for (const char* promised :
         {"2026-03-18", "2026-03-17", "2026-03-10", "2026-03-09", "2025-03-09"}) {
        Build build;
        build.id = static_cast<std::int64_t>(facts.builds.size()) + 1;
        build.promised = promised;
        facts.builds.push_back(build);
    }
    facts.builds.push_back(Build()); // nothing promised
    EXPECT_THAT(lines(facts, on_march_10()),
                ElementsAre(kind(DueKind::promise_passed) + "5 2025-03-09 -366",
                            kind(DueKind::promise_passed) + "4 2026-03-09 -1",
                            kind(DueKind::promise_near) + "3 2026-03-10 0",
                            kind(DueKind::promise_near) + "2 2026-03-17 7"));
}

TEST(Today, OpenItemsAreDueOnTheirDayAndAfter) {
    TodayFacts facts;
    for (const char* due : {"2026-03-10", "2026-03-11", "2025-01-01"}) {
        OpenItem item;
        item.id = static_cast<std::int64_t>(facts.open_items.size()) + 1;
        item.due = due;
        facts.open_items.push_back(item);
    }
    facts.open_items.push_back(facts.open_items[0]);
    facts.open_items.back().id = 4;
    facts.open_items.back().closed_at = "2026-03-09T00:00:00Z";
    EXPECT_THAT(lines(facts, on_march_10()),
                ElementsAre(kind(DueKind::item_due) + "3 2025-01-01 -433",
                            kind(DueKind::item_due) + "1 2026-03-10 0"));
}

TEST(Today, AServiceIsDueUntilTheEngineCame) {
    TodayFacts facts;
    HandOff book;
    book.id = 5;
    book.build_id = 7;
    book.service_dates = "2026-02-20: retorque; 2026-03-10: lash; 2026-06-01: oil";
    facts.hand_offs = {book};
    EXPECT_THAT(lines(facts, on_march_10()),
                ElementsAre(kind(DueKind::service_due) + "5 2026-02-20 -18",
                            kind(DueKind::service_due) + "5 2026-03-10 0"));
    Visit visit;
    visit.id = 6;
    visit.build_id = 7;
    visit.visited = "2026-02-25";
    visit.done = "retorqued";
    facts.visits = {visit};
    EXPECT_THAT(lines(facts, on_march_10()),
                ElementsAre(kind(DueKind::service_due) + "5 2026-03-10 0"));
    facts.visits[0].build_id = 8; // another engine
    EXPECT_EQ(lines(facts, on_march_10()).size(), 2u);
    TodayRequest later =
        on("2026-04-20", "2026-04-19T22:00:00Z", "2026-04-20T22:00:00Z", "2026-04-20T08:00:00Z");
    EXPECT_THAT(lines(facts, later), IsEmpty()); // more than 30 days ago
}

TEST(Today, AVisitIsDueUntilSomethingIsWrittenOfIt) {
    TodayFacts facts;
    Visit visit;
    visit.id = 6;
    visit.visited = "2026-03-10";
    facts.visits = {visit};
    EXPECT_THAT(lines(facts, on_march_10()),
                ElementsAre(kind(DueKind::visit_due) + "6 2026-03-10 0"));
    facts.visits[0].found = "nothing";
    EXPECT_THAT(lines(facts, on_march_10()), IsEmpty());
    facts.visits[0] = visit;
    facts.visits[0].visited = "2026-03-11";
    EXPECT_THAT(lines(facts, on_march_10()), IsEmpty());
}

TEST(Today, WhatWasKeptMayGoWhenItsDayHasCome) {
    TodayFacts facts;
    PartRecord part;
    part.id = 3;
    part.failed = "seized";
    part.kept_until = "2026-03-10";
    facts.kept = {part};
    EXPECT_THAT(lines(facts, on_march_10()),
                ElementsAre(kind(DueKind::keep_ended) + "3 2026-03-10 0"));
    facts.kept[0].kept_until = "2026-03-11";
    EXPECT_THAT(lines(facts, on_march_10()), IsEmpty());
    facts.kept[0].kept_until = "2026-03-01";
    facts.kept[0].returned = "2026-03-02";
    EXPECT_THAT(lines(facts, on_march_10()), IsEmpty());
}

TEST(Today, FindsTheDaysInATextAndNoOthers) {
    EXPECT_THAT(days_in("2026-12-15: retorque; oil at 2027-01-31."),
                ElementsAre("2026-12-15", "2027-01-31"));
    EXPECT_THAT(days_in("2026-12-1 12026-12-15 2026-12-155 2026-02-30 15/12/2026"), IsEmpty());
    EXPECT_THAT(days_in("2026-12-152026-12-15"), IsEmpty());
    EXPECT_THAT(days_in(""), IsEmpty());
}

} // namespace
} // namespace rodway
