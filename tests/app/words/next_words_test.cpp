#include "app/words/next_words.h"

#include <gtest/gtest.h>

#include "core/build/part_wait.h"

namespace rodway {
namespace {

Hold held(HoldKind kind, std::optional<PartWait> wait = {}) {
    Hold hold{kind, "key"};
    hold.wait = wait;
    return hold;
}

TEST(NextWords, WhatIsOnItsWayIsWaitedForAndAllElseIsToBeCleared) {
    EXPECT_TRUE(words::only_time_helps(held(HoldKind::cure_running)));
    EXPECT_TRUE(words::only_time_helps(held(HoldKind::decision_pending)));
    EXPECT_TRUE(words::only_time_helps(held(HoldKind::part_awaited, PartWait::promised)));
    EXPECT_TRUE(words::only_time_helps(held(HoldKind::part_awaited, PartWait::overdue)));
    // Somebody must put it on the list, order it, measure it, fit it.
    for (const PartWait wait :
         {PartWait::not_listed, PartWait::needed, PartWait::not_measured, PartWait::not_fitted}) {
        EXPECT_FALSE(words::only_time_helps(held(HoldKind::part_awaited, wait)));
    }
    for (const HoldKind kind : {HoldKind::contact, HoldKind::check_failed, HoldKind::check_stale,
                                HoldKind::sheet_missing, HoldKind::open_item}) {
        EXPECT_FALSE(words::only_time_helps(held(kind)));
    }
}

} // namespace
} // namespace rodway
