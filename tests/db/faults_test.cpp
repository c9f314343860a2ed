#include <sys/stat.h>

#include <QFileInfo>
#include <algorithm>
#include <map>

#include "db/connection.h"
#include "db/migrations.h"
#include "tests/db/child_process.h"
#include "tests/db/faulty_shop.h"
#include "tests/db/rounds.h"

namespace rodway {
namespace {

using namespace std::chrono_literals;
using ::testing::Contains;
using ::testing::Field;
using ::testing::IsEmpty;

class FaultsTest : public FaultyShopTest {
  protected:
    void SetUp() override {
        FaultyShopTest::SetUp();
        bytes_ = bytes_of(path_);
        content_ = dump_with_history(path_);
    }

    /// What became of a copy: "refused <code>", "found", "harmless" or "WRONG <why>".
    std::string outcome(const std::string& bytes) const {
        const std::string path = fresh_copy(bytes);
        const std::string photos = in_folder("damaged.photos");
        if (!QFileInfo::exists(QString::fromStdString(photos))) {
            static_cast<void>(copy_photos(in_folder("shop.photos"), photos));
        }
        {
            auto opened = ShopFile::open(path, 50ms);
            if (!opened) return refused(opened.error(), path);
            ShopFile shop = std::move(opened).value();
            const auto checked = shop.check();
            if (!checked) return refused(checked.error(), path);
            if (!checked->findings.empty()) return "found";
        }
        try {
            return dump_with_history(path) == content_ ? "harmless" : "WRONG content, called sound";
        } catch (const std::exception& failure) {
            return std::string("WRONG, called sound and unreadable: ") + failure.what();
        }
    }
    static std::string refused(const Error& error, const std::string& path) {
        if (error.field != path) return "WRONG, names not the file but " + describe(error);
        switch (error.code) {
            case ErrorCode::damaged_file:
                return "refused damaged_file";
            case ErrorCode::foreign_file:
                return "refused foreign_file";
            case ErrorCode::newer_version:
                return "refused newer_version";
            case ErrorCode::cannot_write:
                return "refused cannot_write";
            case ErrorCode::cannot_read:
                return "refused cannot_read";
            default:
                return "WRONG " + describe(error);
        }
    }
    void tell(const std::map<std::string, int>& outcomes) {
        for (const auto& [what, count] : outcomes) {
            std::string key = what;
            std::replace(key.begin(), key.end(), ' ', '_');
            RecordProperty(key, count);
            EXPECT_EQ(what.find("WRONG"), std::string::npos) << what << ", " << count << " times";
        }
    }

