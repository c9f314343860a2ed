#include "core/fasteners/fastener_log.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <iostream>
#include <random>

#include "core/units/torque.h"

namespace rodway {
namespace {

using Found = LogFindingKind;
using State = BoltPassState;
using Log = std::vector<TighteningEntry>;

double lb_ft(double value) {
    return Torque::lbf_ft(value).in_Nm();
}

/// Ten bolts from the centre out, "45/65/65+90".
JointPlan head_plan() {
    JointPlan plan;
    plan.order = {3, 8, 2, 9, 7, 4, 1, 10, 6, 5};
    plan.steps = *parse_tightening_steps("45/65/65+90", "lb-ft");
    return plan;
}

TighteningEntry entry(int bolt, int pass, double value) {
    return {bolt, pass, Interval::exactly(value), {}};
}

/// All that the plan asks for, in order, to the number.
Log perfect(const JointPlan& plan, int passes) {
    Log log;
    for (int pass = 1; pass <= passes; ++pass) {
        for (const int bolt : plan.order) {
            log.push_back(entry(bolt, pass, plan.step_of(pass).low));
        }
    }
    return log;
}

FastenerLogReview reviewed(const JointPlan& plan, const Log& log) {
    const auto review = review_log(plan, log);
    EXPECT_TRUE(review.ok());
    return *review;
}

State state(const FastenerLogReview& review, int bolt, int pass) {
    for (const BoltPass& each : review.passes) {
        if (each.bolt == bolt && each.pass == pass) {
            return each.state;
        }
    }
    ADD_FAILURE() << "no bolt " << bolt << " pass " << pass;
    return State::waiting;
}

std::vector<Found> kinds(const FastenerLogReview& review) {
    std::vector<Found> all;
    for (const LogFinding& finding : review.findings) {
        all.push_back(finding.kind);
    }
    return all;
}

TEST(FastenerLog, AnEmptyLogSaysWhereToBegin) {
    const auto review = reviewed(head_plan(), {});
    EXPECT_TRUE(review.findings.empty());
    EXPECT_EQ(review.passes.size(), 40u);
    ASSERT_TRUE(review.next.has_value());
    EXPECT_EQ(review.next->bolt, 3);
    EXPECT_EQ(review.next->pass, 1);
    EXPECT_FALSE(review.complete);
    EXPECT_EQ(did_we_tighten(review, 7).tightened, Tightened::no);
    EXPECT_EQ(did_we_tighten(review, 7).open_passes, (std::vector<int>{1, 2, 3, 4}));
}

TEST(FastenerLog, APerfectLogIsComplete) {
    const auto plan = head_plan();
    const auto review = reviewed(plan, perfect(plan, 4));
    EXPECT_TRUE(review.findings.empty());
    EXPECT_FALSE(review.next.has_value());
    EXPECT_TRUE(review.complete);
    EXPECT_EQ(review.retorque, Retorque::not_asked);
    for (int bolt = 1; bolt <= 10; ++bolt) {
        EXPECT_EQ(did_we_tighten(review, bolt).tightened, Tightened::yes) << bolt;
    }
    EXPECT_EQ(did_we_tighten(review, 11).tightened, Tightened::no_such_bolt);
}

// "Did we tighten bolt 7?": in the second pass it was left out, and everything after it was done.
TEST(FastenerLog, AnswersForOneBolt) {
    const auto plan = head_plan();
    Log log = perfect(plan, 4);
    std::erase_if(log,
                  [](const TighteningEntry& each) { return each.bolt == 7 && each.pass == 2; });
    const auto review = reviewed(plan, log);
    const BoltAnswer answer = did_we_tighten(review, 7);
    EXPECT_EQ(answer.tightened, Tightened::partly);
    EXPECT_EQ(answer.open_passes, std::vector<int>{2});
    ASSERT_EQ(answer.entries.size(), 3u);
    EXPECT_EQ(log[answer.entries[1]].pass, 3);
    EXPECT_EQ(did_we_tighten(review, 8).tightened, Tightened::yes);
    EXPECT_EQ(state(review, 7, 2), State::missed);
    ASSERT_TRUE(review.next.has_value());
    EXPECT_EQ(review.next->bolt, 7);
    EXPECT_EQ(review.next->pass, 2);
    EXPECT_FALSE(review.complete);
    // Both passes after it were begun while it was open: that is said too, once for each.
    EXPECT_EQ(kinds(review), (std::vector<Found>{Found::pass_begun_early, Found::pass_begun_early,
                                                 Found::missed}));
}

TEST(FastenerLog, APassHalfDoneHasNoMissedBolts) {
    const auto plan = head_plan();
    Log log = perfect(plan, 2);
    log.resize(14); // all of pass 1, four bolts of pass 2
    const auto review = reviewed(plan, log);
    EXPECT_TRUE(review.findings.empty());
    EXPECT_EQ(review.next->bolt, 7);
    EXPECT_EQ(review.next->pass, 2);
    EXPECT_EQ(state(review, 7, 2), State::waiting);
    EXPECT_EQ(did_we_tighten(review, 7).tightened, Tightened::partly);
}

TEST(FastenerLog, TorqueOffItsStepIsFoundWithinTheWrenchsTolerance) {
    const auto plan = head_plan();
    Log log = perfect(plan, 1);
    log[2].reached = Interval::exactly(lb_ft(43.3)); // 4 % under 45 is 43.2
    log[3].reached = Interval::exactly(lb_ft(43.1));
    log[4].reached = Interval::exactly(lb_ft(46.7));
    log[5].reached = Interval::exactly(lb_ft(46.9));
    log[6].reached = Interval::around(lb_ft(43.0), lb_ft(1.0)); // may be 43.5
    log[7].reached.reset();                                     // ticked
    const auto review = reviewed(plan, log);
    EXPECT_EQ(state(review, 2, 1), State::done);
    EXPECT_EQ(state(review, 9, 1), State::differs);
    EXPECT_EQ(state(review, 7, 1), State::done);
    EXPECT_EQ(state(review, 4, 1), State::differs);
    EXPECT_EQ(state(review, 1, 1), State::done);
    EXPECT_EQ(state(review, 10, 1), State::ticked);
    ASSERT_EQ(kinds(review), (std::vector<Found>{Found::differs, Found::differs}));
    EXPECT_EQ(review.findings[0].bolt, 9);
    EXPECT_EQ(review.findings[0].entry, 3u);
    // A retake puts it right; that it stands there twice is still said.
    log.push_back(entry(9, 1, lb_ft(45.0)));
    const auto again = reviewed(plan, log);
    EXPECT_EQ(state(again, 9, 1), State::done);
    EXPECT_EQ(kinds(again), (std::vector<Found>{Found::doubled, Found::differs}));
    EXPECT_EQ(again.findings[0].bolt, 9);
    EXPECT_EQ(again.findings[0].entry, 10u);
}

TEST(FastenerLog, AngleAndStretchHaveTolerancesOfTheirOwn) {
    JointPlan plan;
    plan.order = {1, 2, 3};
    plan.steps = *parse_tightening_steps("20+90/stretch .006", "lb-ft");
    plan.least_end_torque_Nm = 80.0;
    Log log = perfect(plan, 3);
    log[4].reached = Interval::exactly(84.0);       // 5 degrees are allowed
    log[5].end_torque_Nm = Interval::exactly(60.0); // turned too easily
    log[7].reached = Interval::exactly(0.1400);     // .0055 in is 0.1397
    log[8].reached = Interval::exactly(0.1390);
    const auto review = reviewed(plan, log);
    EXPECT_EQ(state(review, 2, 2), State::differs);
    EXPECT_EQ(state(review, 3, 2), State::easy);
    EXPECT_EQ(state(review, 2, 3), State::done);
    EXPECT_EQ(state(review, 3, 3), State::differs);
    EXPECT_EQ(kinds(review),
              (std::vector<Found>{Found::differs, Found::turned_easily, Found::differs}));
    EXPECT_EQ(did_we_tighten(review, 3).tightened, Tightened::not_as_meant);
    EXPECT_EQ(did_we_tighten(review, 3).differing_passes, (std::vector<int>{2, 3}));
    EXPECT_FALSE(review.complete);
}

TEST(FastenerLog, RetorqueIsDueOnlyAfterTheRun) {
    JointPlan plan = head_plan();
    plan.after_run = TighteningStep{TighteningKind::torque, lb_ft(65), lb_ft(65), "lb-ft"};
    Log log = perfect(plan, 4);
    const auto before = reviewed(plan, log);
    EXPECT_TRUE(before.complete);
    EXPECT_EQ(before.retorque, Retorque::after_the_run);
    EXPECT_FALSE(before.next.has_value());
    EXPECT_EQ(did_we_tighten(before, 7).tightened, Tightened::yes);

    plan.has_run = true;
    const auto due = reviewed(plan, log);
    EXPECT_EQ(due.retorque, Retorque::due);
    EXPECT_EQ(due.next->bolt, 3);
    EXPECT_EQ(due.next->pass, 5);
    EXPECT_EQ(did_we_tighten(due, 7).open_passes, std::vector<int>{5});
    log = perfect(plan, 5);
    EXPECT_EQ(reviewed(plan, log).retorque, Retorque::done);
    EXPECT_FALSE(reviewed(plan, log).next.has_value());

    plan.has_run = false;
    const auto early = reviewed(plan, log);
    EXPECT_EQ(early.retorque, Retorque::after_the_run);
    EXPECT_EQ(early.findings.size(), 10u);
    EXPECT_EQ(early.findings[0].kind, Found::retorque_before_run);
}

TEST(FastenerLog, StrangeBoltsAndPassesAndRefusedBoltsAreNamed) {
    const auto plan = head_plan();
    const Log log{entry(3, 1, lb_ft(45)), entry(12, 1, lb_ft(45)), entry(8, 0, 1.0),
                  entry(8, 5, 1.0)};
    BoltStanding necked;
    necked.bolt = 3;
    necked.refused = true;
    BoltStanding unused = necked;
    unused.bolt = 2; // refused, and not in the log: rightly left out
    const auto review = review_log(plan, log, {necked, unused});
    ASSERT_EQ(kinds(*review), (std::vector<Found>{Found::no_such_bolt, Found::no_such_pass,
                                                  Found::no_such_pass, Found::refused_bolt}));
    EXPECT_EQ(review->findings[3].bolt, 3);
    EXPECT_EQ(review->findings[3].entry, 0u);
    EXPECT_EQ(review->next->bolt, 8);
    EXPECT_EQ(did_we_tighten(*review, 12).tightened, Tightened::no_such_bolt);
}

// One thing wrong in a log that is perfect else is all that is found.
TEST(FastenerLog, FindsOneMistakeAndNoOther) {
    constexpr std::uint64_t seed = 20261201;
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    for (int round = 0; round < 400; ++round) {
        JointPlan plan = head_plan();
        std::shuffle(plan.order.begin(), plan.order.end(), random);
        const Log good = perfect(plan, 4);
        const std::size_t at = random() % good.size();
        const TighteningEntry chosen = good[at];

        Log missing = good;
        missing.erase(missing.begin() + static_cast<std::ptrdiff_t>(at));
        const auto without = reviewed(plan, missing);
        EXPECT_EQ(without.next->bolt, chosen.bolt);
        EXPECT_EQ(without.next->pass, chosen.pass);
        int missed = 0;
        for (const LogFinding& finding : without.findings) {
            EXPECT_TRUE(finding.kind == Found::missed || finding.kind == Found::pass_begun_early);
            missed += finding.kind == Found::missed ? 1 : 0;
            EXPECT_TRUE(finding.kind != Found::missed ||
                        (finding.bolt == chosen.bolt && finding.pass == chosen.pass));
        }
        EXPECT_EQ(missed, at + 1 == good.size() ? 0 : 1); // the last is waiting, not missed

        Log twice = good;
        twice.insert(twice.begin() + static_cast<std::ptrdiff_t>(at), chosen);
        const auto doubled = reviewed(plan, twice);
        ASSERT_EQ(kinds(doubled), std::vector<Found>{Found::doubled});
        EXPECT_EQ(doubled.findings[0].entry, at + 1);
        EXPECT_TRUE(doubled.complete);

        if (at % 10 != 9) { // within one pass
            Log swapped = good;
            std::swap(swapped[at], swapped[at + 1]);
            const auto disorder = reviewed(plan, swapped);
            ASSERT_EQ(kinds(disorder), std::vector<Found>{Found::out_of_order});
            EXPECT_EQ(disorder.findings[0].bolt, chosen.bolt);
            EXPECT_EQ(disorder.findings[0].entry, at + 1);
            EXPECT_TRUE(disorder.complete);
        }
    }
}

TEST(FastenerLog, PlansAndNumbersThatCannotBeAreRefused) {
    JointPlan plan = head_plan();
    Log log = perfect(plan, 1);
    log[4].reached = Interval{50.0, 40.0};
    EXPECT_EQ(review_log(plan, log).error().field, "reached");
    EXPECT_EQ(review_log(plan, log).error().line, 5);
    plan.tolerance.torque_share = 4.0; // per cent typed
    EXPECT_EQ(review_log(plan, {}).error().field, "tolerance");
    plan = head_plan();
    plan.order.push_back(3);
    EXPECT_EQ(review_log(plan, {}).error().code, ErrorCode::duplicate_field);
    plan.order.clear();
    EXPECT_EQ(review_log(plan, {}).error().field, "order");
    plan = head_plan();
    plan.steps.clear();
    EXPECT_EQ(review_log(plan, {}).error().field, "steps");
}

} // namespace
} // namespace rodway
