#include "tests/app/every_box/every_box.h"
#include "app/first_run/new_build.h"
#include "app/work/account_acts.h"
#include "app/work/cure_acts.h"
#include "app/work/known_engines.h"
#include "app/work/open_item_acts.h"
#include "app/work/part_acts.h"
#include "tests/core/describe/measured_engine.h"

namespace rodway::tests {
namespace {

/// So that there is something to change, to answer, to end and to close.
void begin_a_bit_of_everything(ShopSession& session) {
    PartRecord part;
    part.build_id = 1;
    part.item = "Rod bolts";
    ASSERT_TRUE(add_part(session, part).ok());
    ASSERT_TRUE(add_extra(session, 1, {"Exhaust guides", "300", "", ""}).ok());
    Cure cure;
    cure.build_id = 1;
    cure.place = "end rails";
    cure.full_minutes = 24 * 60;
    ASSERT_TRUE(start_cure(session, cure, std::nullopt).ok());
    OpenItem item;
    item.build_id = 1;
    item.title = "Doubtful thread";
    ASSERT_TRUE(add_open_item(session, item).ok());
}

TEST_F(EveryBox, OfBenchAndBuild) {
    begin_a_bit_of_everything(session());
    open(1);
    walk_window({"Bench", "Build"});
    EXPECT_GT(boxes_tried(), 40) << attempts() << " attempts";
}

TEST_F(EveryBox, OfEngineAndValvetrain) {
    open(1);
    walk_window({"Engine", "Valvetrain"});
    EXPECT_GT(boxes_tried(), 10) << attempts() << " attempts";
}

TEST_F(EveryBox, OfSheets) {
    open(1);
    walk_window({"Sheets"});
    EXPECT_GT(boxes_tried(), 100) << attempts() << " attempts";
}

TEST_F(EveryBox, OfPartsAccountAndBook) {
    begin_a_bit_of_everything(session());
    open(1);
    walk_window({"Parts", "Account", "Book", "History", "Compare"});
    EXPECT_GT(boxes_tried(), 40) << attempts() << " attempts";
}

TEST_F(EveryBox, OfTheShop) {
    open(1);
    walk_window({"Shop", "Find"});
    EXPECT_GT(boxes_tried(), 25) << attempts() << " attempts";
}

TEST_F(EveryBox, OfTheMenus) {
    open(1);
    walk_menus();
    EXPECT_GT(boxes_tried(), 5) << attempts() << " attempts";
}

// The engine given by what was measured has boxes of its own.
TEST_F(EveryBox, OfADescribedEngineToo) {
    const SetUpFields six = MeasuredEngine(demo_fields("inline-six")).fields();
    ASSERT_TRUE(add_set_up(session(), 1, "As described", six).ok());
    ASSERT_TRUE(keep_known_engine(session(), {"Merrow six", "MH", "2026-11-03", ""}, six).ok());
    open(1);
    walk_window({"Engine", "Known engines"});
    EXPECT_GT(boxes_tried(), 30) << attempts() << " attempts";
}

} // namespace
} // namespace rodway::tests
