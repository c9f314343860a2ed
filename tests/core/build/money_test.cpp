#include "core/build/money.h"

#include <gtest/gtest.h>

#include <random>

namespace rodway {
namespace {

std::string read(std::string_view text, std::string_view currency = {}) {
    const auto amount = parse_money(text, currency);
    return amount ? money_text(*amount) : amount.error().expected;
}

TEST(Money, ReadsWhatPeopleType) {
    EXPECT_EQ(read("1250"), "1250.00");
    EXPECT_EQ(read("1,250"), "1250.00");
    EXPECT_EQ(read("1250.5"), "1250.50");
    EXPECT_EQ(read("1,250.50"), "1250.50");
    EXPECT_EQ(read("1.250,50"), "1250.50");
    EXPECT_EQ(read("1250,50"), "1250.50");
    EXPECT_EQ(read("1 250"), "1250.00");
    EXPECT_EQ(read("1'250'000.05"), "1250000.05");
    EXPECT_EQ(read("1,250,000"), "1250000.00");
    EXPECT_EQ(read("1.250.000"), "1250000.00");
    EXPECT_EQ(read("$40"), "40.00");
    EXPECT_EQ(read("40 $"), "40.00");
    EXPECT_EQ(read(" -12 "), "-12.00");
    EXPECT_EQ(read("-$12.3"), "-12.30");
    EXPECT_EQ(read("$-12.3"), "-12.30");
    EXPECT_EQ(read("\u221212"), "-12.00"); // a typographic minus
    EXPECT_EQ(read(".50"), "0.50");
    EXPECT_EQ(read("-0"), "0.00");
    EXPECT_EQ(read("007"), "7.00");
    EXPECT_EQ(read("0.05"), "0.05");
    EXPECT_EQ(read("999999999999.99"), "999999999999.99");
}

TEST(Money, GuessesNothing) {
    for (const char* text :
         {"twelve",   "1,25,0", "12,50.00", "1 25",   "1,250 000",   "--5",   "5-",
          "1e3",      "40 usd", "$",        "-",      "1/2",         "1250.", "1250,",
          "1..5",     "$40$",   "0x10",     "1 250,", "12:30",       "40 mm", "100\t250",
          "100\n250", "12; 13", "NaN",      "inf",    "\u0661\u0662"}) {
        EXPECT_EQ(read(text), "money") << text;
    }
    EXPECT_EQ(read("1.250"), "money_three_digits");
    EXPECT_EQ(read("1250.505"), "money_cents");
    EXPECT_EQ(read("1,250.505"), "money_cents");
    EXPECT_EQ(read("0,125"), "money_cents");
    EXPECT_EQ(read("1000000000000"), "money_size");
    EXPECT_EQ(read("99999999999999999999999999999999"), "money_size");
    EXPECT_EQ(parse_money(" \t").error().code, ErrorCode::empty_text);
}

TEST(Money, TakesTheShopsCurrencyAndNoOther) {
    EXPECT_EQ(read("\u20ac 40", "\u20ac"), "40.00");
    EXPECT_EQ(read("40 kr", "kr"), "40.00");
    EXPECT_EQ(read("40", "kr"), "40.00");
    EXPECT_EQ(read("$40", "kr"), "money_currency");
    EXPECT_EQ(read("\u20ac40"), "40.00"); // where the shop hasn't said
}

TEST(Money, WritesWhatRecordsHoldAndReadsItBack) {
    std::mt19937_64 random(20261130);
    for (int round = 0; round < 2000; ++round) {
        const auto cents =
            static_cast<std::int64_t>(random() % (2 * most_money.cents + 1)) - most_money.cents;
        const Money amount{cents >> (random() % 46)};
        const std::string text = money_text(amount);
        ASSERT_TRUE(recorded_money(text).ok()) << text;
        EXPECT_EQ(recorded_money(text)->cents, amount.cents) << text;
        EXPECT_EQ(parse_money(text)->cents, amount.cents) << text;
    }
    EXPECT_EQ(money_text({5}), "0.05");
    EXPECT_EQ(money_text({-5}), "-0.05");
    for (const char* text : {"1250", "1250.5", "$1.00", ".50", "1,250.00", ""}) {
        EXPECT_FALSE(recorded_money(text).ok()) << text;
    }
}

TEST(Money, SumsExactlyInWhateverOrder) {
    // 0.10 ten million times and once taken back; in binary fractions it comes out as another sum.
    std::vector<Money> dimes(10'000'000, Money{10});
    dimes.push_back({-100'000'000});
    EXPECT_EQ(sum_of(dimes)->cents, 0);
    EXPECT_EQ(sum_of({})->cents, 0);
    // Beyond the greatest and back again is no overflow; ending beyond it is.
    const std::vector<Money> back{most_money, most_money, -most_money};
    EXPECT_EQ(sum_of(back)->cents, most_money.cents);
    const std::vector<Money> beyond{most_money, Money{1}};
    ASSERT_FALSE(sum_of(beyond).ok());
    EXPECT_EQ(sum_of(beyond).error().expected, "money_size");
    const std::vector<Money> below{-most_money, Money{-1}};
    EXPECT_FALSE(sum_of(below).ok());
    EXPECT_FALSE(sum_of(std::vector<Money>(200'000, most_money)).ok());
}

} // namespace
} // namespace rodway
