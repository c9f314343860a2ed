#include <QFile>

#include "db/attachments.h"
#include "db/photo_store.h"
#include "db/reading_store.h"
#include "tests/db/shop_test.h"

namespace rodway {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::UnorderedElementsAre;

class ShopCheckTest : public ShopTest {
  protected:
    void SetUp() override {
        write_bytes(in_folder("plate.jpg"), "abc");
        const StoredFile stored = take(keep(shop_, in_folder("plate.jpg")));
        photo_path_ = stored.path;
        digest_ = stored.digest;
        std::vector<Edit> edits = edits_of_whole_build();
        for (Edit& edit : edits) {
            if (edit.field == "digest") edit.after = stored.digest;
        }
        take(apply(shop_, edits, "Dee", noon));
        take(apply(shop_, {{{RecordKind::build, 1}, "note", "wants it quiet", "louder"}}, "Dee",
                   noon));
        take(undo(shop_, 2, "Dee", noon));
    }
    std::vector<Finding> findings() { return take(shop_.check()).findings; }

    ShopFile shop_ = new_shop();
    std::string photo_path_;
    std::string digest_;
    const RecordRef photo_{RecordKind::photo, 1};
};

TEST_F(ShopCheckTest, FindsNothingInASoundFile) {
    EXPECT_THAT(findings(), IsEmpty());
}

TEST_F(ShopCheckTest, FindsAMissingPhoto) {
    ASSERT_TRUE(QFile::remove(QString::fromStdString(photo_path_)));
    EXPECT_THAT(findings(), ElementsAre(Finding{FindingCode::photo_missing, photo_, digest_}));
}

TEST_F(ShopCheckTest, FindsAnAlteredPhotoOfTheSameSize) {
    write_bytes(photo_path_, "abX");
    EXPECT_THAT(findings(), ElementsAre(Finding{FindingCode::photo_altered, photo_, photo_path_}));
}

TEST_F(ShopCheckTest, FindsWhatWasChangedBehindTheHistory) {
    tamper(shop_.path(), "UPDATE builds SET customer = 'Somebody'");
    tamper(shop_.path(), "UPDATE steps SET ticked_by = 'Kim', ticked_at = '2026-03-01T12:00:00Z'");
    tamper(shop_.path(),
           "UPDATE set_up_fields SET unit = 'mm' WHERE path = 'trains/3I/rod/length'");
    tamper(shop_.path(), "DELETE FROM set_up_fields WHERE path = 'layout/cylinders'");
    tamper(shop_.path(), "UPDATE readings SET unit = NULL");
    const auto differs = [](RecordKind kind, const char* field) {
        return Finding{FindingCode::record_differs, RecordRef{kind, 1}, field};
    };
    EXPECT_THAT(
        findings(),
        UnorderedElementsAre(
            differs(RecordKind::build, "customer"), differs(RecordKind::step, "ticked_by"),
            differs(RecordKind::step, "ticked_at"),
            differs(RecordKind::set_up, "trains/3I/rod/length"),
            differs(RecordKind::set_up, "layout/cylinders"), differs(RecordKind::reading, "unit"),
            // which knows the customer by the name before
            Finding{FindingCode::search_index_differs, std::nullopt, "search_nouns"}));
}

TEST_F(ShopCheckTest, FindsARecordWithoutHistoryAndAHistoryWithoutRecord) {
    tamper(shop_.path(), "INSERT INTO builds (id, name) VALUES (5, 'from nowhere')");
    tamper(shop_.path(), "DELETE FROM photos");
    const auto found = findings();
    EXPECT_THAT(found, ::testing::Contains(Finding{FindingCode::record_differs,
                                                   RecordRef{RecordKind::build, 5}, "exists"}));
    EXPECT_THAT(found, ::testing::Contains(Finding{FindingCode::record_differs, photo_, "exists"}));
}

TEST_F(ShopCheckTest, FindsAReferenceToNothing) {
    tamper(shop_.path(), "DELETE FROM stages"); // that connection doesn't enforce references
    const auto found = findings();
    EXPECT_THAT(found, ::testing::Contains(Finding{FindingCode::broken_reference,
                                                   RecordRef{RecordKind::step, 1}, "steps"}));
    EXPECT_THAT(found,
                ::testing::Contains(Finding{FindingCode::broken_reference, photo_, "photos"}));
}

TEST_F(ShopCheckTest, FindsAHistoryThatWasRewritten) {
    tamper(shop_.path(), "DROP TRIGGER edits_stay");
    tamper(shop_.path(), "UPDATE edits SET after = 'silent' WHERE act = 2");
    const RecordRef build{RecordKind::build, 1};
    EXPECT_THAT(findings(), ElementsAre(Finding{FindingCode::history_altered, build, "2"},
                                        Finding{FindingCode::history_broken, build, "note"}));
}

// Changed through edits, so that the history agrees and nothing but the reading is at fault.
TEST_F(ShopCheckTest, FindsGapReadingsThatCannotBeRead) {
    Reading gap = sample_reading(2, 1);
    gap.quantity = "rod_gap";
    gap.position = "3I/tube/rocker/3:30/full_lift";
    gap.text = ".008 goes .010 no";
    Reading on_photo = gap;
    on_photo.id = 3;
    on_photo.text.clear();
    on_photo.status = ReadingStatus::not_measured;
    take(apply(shop_, joined(edits_to_create(gap), edits_to_create(on_photo)), "Dee", noon));
    EXPECT_THAT(findings(), IsEmpty());

    const RecordRef record{RecordKind::reading, 2};
    const auto change = [&](const char* field, const std::string& from, const std::string& to) {
        take(apply(shop_, {{record, field, from, to}}, "Dee", noon));
    };
    change("position", gap.position, "3I/tube/rocker/3:30/full");
    EXPECT_THAT(findings(), ElementsAre(Finding{FindingCode::reading_position_unreadable, record,
                                                "3I/tube/rocker/3:30/full"}));
    change("position", "3I/tube/rocker/3:30/full", gap.position);
    change("text", gap.text, "snug");
    EXPECT_THAT(findings(),
                ElementsAre(Finding{FindingCode::reading_text_unreadable, record, "snug in"}));
    change("text", "snug", ".008");
    change("unit", "in", "furlong");
    EXPECT_THAT(findings(),
                ElementsAre(Finding{FindingCode::reading_text_unreadable, record, ".008 furlong"}));
    change("unit", "furlong", "mm");
    change("text", ".008", "0,2");
    EXPECT_THAT(findings(), IsEmpty());
}

TEST_F(ShopCheckTest, FindsAnIndexThatLeftItsTable) {
    const std::string path = shop_.path();
    shop_ = new_shop("other.rodway");
    std::string bytes = bytes_of(path);
    // Quantity and position stand side by side in the table, with the text behind, and in the
    // index, without it. Opening looks at the pages' form only and can't know.
    const std::string needle = "rod_clearance3I";
    std::size_t at = bytes.find(needle);
    while (at != std::string::npos && bytes.compare(at + needle.size(), 4, ".008") == 0) {
        at = bytes.find(needle, at + 1);
    }
    ASSERT_NE(at, std::string::npos);
    bytes[at] = 'x';
    write_bytes(path, bytes);
    ShopFile shop = take(ShopFile::open(path));
    EXPECT_THAT(take(shop.check()).findings,
                ::testing::Contains(::testing::Field(&Finding::code, FindingCode::damaged_pages)));
}

} // namespace
} // namespace rodway
