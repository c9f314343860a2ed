#include "core/build/part_wait.h"

#include <gtest/gtest.h>

namespace rodway {
namespace {

const std::string today = "2026-03-10";

PartRecord gasket() {
    PartRecord part;
    part.id = 1;
    part.item = "intake gasket";
    return part;
}

TEST(PartWait, APartWithoutAnyDayIsNeeded) {
    EXPECT_EQ(part_wait(gasket(), today), PartWait::needed);
}

TEST(PartWait, GoesFromNeedToFitting) {
    PartRecord part = gasket();
    part.needed = "2026-03-01";
    EXPECT_EQ(part_wait(part, today), PartWait::needed);
    part.ordered = "2026-03-02";
    EXPECT_EQ(part_wait(part, today), PartWait::ordered);
    part.promised = "2026-03-10";
    EXPECT_EQ(part_wait(part, today), PartWait::promised); // today isn't late
    EXPECT_EQ(part_wait(part, "2026-03-11"), PartWait::overdue);
    EXPECT_TRUE(is_to_come(PartWait::overdue));
    part.received = "2026-03-12";
    EXPECT_EQ(part_wait(part, "2026-03-12"), PartWait::not_measured);
    EXPECT_FALSE(is_to_come(PartWait::not_measured));
    part.measured = "2026-03-12";
    EXPECT_EQ(part_wait(part, today), PartWait::not_fitted);
    part.fitted = "2026-03-13";
    EXPECT_EQ(part_wait(part, today), std::nullopt);
}

TEST(PartWait, APromiseWithoutAnOrderIsAPromise) {
    PartRecord part = gasket();
    part.promised = "2026-03-09";
    EXPECT_EQ(part_wait(part, today), PartWait::overdue);
}

TEST(PartWait, WhatWasMeasuredHasCome) {
    PartRecord part = gasket();
    part.promised = "2026-03-01";
    part.measured = "2026-03-05";
    EXPECT_EQ(part_wait(part, today), PartWait::not_fitted);
}

TEST(PartWait, TemporaryFailedAndGivenBack) {
    PartRecord part = gasket();
    part.fitted = "2026-03-01";
    part.temporary = true;
    EXPECT_EQ(part_wait(part, today), PartWait::temporary);
    part.failed = "torn";
    EXPECT_EQ(part_wait(part, today), PartWait::failed);
    part.returned = "2026-03-09";
    EXPECT_EQ(part_wait(part, today), std::nullopt);
}

} // namespace
} // namespace rodway