    std::string bytes_;
    std::string content_;
};

TEST_F(FaultsTest, AFlippedByteIsRefusedOrFoundOrHarmlessInAThousandPlaces) {
    const unsigned seed = std::random_device()();
    SCOPED_TRACE("seed " + std::to_string(seed));
    std::mt19937 random(seed);
    std::map<std::string, int> outcomes;
    for (int round = 0; round < rounds(1000); ++round) {
        std::string bytes = bytes_;
        const std::size_t at = seeded_place(random, bytes);
        const char by = static_cast<char>(1 + random() % 255);
        bytes[at] = static_cast<char>(bytes[at] ^ by);
        const std::string what = outcome(bytes);
        EXPECT_EQ(what.find("WRONG"), std::string::npos)
            << what << ": byte " << at << " by " << static_cast<int>(by);
        ++outcomes[what];
    }
    tell(outcomes);
    // Places where something is written are half of them: a check that sees little fails this.
    EXPECT_GT(outcomes["found"] + outcomes["refused damaged_file"], rounds(250));
}

TEST_F(FaultsTest, AFileCutOffAnywhereIsRefused) {
    const unsigned seed = std::random_device()();
    SCOPED_TRACE("seed " + std::to_string(seed));
    std::mt19937 random(seed);
    constexpr std::size_t page = 4096;
    std::vector<std::size_t> lengths{0, 1, 15, 16, 99, 100, 511, 512, 1024, bytes_.size() - 1};
    for (std::size_t at = page; at < bytes_.size(); at += page) lengths.push_back(at);
    for (int round = 0; round < 50; ++round) lengths.push_back(random() % bytes_.size());
    std::map<std::string, int> outcomes;
    for (const std::size_t length : lengths) {
        const std::string what = outcome(bytes_.substr(0, length));
        EXPECT_EQ(what.rfind("refused ", 0), 0U) << what << " at " << length;
        ++outcomes[what];
    }
    tell(outcomes);
}

TEST_F(FaultsTest, ADiskThatTakesNoMoreLosesNothingThatWasCommitted) {
    const std::string path = path_;
    const std::int64_t before = std::stoll(ask(path, "SELECT max(number) FROM acts"));
    // The child answers how many acts were committed before the disk was full.
    const int committed = in_child([&] {
        ShopFile shop = take(ShopFile::open(path));
        take(apply(shop, edits_to_create(sample_build(100)), "Dee", noon));
        limit_file_size(200'000); // of the log, which grows with every act
        for (int id = 101; id < 190; ++id) {
            Build build = sample_build(id);
            build.note = std::string(3000, 'n');
            const auto act = apply(shop, edits_to_create(build), "Dee", noon);
            if (act) continue;
            const bool told =
                act.error().code == ErrorCode::cannot_write && act.error().field == path &&
                (act.error().value == "disk_error" || act.error().value == "disk_full");
            // What is there can still be read.
            return told && std::ssize(take(load_builds(shop))) == builds + id - 100 ? id - 100 : 97;
        }
        return 96;
    });
    ASSERT_GT(committed, 1);
    ASSERT_LT(committed, 90);
    ShopFile shop = take(ShopFile::open(path));
    EXPECT_EQ(take(last_act(shop)), before + committed);
    EXPECT_THAT(take(shop.check()).findings, IsEmpty());
}

TEST_F(FaultsTest, AReadOnlyFolderIsNamedToAPlainUser) {
    ASSERT_EQ(::chmod(folder_.path().toStdString().c_str(), 0555), 0);
    ASSERT_EQ(::chmod(path_.c_str(), 0666), 0);
    const std::string path = path_;
    const int answer = in_child([&] {
        become_plain_user();
        const auto opened = ShopFile::open(path);
        if (opened) return 1;
        const Error& error = opened.error();
        return error.code == ErrorCode::cannot_write && error.field == path &&
                       error.value == "no_permission"
                   ? 0
                   : 2;
    });
    ::chmod(folder_.path().toStdString().c_str(), 0755);
    EXPECT_EQ(answer, 0);
    EXPECT_EQ(bytes_of(path_), bytes_);
}

TEST_F(FaultsTest, ASecondWriterIsToldToWaitAndLosesNothing) {
    ShopFile mine = take(ShopFile::open(path_, 20ms));
    Connection other = take(Connection::open_existing(path_, 0ms));
    const auto edits = edits_to_create(sample_build(50));
    {
        Transaction theirs = take(Transaction::begin(other, Transaction::Kind::write));
        const Error error = refusal(apply(mine, edits, "Dee", noon));
        EXPECT_EQ(error.code, ErrorCode::locked_file);
        EXPECT_EQ(error.field, path_);
    }
    take(apply(mine, edits, "Dee", noon));
    EXPECT_EQ(take(load_build(mine, 50)).name, "Blue pickup");
}

TEST_F(FaultsTest, AClockThatWasSetBackChangesNoOrder) {
    ShopFile shop = take(ShopFile::open(path_));
    const RecordRef build{RecordKind::build, 1};
    const std::string earlier = "2019-01-01T00:00:00Z";
    const Act act =
        take(apply(shop, {{build, "name", "Blue pickup", "Red pickup"}}, "Dee", earlier));
    const auto acts = take(history(shop, build));
    EXPECT_EQ(acts.back().number, act.number);
    EXPECT_EQ(acts.back().when_utc, earlier);
    EXPECT_EQ(acts.front().when_utc, noon);
    EXPECT_THAT(take(shop.check()).findings, IsEmpty());
    take(undo(shop, act.number, "Dee", noon));
    EXPECT_EQ(take(load_build(shop, 1)).name, "Blue pickup");
}

TEST_F(FaultsTest, AMissingPhotoIsNamedByEveryRecordThatHasIt) {
    ASSERT_TRUE(QFile::remove(QString::fromStdString(photo_path_)));
    ShopFile shop = take(ShopFile::open(path_));
    const auto findings = take(shop.check()).findings;
    ASSERT_EQ(findings.size(), static_cast<std::size_t>(builds));
    for (std::int64_t id = 1; id <= builds; ++id) {
        EXPECT_THAT(findings, Contains(Finding{FindingCode::photo_missing,
                                               RecordRef{RecordKind::photo, id}, photo_digest_}));
    }
}

// A unit with a space in it could not have been written by an edit.
TEST_F(FaultsTest, AUnitTurnedIntoASpaceIsRefused) {
    std::string bytes = bytes_of(path_);
    const std::string needle = "trains/3I/rod/length8 1/4in";
    const std::size_t at = bytes.find(needle);
    ASSERT_NE(at, std::string::npos);
    bytes[at + needle.size() - 1] = ' ';
    EXPECT_EQ(outcome(bytes), "refused damaged_file");
}

TEST_F(FaultsTest, AnOlderVersionIsBroughtUpAfterABackup) {
    const std::string path = in_folder("old.rodway");
    {
        Connection old = take(Connection::create_new(path));
        auto migrations = own_migrations();
        migrations.resize(1);
        static_cast<void>(take(migrate(old, migrations)));
        take(old.run("INSERT INTO builds (id, name) VALUES (1, 'Old one')"));
    }
    ShopFile shop = take(ShopFile::open(path));
    ASSERT_TRUE(shop.backup().has_value());
    EXPECT_EQ(ask(*shop.backup(), "SELECT name FROM builds"), "Old one");
    EXPECT_EQ(ask(*shop.backup(), "PRAGMA user_version"), "1");
    EXPECT_EQ(take(load_build(shop, 1)).name, "Old one");
}

} // namespace
} // namespace rodway
