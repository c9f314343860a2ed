#include "core/sheets/sheet_limit.h"

#include <gtest/gtest.h>

#include "core/sheets/sheet_kinds.h"

namespace rodway {
namespace {

const Quantity& clearance() {
    return *find_quantity("main_clearance");
}

LimitRecord limit_record(std::optional<std::string> low, std::optional<std::string> high) {
    LimitRecord record;
    record.quantity = "main_clearance";
    record.low = std::move(low);
    record.high = std::move(high);
    record.source = "the bearing's maker";
    return record;
}

TEST(SheetLimit, ALimitIsReadAsTheQuantityIs) {
    const auto limit = read_limit(limit_record(".0020", ".0030"), clearance());
    ASSERT_TRUE(limit);
    EXPECT_NEAR(*limit->low, 0.0508, 1e-12);
    EXPECT_NEAR(*limit->high, 0.0762, 1e-12);
    EXPECT_EQ(limit->usual, UsualSource::none);
    EXPECT_EQ(limit->source, "the bearing's maker");
    LimitRecord metric = limit_record(std::nullopt, "0,08");
    metric.unit = "mm";
    const auto one_sided = read_limit(metric, clearance());
    ASSERT_TRUE(one_sided);
    EXPECT_FALSE(one_sided->low);
    EXPECT_NEAR(*one_sided->high, 0.08, 1e-12);
}

TEST(SheetLimit, ALimitThatSaysNothingOrContradictsItselfIsRefused) {
    EXPECT_EQ(read_limit(limit_record({}, {}), clearance()).error().code, ErrorCode::missing_field);
    const auto crossed = read_limit(limit_record(".0030", ".0020"), clearance());
    ASSERT_FALSE(crossed);
    EXPECT_EQ(crossed.error().code, ErrorCode::out_of_range);
    const auto words = read_limit(limit_record({}, "tight"), clearance());
    ASSERT_FALSE(words);
    EXPECT_EQ(words.error().field, "high");
    const auto ditto = read_limit(limit_record("same", {}), clearance());
    ASSERT_FALSE(ditto);
    EXPECT_EQ(ditto.error().field, "low");
}

SheetLimit limit(std::optional<double> low, std::optional<double> high, std::string position = {}) {
    SheetLimit one;
    one.quantity = "main_clearance";
    one.position = std::move(position);
    one.low = low;
    one.high = high;
    return one;
}

// Guard band as wide as the doubt, JCGM 106:2012: an interval that reaches over the limit decides
// nothing, on either side of it.
TEST(SheetLimit, TheDoubtDecidesBetweenPassedFailedAndTooClose) {
    const SheetLimit between = limit(0.050, 0.075);
    EXPECT_EQ(judge({0.051, 0.074}, between), SheetVerdict::passed);
    EXPECT_EQ(judge({0.050, 0.075}, between), SheetVerdict::passed);
    EXPECT_EQ(judge({0.0499, 0.051}, between), SheetVerdict::too_close);
    EXPECT_EQ(judge({0.074, 0.0751}, between), SheetVerdict::too_close);
    EXPECT_EQ(judge({0.076, 0.080}, between), SheetVerdict::failed);
    EXPECT_EQ(judge({0.010, 0.0499}, between), SheetVerdict::failed);
    EXPECT_EQ(judge({0.010, 0.090}, between), SheetVerdict::too_close);
    EXPECT_EQ(judge({0.0, 0.010}, limit(std::nullopt, 0.075)), SheetVerdict::passed);
    EXPECT_EQ(judge({90.0, 91.0}, limit(0.050, std::nullopt)), SheetVerdict::passed);
}

TEST(SheetLimit, AnExactlyMetLimitIsMetWhateverTheConversion) {
    // .0003 x 25.4 is not the same bits as .00762.
    EXPECT_EQ(judge({0.0003 * 25.4, 0.0003 * 25.4}, limit(0.00762, {})), SheetVerdict::passed);
    EXPECT_EQ(judge({0.0003 * 25.4, 0.0003 * 25.4}, limit({}, 0.00762)), SheetVerdict::passed);
}

TEST(SheetLimit, OfUsedPartsIsKeptApartFromThatOfNewOnes) {
    LimitRecord record = limit_record({}, ".004");
    EXPECT_EQ(read_limit(record, clearance())->holds_for, LimitFor::new_parts);
    record.serviceable = true;
    EXPECT_EQ(read_limit(record, clearance())->holds_for, LimitFor::serviceable);
}

TEST(SheetLimit, OneForThePositionRulesBeforeOneForAllAndLaterBeforeEarlier) {
    const std::vector<SheetLimit> limits{limit(0.010, 0.1), limit(0.020, 0.1),
                                         limit(0.030, 0.1, "J2"), limit(0.040, 0.1, "J2"),
                                         limit(0.050, 0.1)};
    const auto low = [&](const char* position) {
        return *ruling_limit(limits, "main_clearance", position, LimitFor::new_parts)->low;
    };
    EXPECT_EQ(low("J1"), 0.050);
    EXPECT_EQ(low("J2"), 0.040);
    EXPECT_EQ(ruling_limit(limits, "rod_clearance", "J1", LimitFor::new_parts), nullptr);
    EXPECT_EQ(ruling_limit(limits, "main_clearance", "J1", LimitFor::serviceable), nullptr);
}

} // namespace
} // namespace rodway
