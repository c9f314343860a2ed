#include "db/rescue.h"

#include <QFileInfo>
#include <set>
#include <sstream>

#include "db/connection.h"
#include "db/erasure.h"
#include "db/migrations.h"
#include "tests/db/faulty_shop.h"
#include "tests/db/rounds.h"

namespace rodway {
namespace {

using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::Field;
using ::testing::IsEmpty;

constexpr std::size_t page_size = 4096;

class RescueTest : public FaultyShopTest {
  protected:
    void SetUp() override {
        FaultyShopTest::SetUp();
        bytes_ = bytes_of(path_);
        {
            ShopFile shop = take(ShopFile::open(path_));
            records_ = records_of(shop);
            acts_ = take(acts_since(shop, 0));
        }
        content_ = dump_with_history(path_);
        seals_ = seals(path_);
        static_cast<void>(copy_photos(in_folder("shop.photos"), in_folder("damaged.photos")));
    }

    static std::string seals(const std::string& path) {
        return rows_of(path, "SELECT number, hex(salt) FROM acts") +
               rows_of(path, "SELECT build_id, act, hex(digest) FROM history_links") +
               rows_of(path,
                       "SELECT act, ordinal, build_id, hex(salt), hex(erased_digest) FROM"
                       " edits") +
               rows_of(path, "SELECT seq FROM sqlite_sequence WHERE name = 'acts'");
    }

    /// The bytes with the page on which a table begins, or with all that begins a page there,
    /// overwritten.
    [[nodiscard]] std::string without_root_of(std::string bytes, const std::string& table) const {
        const auto root = static_cast<std::size_t>(std::stoul(
            ask(path_, "SELECT rootpage FROM sqlite_schema WHERE name = '" + table + "'")));
        return bytes.replace((root - 1) * page_size, page_size, std::string(page_size, '\x5a'));
    }

    RescueReport rescued(const std::string& bytes) {
        const std::string damaged = fresh_copy(bytes);
        target_ = in_folder("new " + std::to_string(++rescues_) + ".rodway");
        RescueReport report = take(rescue(damaged, target_));
        EXPECT_EQ(bytes_of(damaged), bytes);
        return report;
    }

    /// As before, in every record and act that the report doesn't name.
    void expect_equal_but_for(const RescueReport& report) {
        ShopFile shop = take(ShopFile::open(target_));
        const RecordTexts found = records_of(shop);
        RecordTexts all = found;
        all.insert(records_.begin(), records_.end());
        std::set<RecordRef, ByKindAndId> named;
        for (const RescueNote& note : report.notes) named.insert(note.record);
        // Where acts are lost, nothing may be left that knows of a lost record.
        std::set<RecordRef, ByKindAndId> known;
        for (const Act& act : take(acts_since(shop, 0))) {
            for (const Edit& edit : act.edits) known.insert(edit.record);
        }
        const bool any_lost = !report.lost_acts.empty() || report.acts_missing_at_end > 0;
        for (const auto& [ref, unused] : all) {
            const auto before = records_.find(ref);
            const auto after = found.find(ref);
            const bool same =
                before != records_.end() && after != found.end() && before->second == after->second;
            const bool forgotten = any_lost && after == found.end() && known.count(ref) == 0;
            EXPECT_TRUE(same || forgotten || named.count(ref) != 0)
                << "kind " << static_cast<int>(ref.kind) << " id " << ref.id;
        }
        std::set<std::string> told;
        for (const std::int64_t act : report.lost_acts) told.insert(std::to_string(act));
        for (const Finding& finding : report.check.findings) {
            if (finding.code == FindingCode::history_altered) told.insert(finding.detail);
        }
        std::map<std::int64_t, Act> acts;
        for (Act& act : take(acts_since(shop, 0))) acts.emplace(act.number, act);
        for (const Act& act : acts_) {
            const auto after = acts.find(act.number);
            const bool same = after != acts.end() && after->second.edits == act.edits &&
                              after->second.who == act.who &&
                              after->second.when_utc == act.when_utc &&
                              after->second.undoes == act.undoes;
            EXPECT_TRUE(same || told.count(std::to_string(act.number)) != 0 ||
                        act.number > acts_.back().number - report.acts_missing_at_end)
                << "act " << act.number;
        }
        EXPECT_EQ(rows_of(target_, "PRAGMA foreign_key_check"), "");
    }

