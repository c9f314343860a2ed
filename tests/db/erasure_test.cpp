#include "db/erasure.h"

#include <algorithm>
#include <cstdio>

#include "db/attachments.h"
#include "db/build_records.h"
#include "db/build_store.h"
#include "db/connection.h"
#include "db/search.h"
#include "tests/db/shop_test.h"

namespace rodway {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

const std::string later = "2026-09-01T08:00:00Z";

class ErasureTest : public ShopTest {
  protected:
    void SetUp() override {
        Customer customer;
        customer.id = 1;
        customer.name = "Orla Quist";
        customer.phone = "0 55 12 777";
        customer.note = "pays late";
        take(apply(shop_, edits_to_create(customer), "Dee", noon));
        Build build = sample_build(1);
        build.customer = "Orla Quist";
        build.customer_id = 1;
        take(apply(shop_, edits_to_create(build), "Dee", noon));
        take(apply(shop_, {Edit{customer_, "phone", "0 55 12 777", "0 55 99 888"}}, "Kim", noon));
        take(apply(shop_, edits_to_create(sample_build(2)), "Dee", noon));
    }

    /// Every file of the shop, as bytes: what a person with a hex viewer finds.
    [[nodiscard]] bool stands_anywhere(const std::string& text) const {
        for (const std::string& name : names()) {
            if (bytes_of(in_folder(name)).find(text) != std::string::npos) return true;
        }
        return false;
    }

