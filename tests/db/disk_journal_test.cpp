#include "tests/db/disk_journal.h"

#include <gmock/gmock.h>

#include <optional>
#include <set>

namespace rodway {
namespace {

using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::UnorderedElementsAre;

constexpr unsigned trials = 400;

/// One file, /d/a, of 2048 bytes 'o', and the folder /d.
class DiskJournalTest : public ::testing::Test {
  protected:
    static constexpr int a = 1;

    DiskJournalTest() {
        journal_.start.names = {{"/d", DiskContents::folder}, {"/d/a", a}};
        journal_.start.bytes[a] = std::string(2048, 'o');
    }

    void write(std::int64_t offset, const std::string& bytes, int file = a) {
        journal_.calls.push_back({DiskAct::write, file, {}, {}, offset, bytes});
    }
    void sync(bool fails = false, int file = a) {
        journal_.calls.push_back({DiskAct::sync, file, {}, {}, 0, {}, false, fails});
    }
    void sync_folder(const std::string& path) {
        journal_.calls.push_back({DiskAct::sync_folder, DiskContents::folder, path});
    }
    void create(int file, const std::string& path) {
        journal_.calls.push_back({DiskAct::create, file, path});
    }
    void move(int file, const std::string& from, const std::string& to) {
        journal_.calls.push_back({DiskAct::move, file, from, to});
    }

    /// Contents of the file with this name over all seeds; "none" where there is no such name.
    [[nodiscard]] std::set<std::string> outcomes(const std::string& path,
                                                 std::optional<std::size_t> calls = {}) const {
        std::set<std::string> found;
        for (unsigned seed = 0; seed < trials; ++seed) {
            DiskContents disk =
                journal_.after_power_cut(calls.value_or(journal_.calls.size()), seed);
            const auto name = disk.names.find(path);
            found.insert(name == disk.names.end() ? "none" : disk.bytes[name->second]);
        }
        return found;
    }

    DiskJournal journal_;
};

TEST_F(DiskJournalTest, KeepsWhatWasSynced) {
    write(0, "new");
    sync();
    EXPECT_THAT(outcomes("/d/a"), ElementsAre("new" + std::string(2045, 'o')));
}

TEST_F(DiskJournalTest, MayLoseKeepOrTearWhatWasNot) {
    write(0, std::string(1024, 'n'));
    const std::string rest(1024, 'o');
    const auto found = outcomes("/d/a");
    EXPECT_THAT(found, Contains(std::string(2048, 'o')));
    EXPECT_THAT(found, Contains(std::string(1024, 'n') + rest));
    EXPECT_THAT(found, Contains(std::string(512, 'n') + std::string(512, 'o') + rest));
    EXPECT_THAT(found, Contains(std::string(512, 'o') + std::string(512, 'n') + rest));
    EXPECT_GT(found.size(), 4U); // a sector of neither
    for (const std::string& content : found) EXPECT_EQ(content.substr(1024), rest);
}

TEST_F(DiskJournalTest, LetsALaterWriteOutliveAnEarlierOne) {
    write(0, std::string(512, 'x'));
    write(512, std::string(512, 'y'));
    EXPECT_THAT(outcomes("/d/a"),
                Contains(std::string(512, 'o') + std::string(512, 'y') + std::string(1024, 'o')));
}

TEST_F(DiskJournalTest, MayHaveBegunTheCallAtWhichThePowerGoes) {
    write(0, std::string(512, 'n'));
    sync();
    EXPECT_THAT(outcomes("/d/a", 0), Contains(std::string(512, 'n') + std::string(1536, 'o')));
    EXPECT_THAT(outcomes("/d/a", 1), Contains(std::string(2048, 'o'))); // the sync did not end
    EXPECT_EQ(outcomes("/d/a", 2).size(), 1U);
}

TEST_F(DiskJournalTest, NeverMakesUpForASyncThatFailed) {
    write(0, std::string(512, 'x'));
    sync(true);
    write(512, std::string(512, 'y'));
    sync();
    const std::string rest = std::string(512, 'y') + std::string(1024, 'o');
    const auto found = outcomes("/d/a");
    EXPECT_THAT(found, Contains(std::string(512, 'o') + rest));
    EXPECT_THAT(found, Contains(std::string(512, 'x') + rest));
    for (const std::string& content : found) EXPECT_EQ(content.substr(512), rest);
}

TEST_F(DiskJournalTest, WritesAnewWhatAFailedSyncLeftInDoubt) {
    write(0, std::string(512, 'x'));
    sync(true);
    write(0, std::string(512, 'x'));
    sync();
    EXPECT_EQ(outcomes("/d/a").size(), 1U);
}

TEST_F(DiskJournalTest, ForgetsANameWhoseFolderWasNotSynced) {
    create(2, "/d/b");
    write(0, "content", 2);
    sync(false, 2);
    EXPECT_THAT(outcomes("/d/b"), UnorderedElementsAre("none", "content"));
    sync_folder("/d");
    EXPECT_THAT(outcomes("/d/b"), ElementsAre("content"));
}

TEST_F(DiskJournalTest, MovesANameWholeOrNotAtAll) {
    create(2, "/d/b");
    sync_folder("/d");
    write(0, "new", 2);
    sync(false, 2);
    move(2, "/d/b", "/d/a");
    EXPECT_THAT(outcomes("/d/a"), UnorderedElementsAre(std::string(2048, 'o'), "new"));
    for (unsigned seed = 0; seed < trials; ++seed) {
        const DiskContents disk = journal_.after_power_cut(journal_.calls.size(), seed);
        EXPECT_EQ(disk.names.count("/d/b") == 1, disk.names.at("/d/a") == a) << "seed " << seed;
    }
}

TEST_F(DiskJournalTest, LosesAllThatIsInALostFolder) {
    journal_.calls.push_back({DiskAct::make_folder, DiskContents::folder, "/d/e"});
    create(2, "/d/e/b");
    sync(false, 2);
    sync_folder("/d/e");
    EXPECT_THAT(outcomes("/d/e/b"), UnorderedElementsAre("none", ""));
    sync_folder("/d");
    EXPECT_THAT(outcomes("/d/e/b"), ElementsAre(""));
}

TEST_F(DiskJournalTest, RemovesANameForGoodWhenItsFolderIsSynced) {
    journal_.calls.push_back({DiskAct::remove, a, "/d/a"});
    EXPECT_THAT(outcomes("/d/a"), UnorderedElementsAre("none", std::string(2048, 'o')));
    journal_.calls.back().folder_too = true;
    EXPECT_THAT(outcomes("/d/a"), ElementsAre("none"));
}

} // namespace
} // namespace rodway