    void expect_whole(const RescueReport& report) {
        EXPECT_THAT(report.notes, IsEmpty());
        EXPECT_THAT(report.lost_acts, IsEmpty());
        EXPECT_THAT(report.check.findings, IsEmpty());
        EXPECT_EQ(dump_with_history(target_), content_);
        EXPECT_EQ(seals(target_), seals_);
    }

    std::string bytes_;
    RecordTexts records_;
    std::vector<Act> acts_;
    std::string content_;
    std::string seals_;
    std::string target_;
    int rescues_ = 0;
};

TEST_F(RescueTest, OfASoundFileIsTheSameFile) {
    const RescueReport report = rescued(bytes_);
    expect_whole(report);
    EXPECT_EQ(report.acts, static_cast<std::int64_t>(acts_.size()));
    EXPECT_EQ(report.records.at(RecordKind::reading).as_stored, builds * readings_each);
    EXPECT_EQ(report.photos_copied, 1);
    EXPECT_THAT(names(), ElementsAre("damaged.photos", "damaged.rodway", "new 1.photos",
                                     "new 1.rodway", "plate.jpg", "shop.photos", "shop.rodway"));
}

TEST_F(RescueTest, NeedsNoHeaderNoFirstPageAndNoSchema) {
    std::string no_header = bytes_;
    expect_whole(rescued(no_header.replace(0, 100, std::string(100, '\0'))));
    std::string no_first_page = bytes_;
    expect_whole(rescued(no_first_page.replace(0, page_size, std::string(page_size, '\x5a'))));
    std::string no_sentence = bytes_;
    const std::size_t at = no_sentence.find("CREATE TABLE readings");
    ASSERT_NE(at, std::string::npos);
    const std::size_t begin = at / page_size * page_size;
    expect_whole(rescued(no_sentence.replace(begin, page_size, std::string(page_size, '\0'))));
}

TEST_F(RescueTest, OfACompactedFileFindsItsTablesByTheSchema) {
    const std::string compact = in_folder("compact.rodway");
    tamper(path_, "VACUUM INTO '" + compact + "'");
    std::string bytes = bytes_of(compact);
    ASSERT_NE(ask(compact, "SELECT rootpage FROM sqlite_schema WHERE name = 'edits'"),
              ask(path_, "SELECT rootpage FROM sqlite_schema WHERE name = 'edits'"));
    expect_whole(rescued(bytes.replace(0, 100, std::string(100, '\0'))));
}

TEST_F(RescueTest, ReadsTheLogThatBelongsToTheFile) {
    std::string file;
    std::string log;
    {
        ShopFile shop = take(ShopFile::open(path_));
        take(apply(shop, edits_to_create(sample_build(77)), "Dee", noon));
        file = bytes_of(path_);
        log = bytes_of(path_ + "-wal");
    }
    ASSERT_FALSE(log.empty());
    const std::string damaged = fresh_copy(file.replace(0, 100, std::string(100, '\0')));
    write_bytes(damaged + "-wal", log);
    const RescueReport report = take(rescue(damaged, in_folder("new.rodway")));
    EXPECT_THAT(report.notes, IsEmpty());
    EXPECT_EQ(dump_with_history(in_folder("new.rodway")), dump_with_history(path_));
    EXPECT_EQ(bytes_of(damaged), file);
    EXPECT_EQ(bytes_of(damaged + "-wal"), log);
}

TEST_F(RescueTest, TakesLostRowsFromTheHistoryAndNamesThem) {
    const RescueReport report = rescued(without_root_of(bytes_, "readings"));
    EXPECT_EQ(dump_with_history(target_), content_);
    EXPECT_THAT(report.check.findings, IsEmpty());
    const RescueCount& readings = report.records.at(RecordKind::reading);
    EXPECT_EQ(readings.replayed, builds * readings_each);
    EXPECT_EQ(readings.as_stored, 0);
    EXPECT_EQ(readings.lost, 0);
    ASSERT_EQ(report.notes.size(), static_cast<std::size_t>(builds * readings_each));
    EXPECT_EQ(report.notes.front(),
              (RescueNote{RescueCode::replayed, {RecordKind::reading, 1}, {}}));
}

TEST_F(RescueTest, BelievesASealedHistoryRatherThanARowThatReadsWell) {
    std::string bytes = bytes_;
    const std::size_t at = bytes.find("bench 7", bytes.find("measuredDee"));
    ASSERT_NE(at, std::string::npos);
    int mended = 0;
    // The text stands once in the row and once in the history, and either may be the damaged one.
    for (std::size_t place = bytes.find("on bench 7"); place != std::string::npos;
         place = bytes_.find("on bench 7", place + 1)) {
        bytes = bytes_;
        bytes[place + 9] = '8';
        const RescueReport report = rescued(bytes);
        expect_equal_but_for(report);
        ASSERT_EQ(report.notes.size(), 1U);
        if (report.notes[0].code == RescueCode::replayed) ++mended;
        EXPECT_EQ(dump(target_), dump(path_)) << "the records are right either way";
    }
    EXPECT_EQ(mended, builds);
}

TEST_F(RescueTest, KeepsRecordsWhoseHistoryIsLost) {
    const RescueReport report = rescued(without_root_of(bytes_, "edits"));
    EXPECT_EQ(dump(target_), dump(path_));
    EXPECT_THAT(report.notes, ::testing::Each(Field(&RescueNote::code, RescueCode::differs)));
    EXPECT_EQ(report.notes.size(), records_.size());
    EXPECT_EQ(report.records.at(RecordKind::build).as_stored, builds);
    EXPECT_THAT(report.check.findings,
                Contains(Field(&Finding::code, FindingCode::history_altered)));
}

TEST_F(RescueTest, NamesActsThatAreLostAndKeepsWhatTheyDid) {
    const RescueReport report = rescued(without_root_of(bytes_, "acts"));
    EXPECT_EQ(report.acts, 0);
    EXPECT_EQ(report.lost_acts.size(), acts_.size());
    EXPECT_EQ(dump(target_), dump(path_));
    EXPECT_THAT(report.check.findings,
                Contains(Finding{FindingCode::history_shortened, std::nullopt,
                                 std::to_string(acts_.size())}));
}

TEST_F(RescueTest, LetsGoOfWhatRefersToTheLostAndNamesBoth) {
    const std::string bytes = without_root_of(without_root_of(bytes_, "stages"), "edits");
    const RescueReport report = rescued(bytes);
    for (std::int64_t id = 1; id <= builds; ++id) {
        const auto note = [id](RescueCode code, RecordKind kind, const char* field) {
            return RescueNote{code, {kind, id}, field};
        };
        EXPECT_THAT(report.notes, Contains(note(RescueCode::lost, RecordKind::stage, "")));
        EXPECT_THAT(report.notes,
                    Contains(note(RescueCode::left_out, RecordKind::step, "stage_id")));
        EXPECT_THAT(report.notes,
                    Contains(note(RescueCode::unlinked, RecordKind::photo, "stage_id")));
    }
    EXPECT_EQ(report.records.at(RecordKind::stage).lost, builds);
    EXPECT_EQ(report.records.at(RecordKind::step).lost, builds);
    EXPECT_EQ(report.records.at(RecordKind::photo).as_stored, builds);
    expect_equal_but_for(report);
}

TEST_F(RescueTest, LeavesPhotosBehindThatAreNotWhatTheyWere) {
    const std::string kept =
        in_folder("damaged.photos/" + photo_digest_.substr(0, 2) + "/" + photo_digest_ + ".jpg");
    write_bytes(kept, "plaTe");
    const RescueReport report = rescued(bytes_);
    EXPECT_EQ(report.photos_copied, 0);
    EXPECT_THAT(report.photos_altered, ElementsAre(kept));
    EXPECT_THAT(report.check.findings,
                Contains(Finding{FindingCode::photo_missing, RecordRef{RecordKind::photo, 1},
                                 photo_digest_}));
}

TEST_F(RescueTest, OfAnOlderVersionMakesOneOfThisVersion) {
    const std::string old_path = in_folder("old.rodway");
    {
        Connection old = take(Connection::create_new(old_path));
        auto migrations = own_migrations();
        migrations.resize(1);
        static_cast<void>(take(migrate(old, migrations)));
        take(old.run("INSERT INTO builds (id, name) VALUES (1, 'Old one')"));
        take(old.run("INSERT INTO acts VALUES (1, 'Dee', '2026-03-01T12:00:00Z', NULL)"));
        take(
            old.run("INSERT INTO edits VALUES (1, 0, 'build', 1, 'exists', NULL, '1'),"
                    " (1, 1, 'build', 1, 'name', NULL, 'Old one')"));
    }
    const RescueReport report = take(rescue(old_path, in_folder("new.rodway")));
    EXPECT_THAT(report.notes, IsEmpty());
    EXPECT_THAT(report.check.findings, IsEmpty());
    ShopFile shop = take(ShopFile::open(in_folder("new.rodway")));
    EXPECT_EQ(take(load_build(shop, 1)).name, "Old one");
    EXPECT_EQ(take(history_of_build(shop, 1)).size(), 1U);
}

TEST_F(RescueTest, OverwritesNothingAndLeavesNothingWhereNothingCanBeRead) {
    const auto before = names();
    Error error = refusal(rescue(path_, in_folder("plate.jpg")));
    EXPECT_EQ(error.code, ErrorCode::cannot_write);
    EXPECT_EQ(error.field, in_folder("plate.jpg"));
    EXPECT_EQ(error.value, "exists");
    error = refusal(rescue(in_folder("none.rodway"), in_folder("new.rodway")));
    EXPECT_EQ(error.code, ErrorCode::cannot_read);
    EXPECT_EQ(error.field, in_folder("none.rodway"));
    error = refusal(rescue(path_, in_folder("none/new.rodway")));
    EXPECT_EQ(error.code, ErrorCode::cannot_write);
    EXPECT_EQ(error.value, "no_folder");
    EXPECT_EQ(names(), before);

    write_bytes(in_folder("noise"), std::string(50'000, '\x5a'));
    error = refusal(rescue(in_folder("noise"), in_folder("new.rodway")));
    EXPECT_EQ(error.code, ErrorCode::damaged_file);
    EXPECT_EQ(error.value, "unreadable");
    EXPECT_EQ(error.field, in_folder("noise"));
    tamper(in_folder("other.db"), "CREATE TABLE builds (id INTEGER PRIMARY KEY)");
    error = refusal(rescue(in_folder("other.db"), in_folder("new.rodway")));
    EXPECT_EQ(error.code, ErrorCode::foreign_file);
    EXPECT_FALSE(QFileInfo::exists(QString::fromStdString(in_folder("new.rodway"))));
    EXPECT_EQ(names().size(), before.size() + 2);
}

TEST_F(RescueTest, AfterAFlippedByteIsEqualButForWhatItNames) {
    const unsigned seed = std::random_device()();
    SCOPED_TRACE("seed " + std::to_string(seed));
    std::mt19937 random(seed);
    for (int round = 0; round < rounds(60); ++round) {
        std::string bytes = bytes_;
        const std::size_t at = seeded_place(random, bytes);
        const char by = static_cast<char>(1 + random() % 255);
        bytes[at] = static_cast<char>(bytes[at] ^ by);
        SCOPED_TRACE("byte " + std::to_string(at) + " by " + std::to_string(by));
        expect_equal_but_for(rescued(bytes));
        // History and rows tell everything twice: one byte costs no record.
        EXPECT_EQ(dump(target_), dump(path_));
    }
}

TEST_F(RescueTest, OfARecordWhoseOwnerIsLostInTheHistoryKeepsTheRow) {
    int owners = 0;
    for (std::size_t at = bytes_.find("build_id6"); at != std::string::npos;
         at = bytes_.find("build_id6", at + 1)) {
        ++owners;
        for (const std::size_t place : {at, at + 8}) { // the field's name; the build's number
            std::string bytes = bytes_;
            bytes[place] = static_cast<char>(bytes[place] + 1);
            SCOPED_TRACE("byte " + std::to_string(place));
            const RescueReport report = rescued(bytes);
            expect_equal_but_for(report);
            EXPECT_EQ(dump(target_), dump(path_));
            EXPECT_THAT(report.check.findings,
                        Contains(Field(&Finding::code, FindingCode::history_altered)));
        }
        if (owners == rounds(10)) break;
    }
    EXPECT_EQ(owners, rounds(10));
}

TEST_F(RescueTest, WhatWasRemovedOrErasedStaysGoneWhicheverByteOfItsHistoryIsFlipped) {
    {
        ShopFile shop = take(ShopFile::open(path_));
        take(erase_customer(shop, 1, "Dee", noon));
    }
    const std::string bytes = bytes_of(path_);
    const std::string content = dump(path_);
    ASSERT_EQ(bytes.find("R. Marsh"), std::string::npos);
    // Where the removed note and what is left of the erased texts stand in the history.
    std::set<std::string> marks{"Heard on the dyno: quiet"};
    std::istringstream digests(
        rows_of(path_, "SELECT hex(erased_digest) FROM edits WHERE erased_digest NOT NULL"));
    for (std::string digest; std::getline(digests, digest);) {
        marks.insert(QByteArray::fromHex(QByteArray::fromStdString(digest)).toStdString());
    }
    ASSERT_GT(marks.size(), 2U);
    constexpr std::size_t around = 100;
    std::vector<std::size_t> places;
    for (const std::string& mark : marks) {
        for (std::size_t at = bytes.find(mark); at != std::string::npos;
             at = bytes.find(mark, at + 1)) {
            for (std::size_t i = at - around; i < at + mark.size() + around; ++i) {
                if (bytes[i] != '\0') places.push_back(i);
            }
        }
    }
    const unsigned seed = std::random_device()();
    SCOPED_TRACE("seed " + std::to_string(seed));
    std::mt19937 random(seed);
    for (int round = 0; round < rounds(60); ++round) {
        std::string flipped = bytes;
        const std::size_t at = places[random() % places.size()];
        const char by = static_cast<char>(1 + random() % 255);
        flipped[at] = static_cast<char>(flipped[at] ^ by);
        SCOPED_TRACE("byte " + std::to_string(at) + " by " + std::to_string(by));
        static_cast<void>(rescued(flipped));
        EXPECT_EQ(dump(target_), content);
        EXPECT_EQ(ask(target_, "SELECT count(*) FROM notes WHERE id = 1"), "0");
        const std::string made = bytes_of(target_);
        for (const char* words : {"R. Marsh", "marsh", "555 0101"}) {
            EXPECT_EQ(made.find(words), std::string::npos) << words;
        }
    }
}

TEST_F(RescueTest, DoesNotBringARemovedRecordBackWhenOnlyItsRemovalIsLost) {
    // The page of edits that was written last.
    const std::size_t last = bytes_.rfind("Heard on the dyno: quiet") / page_size;
    std::string bytes = bytes_;
    const RescueReport report =
        rescued(bytes.replace(last * page_size, page_size, std::string(page_size, '\x5a')));
    EXPECT_THAT(report.notes, Contains(RescueNote{RescueCode::no_row, {RecordKind::note, 1}, {}}));
    EXPECT_EQ(dump(target_), dump(path_));
}

TEST_F(RescueTest, NeedsNothingOfTheIndexOfWords) {
    // So much of it that the file ends with it.
    tamper(path_,
           "WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 3000)"
           " INSERT INTO search_readings (rowid, body) SELECT 1000000 + i,"
           " 'word' || i || ' other' || (i * 7919) FROM n");
    tamper(path_, "PRAGMA wal_checkpoint(TRUNCATE)");
    const std::string bytes = bytes_of(path_);
    ASSERT_GT(bytes.size(), bytes_.size() + 10 * page_size);
    ASSERT_THAT(ask(path_, "SELECT name FROM dbstat ORDER BY pageno DESC LIMIT 1"),
                ::testing::StartsWith("search_"));
    for (const std::size_t cut : {std::size_t{1}, page_size / 2, page_size, 3 * page_size + 7}) {
        SCOPED_TRACE("cut " + std::to_string(cut));
        expect_whole(rescued(bytes.substr(0, bytes.size() - cut)));
    }
    std::string without = bytes;
    std::string numbers =
        rows_of(path_, "SELECT pageno FROM dbstat WHERE name LIKE 'search\\_%' ESCAPE '\\'");
    std::replace(numbers.begin(), numbers.end(), '|', ' ');
    std::istringstream pages(numbers);
    int overwritten = 0;
    for (std::size_t page = 0; pages >> page; ++overwritten) {
        without.replace((page - 1) * page_size, page_size, std::string(page_size, '\x5a'));
    }
    EXPECT_GT(overwritten, 10);
    expect_whole(rescued(without));
}

TEST_F(RescueTest, OfATruncatedFileIsEqualButForWhatItNames) {
    const unsigned seed = std::random_device()();
    SCOPED_TRACE("seed " + std::to_string(seed));
    std::mt19937 random(seed);
    int kept = 0;
    for (int tenths = 10; tenths >= 3; --tenths) {
        const std::size_t length = bytes_.size() * tenths / 10 - 1 - random() % page_size;
        SCOPED_TRACE("length " + std::to_string(length));
        const RescueReport report = rescued(bytes_.substr(0, length));
        for (const auto& [kind, count] : report.records) kept += count.as_stored + count.replayed;
        expect_equal_but_for(report);
    }
    RecordProperty("records_kept", kept);
    EXPECT_GT(kept, 0);
}

} // namespace
} // namespace rodway