    ShopFile shop_ = new_shop();
    const RecordRef customer_{RecordKind::customer, 1};
    const RecordRef build_{RecordKind::build, 1};
};

TEST_F(ErasureTest, TakesACustomerOutOfRecordsHistoryAndFile) {
    ASSERT_TRUE(stands_anywhere("Orla Quist"));
    ASSERT_FALSE(take(search(shop_, "orla", 10)).found.empty());
    const Erasure done = take(erase_customer(shop_, 1, "Dee", later));
    EXPECT_TRUE(done.file_cleared);
    EXPECT_THAT(done.builds, ElementsAre(1));
    EXPECT_THAT(done.still_named, IsEmpty());
    for (const char* text : {"Orla Quist", "0 55 12 777", "0 55 99 888", "pays late"}) {
        EXPECT_FALSE(stands_anywhere(text)) << text;
    }
    EXPECT_FALSE(stands_anywhere("quist")); // as the index of words writes it
    EXPECT_THAT(take(search(shop_, "orla", 10)).found, IsEmpty());
    const Customer customer = take(load_records<Customer>(shop_, shop_wide)).at(0);
    EXPECT_EQ(customer.name, "-");
    EXPECT_FALSE(customer.phone || customer.note);
    EXPECT_EQ(customer.erased, later);
    const Build build = take(load_build(shop_, 1));
    EXPECT_EQ(build.customer, "");
    EXPECT_EQ(build.customer_id, 1);
    EXPECT_EQ(build.name, "Blue pickup"); // only what is personal has gone
    EXPECT_EQ(take(load_build(shop_, 2)).customer, "R. Marsh");
}

TEST_F(ErasureTest, DeletesTheBooksOfHisBuildsThatTheShopKeepsAndNobodyElses) {
    std::vector<std::string> paths;
    for (const std::int64_t build_id : {1, 2}) {
        const std::string source = in_folder("book.pdf");
        write_bytes(source, build_id == 1 ? "Built for Orla Quist" : "Built for R. Marsh");
        const StoredFile kept = take(keep(shop_, source));
        HandOff given;
        given.id = build_id;
        given.build_id = build_id;
        given.book_digest = kept.digest;
        given.history_head = std::string(64, 'a');
        given.program_version = "1";
        given.given_at = noon;
        take(apply(shop_, edits_to_create(given), "Dee", noon));
        paths.push_back(kept.path);
        std::remove(source.c_str());
    }
    const Erasure done = take(erase_customer(shop_, 1, "Dee", later));
    EXPECT_EQ(done.books_deleted, 1);
    EXPECT_THAT(done.books_left, IsEmpty());
    EXPECT_FALSE(path_of(shop_, take(load_records<HandOff>(shop_, 1)).at(0).book_digest.value()));
    EXPECT_EQ(bytes_of(paths[1]), "Built for R. Marsh");
    // That one was given away stays known, with its digest; the shop is whole.
    EXPECT_EQ(take(load_records<HandOff>(shop_, 1)).size(), 1U);
    EXPECT_THAT(take(shop_.check()).findings, IsEmpty());
    // Again: nothing is left to delete, and it is no error.
    EXPECT_EQ(take(erase_customer(shop_, 1, "Dee", later)).books_deleted, 0);
}

TEST_F(ErasureTest, LeavesTheChainOfEveryBuildWholeAndItsEarlierHeadsKnown) {
    const std::string before = take(history_head(shop_, 1));
    take(erase_customer(shop_, 1, "Dee", later));
    EXPECT_THAT(take(shop_.check()).findings, IsEmpty());
    EXPECT_EQ(take(act_of_head(shop_, 1, before)), 2);
    // And the rest of an act that lost one text is still sealed.
    tamper(shop_.path(), "DROP TRIGGER edits_stay");
    tamper(shop_.path(), "UPDATE edits SET after = 'x' WHERE act = 2 AND field = 'name'");
    tamper(shop_.path(), "UPDATE builds SET name = 'x' WHERE id = 1");
    EXPECT_THAT(take(shop_.check()).findings,
                ::testing::Contains(Finding{FindingCode::history_altered, build_, "2"}));
}

TEST_F(ErasureTest, LeavesNoSaltByWhichAGuessCouldBeTried) {
    take(erase_customer(shop_, 1, "Dee", later));
    EXPECT_EQ(ask(shop_.path(),
                  "SELECT count(*) FROM edits WHERE erased_digest IS NOT NULL"
                  " AND (salt IS NOT NULL OR before IS NOT NULL OR after IS NOT NULL)"),
              "0");
    EXPECT_EQ(ask(shop_.path(),
                  "SELECT count(*) FROM edits e JOIN acts a ON a.number = e.act"
                  " WHERE e.erased_digest IS NOT NULL AND a.salt IS NOT NULL"),
              "0");
}

TEST_F(ErasureTest, ShowsInTheHistoryThatSomethingWasErased) {
    take(erase_customer(shop_, 1, "Dee", later));
    const auto acts = take(history(shop_, customer_));
    ASSERT_EQ(acts.size(), 3U);
    const auto erased = [](const Edit& edit) { return edit.erased; };
    EXPECT_EQ(std::count_if(acts[0].edits.begin(), acts[0].edits.end(), erased), 3);
    EXPECT_TRUE(acts[1].edits.at(0).erased);
    EXPECT_EQ(refusal(undo(shop_, 3, "Dee", later)).code, ErrorCode::erased_text);
    const auto then = take(records_as_of_act(shop_, shop_wide, 3));
    EXPECT_EQ(then.at(customer_).count("phone"), 0U);
}

TEST_F(ErasureTest, NamesTheTextsThatStillNameTheCustomerAndCanEraseThoseToo) {
    Note note;
    note.id = 1;
    note.build_id = 2;
    note.text = "orla quist asked for the same heads";
    note.written_by = "Kim";
    note.written_at = noon;
    take(apply(shop_, edits_to_create(note), "Kim", noon));
    const Erasure done = take(erase_customer(shop_, 1, "Dee", later));
    ASSERT_EQ(done.still_named.size(), 1U);
    EXPECT_EQ(done.still_named[0].record, (RecordRef{RecordKind::note, 1}));
    EXPECT_EQ(done.still_named[0].field, "text");
    ASSERT_TRUE(stands_anywhere("orla quist"));
    take(erase_texts(shop_, {{done.still_named[0].record, "text", "asked for the same heads"}},
                     "Dee", later));
    EXPECT_FALSE(stands_anywhere("orla quist"));
    EXPECT_EQ(take(load_records<Note>(shop_, 2)).at(0).text, "asked for the same heads");
    EXPECT_THAT(take(shop_.check()).findings, IsEmpty());
}

TEST_F(ErasureTest, TakesTheNameOffABuildThatWentToSomebodyElseButNotTheOthersName) {
    Customer other;
    other.id = 2;
    other.name = "Per Lund";
    take(apply(shop_, edits_to_create(other), "Dee", noon));
    take(apply(
        shop_,
        {Edit{build_, "customer_id", "1", "2"}, Edit{build_, "customer", "Orla Quist", "Per Lund"}},
        "Dee", noon));
    take(apply(shop_, {Edit{build_, "customer", "Per Lund", "P. Lund"}}, "Dee", noon));
    const Erasure done = take(erase_customer(shop_, 1, "Dee", later));
    EXPECT_THAT(done.builds, ElementsAre(1));
    EXPECT_FALSE(stands_anywhere("Orla Quist"));
    EXPECT_EQ(take(load_build(shop_, 1)).customer, "P. Lund");
    const auto last = take(history_of_build(shop_, 1)).back();
    EXPECT_THAT(last.edits, ElementsAre(Edit{build_, "customer", "Per Lund", "P. Lund"}));
    EXPECT_THAT(take(shop_.check()).findings, IsEmpty());
}

TEST_F(ErasureTest, TwiceChangesNothingMoreAndOfNobodyIsRefused) {
    take(erase_customer(shop_, 1, "Dee", later));
    const std::string once = dump_with_history(shop_.path());
    take(erase_customer(shop_, 1, "Dee", "2026-10-01T08:00:00Z"));
    EXPECT_EQ(dump_with_history(shop_.path()), once);
    EXPECT_EQ(refusal(erase_customer(shop_, 7, "Dee", later)).code, ErrorCode::no_such_record);
}

TEST_F(ErasureTest, SaysThatTheFileIsNotClearedWhileAnotherWindowReads) {
    Connection other = take(Connection::open_existing(shop_.path(), std::chrono::milliseconds(0)));
    take(other.run("BEGIN"));
    take(other.single("SELECT count(*) FROM edits"));
    ShopFile quick = take(ShopFile::open(shop_.path(), std::chrono::milliseconds(50)));
    EXPECT_FALSE(take(erase_customer(quick, 1, "Dee", later)).file_cleared);
    take(other.run("COMMIT"));
    EXPECT_TRUE(take(erase_texts(quick, {}, "Dee", later)).file_cleared);
    EXPECT_FALSE(stands_anywhere("Orla Quist"));
}

} // namespace
} // namespace rodway
