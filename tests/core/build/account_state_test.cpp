#include "core/build/account_state.h"

#include <gtest/gtest.h>

namespace rodway {
namespace {

AccountLine line(std::int64_t id, AccountPaper paper, int ordinal, const char* text,
                 const char* amount, std::optional<std::int64_t> extra = {}) {
    AccountLine made;
    made.id = id;
    made.build_id = 1;
    made.approval_id = extra;
    made.paper = paper;
    made.ordinal = ordinal;
    made.text = text;
    made.amount = amount;
    return made;
}

Approval approval(std::int64_t id, const char* subject, std::optional<std::string> amount,
                  ApprovalAnswer answer) {
    Approval made;
    made.id = id;
    made.build_id = 1;
    made.subject = subject;
    made.amount = std::move(amount);
    made.answer = answer;
    made.asked_at = "2026-11-01T10:00:00Z";
    return made;
}

WorkedTime time(std::int64_t id, std::optional<std::int64_t> person, int minutes,
                const char* work) {
    WorkedTime made;
    made.id = id;
    made.build_id = 1;
    made.person_id = person;
    made.day = "2026-11-02";
    made.minutes = minutes;
    made.work = work;
    return made;
}

AccountRecords records() {
    AccountRecords made;
    made.lines = {line(1, AccountPaper::estimate, 2, "Heads", "1400.10"),
                  line(2, AccountPaper::estimate, 1, "Block", "2100.20"),
                  line(3, AccountPaper::estimate, 3, "Discount", "-100.05"),
                  line(4, AccountPaper::deposit, 1, "First", "1000.00"),
                  line(5, AccountPaper::deposit, 2, "Second", "500.00")};
    made.approvals = {approval(1, "Line bore", "300.00", ApprovalAnswer::approved),
                      approval(2, "New cam", "450.00", ApprovalAnswer::declined),
                      approval(3, "Valve job", "220.00", ApprovalAnswer::asked)};
    return made;
}

TEST(AccountState, SumsWhatBelongsTogether) {
    const auto state = account_state(records());
    ASSERT_TRUE(state.ok());
    EXPECT_EQ(money_text(state->estimate), "3400.25");
    EXPECT_EQ(money_text(state->extras_approved), "300.00");
    EXPECT_EQ(money_text(state->extras_declined), "450.00");
    EXPECT_EQ(money_text(state->extras_asked), "220.00");
    EXPECT_EQ(money_text(state->deposit), "1500.00");
    EXPECT_EQ(money_text(state->invoice), "0.00");
    EXPECT_EQ(money_text(state->to_pay), "-1500.00");
    EXPECT_EQ(state->asked, 1);
    // Without an invoice nothing is missing on it.
    EXPECT_TRUE(state->missing_on_invoice.empty());
}

TEST(AccountState, TakesOverTheEstimateAndApprovedExtrasOnce) {
    AccountRecords account = records();
    auto taken = lines_to_take_over(account);
    ASSERT_TRUE(taken.ok());
    std::vector<std::string> texts;
    std::int64_t id = 100;
    for (AccountLine one : *taken) {
        EXPECT_EQ(one.paper, AccountPaper::invoice);
        EXPECT_EQ(one.build_id, 1);
        texts.push_back(one.text + " " + one.amount);
        one.id = id++;
        account.lines.push_back(one);
    }
    EXPECT_EQ(texts, (std::vector<std::string>{"Block 2100.20", "Heads 1400.10", "Discount -100.05",
                                               "Line bore 300.00"}));
    EXPECT_EQ(account.lines.back().approval_id, 1);
    const auto state = account_state(account);
    EXPECT_EQ(money_text(state->invoice), "3700.25");
    EXPECT_EQ(money_text(state->to_pay), "2200.25");
    EXPECT_TRUE(lines_to_take_over(account)->empty());
    // What is approved later is taken over then, and alone.
    account.approvals[2].answer = ApprovalAnswer::approved;
    EXPECT_EQ(account_state(account)->missing_on_invoice, std::vector<std::int64_t>{3});
    const auto later = lines_to_take_over(account);
    ASSERT_EQ(later->size(), 1u);
    EXPECT_EQ(later->front().text, "Valve job");
    EXPECT_EQ(later->front().ordinal, 5);
    // What he takes back afterwards is pointed out.
    account.approvals[0].answer = ApprovalAnswer::declined;
    EXPECT_EQ(account_state(account)->declined_on_invoice, std::vector<std::int64_t>{1});
}

TEST(AccountState, AnExtraWithoutAmountIsWorthItsLinesOrIsNotKnown) {
    AccountRecords account;
    account.approvals = {approval(1, "Guides", std::nullopt, ApprovalAnswer::approved),
                         approval(2, "Seats", std::nullopt, ApprovalAnswer::approved)};
    account.lines = {line(1, AccountPaper::extra, 1, "Bronze", "80.00", 1),
                     line(2, AccountPaper::extra, 2, "Labour", "40.50", 1),
                     line(3, AccountPaper::extra, 3, "Paint, agreed on the phone", "25.00")};
    const auto state = account_state(account);
    EXPECT_EQ(money_text(*state->extras[0].amount), "120.50");
    EXPECT_FALSE(state->extras[1].amount.has_value());
    EXPECT_EQ(state->approved_without_amount, 1);
    EXPECT_EQ(money_text(state->extras_approved), "145.50");
    // An amount nobody knows isn't put on an invoice as zero.
    const auto taken = lines_to_take_over(account);
    ASSERT_EQ(taken->size(), 2u);
    EXPECT_EQ(taken->at(0).amount, "25.00");
    EXPECT_EQ(taken->at(1).amount, "120.50");
}

TEST(AccountState, HoursAreSummedByPersonAndByKindOfWork) {
    AccountRecords account;
    account.times = {time(1, 7, 90, "Porting"), time(2, 8, 200, "Machining"),
                     time(3, 7, 30, "porting "), time(4, std::nullopt, 15, "Machining")};
    const auto state = account_state(account);
    EXPECT_EQ(state->minutes, 335);
    ASSERT_EQ(state->by_person.size(), 3u);
    EXPECT_EQ(state->by_person[0].person_id, 8);
    EXPECT_EQ(state->by_person[1].minutes, 120);
    EXPECT_FALSE(state->by_person[2].person_id.has_value());
    ASSERT_EQ(state->by_work.size(), 2u);
    EXPECT_EQ(state->by_work[0].work, "Machining");
    EXPECT_EQ(state->by_work[0].minutes, 215);
    EXPECT_EQ(state->by_work[1].work, "Porting");
    EXPECT_EQ(state->by_work[1].minutes, 120);
}

TEST(AccountState, ASumBeyondTheGreatestAmountIsAnErrorAndNoNumber) {
    AccountRecords account;
    account.lines = {line(1, AccountPaper::invoice, 1, "All", "999999999999.99"),
                     line(2, AccountPaper::invoice, 2, "And more", "0.01")};
    const auto state = account_state(account);
    ASSERT_FALSE(state.ok());
    EXPECT_EQ(state.error().expected, "money_size");
    account.lines[1].amount = "1e3";
    EXPECT_EQ(account_state(account).error().expected, "money");
}

} // namespace
} // namespace rodway
