#include "db/history_seal.h"

#include <QCryptographicHash>

#include "db/build_store.h"
#include "db/search.h"
#include "db/stage_store.h"
#include "tests/db/shop_test.h"

namespace rodway {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

/// The chain as `db/history_seal.h` describes it, made from the rows by other means: text pasted
/// together with `printf` and Qt's hash fed piece by piece.
std::string number(std::int64_t value) {
    std::string bytes;
    for (int i = 7; i >= 0; --i) bytes += static_cast<char>((value >> (8 * i)) % 256);
    return bytes;
}
std::string text(const std::string& value) {
    return number(static_cast<std::int64_t>(value.size())) + value;
}
std::string optional_text(const std::optional<std::string>& value) {
    return value ? std::string(1, '\1') + text(*value) : std::string(1, '\0');
}
std::string sha(const std::string& bytes) {
    QCryptographicHash hash(QCryptographicHash::Sha256);
    for (const char c : bytes) hash.addData(QByteArrayView(&c, 1));
    return hash.result().toStdString();
}

std::string head_by_hand(const std::string& path, const std::vector<Act>& acts) {
    std::string link(32, '\0');
    for (const Act& act : acts) {
        const std::string salt =
            QByteArray::fromHex(
                QByteArray::fromStdString(ask(path, "SELECT hex(salt) FROM acts WHERE number = " +
                                                        std::to_string(act.number))))
                .toStdString();
        std::string bytes = link + number(act.number) + text(act.who) + text(act.when_utc) +
                            number(act.undoes.value_or(0));
        int ordinal = 0;
        for (const Edit& edit : act.edits) {
            const std::string own = sha(salt + number(ordinal++)).substr(0, 16);
            bytes += text(edit.record.kind == RecordKind::build ? "build" : "stage");
            bytes += number(edit.record.id) + text(edit.field);
            bytes += sha(own + optional_text(edit.before) + optional_text(edit.after));
        }
        link = sha(bytes);
    }
    return QByteArray::fromStdString(link).toHex().toStdString();
}

class HistorySealTest : public ShopTest {
  protected:
    void SetUp() override {
        take(apply(shop_, edits_to_create(sample_build(1)), "Dee", noon));
        take(apply(shop_, edits_to_create(sample_build(2)), "Dee", noon));
        take(apply(shop_, edits_to_create(sample_stage(1, 1)), "Kim", "2026-03-02T08:00:00Z"));
        take(apply(shop_, {Edit{{RecordKind::stage, 1}, "title", "Degree the cam", "Time the cam"}},
                   "Kim", "2026-03-02T09:00:00Z"));
        take(undo(shop_, 4, "Dee", "2026-03-02T10:00:00Z"));
    }

    /// As somebody would who knows SQLite but not Rodway.
    void tamper_with_history(const std::string& sql) {
        for (const char* trigger : {"acts_stay", "acts_remain", "edits_stay", "edits_remain",
                                    "history_links_stay", "history_links_remain"}) {
            tamper(shop_.path(), std::string("DROP TRIGGER ") + trigger);
        }
        tamper(shop_.path(), sql);
    }

    std::vector<Finding> findings() { return take(shop_.check()).findings; }

    ShopFile shop_ = new_shop();
    const RecordRef first_{RecordKind::build, 1};
};

TEST_F(HistorySealTest, ChainsTheActsOfOneBuildAsDescribed) {
    const auto acts = take(history_of_build(shop_, 1));
    ASSERT_EQ(acts.size(), 4U); // the act on the other build isn't among them
    EXPECT_EQ(take(history_head(shop_, 1)), head_by_hand(shop_.path(), acts));
    EXPECT_NE(take(history_head(shop_, 1)), take(history_head(shop_, 2)));
    EXPECT_EQ(take(history_head(shop_, 3)), "");
    EXPECT_THAT(findings(), IsEmpty());
}

TEST_F(HistorySealTest, KnowsAHeadThatWasPrintedEarlier) {
    const std::string printed = take(history_head(shop_, 1));
    take(apply(shop_, {Edit{first_, "name", "Blue pickup", "x"}}, "Dee", noon));
    EXPECT_EQ(take(act_of_head(shop_, 1, printed)), 5);
    EXPECT_FALSE(take(act_of_head(shop_, 2, printed)).has_value());
    EXPECT_FALSE(take(act_of_head(shop_, 1, std::string(64, '0'))).has_value());
    EXPECT_NE(take(history_head(shop_, 1)), printed);
}

TEST_F(HistorySealTest, ShowsAnActThatWasChangedAndThatOneOnly) {
    tamper_with_history("UPDATE edits SET after = 'Time the cams' WHERE act = 4");
    const auto found = findings();
    EXPECT_THAT(found, ::testing::Contains(Finding{FindingCode::history_altered, first_, "4"}));
    for (const Finding& finding : found) {
        EXPECT_TRUE(finding.code != FindingCode::history_altered || finding.detail == "4");
    }
}

TEST_F(HistorySealTest, ShowsAChangeThatTheRecordsWereMadeToAgreeWith) {
    // Text, record and index agree, so that only the seal can tell.
    tamper_with_history("UPDATE edits SET after = 'Red pickup' WHERE act = 1 AND field = 'name'");
    tamper(shop_.path(), "UPDATE builds SET name = 'Red pickup' WHERE id = 1");
    take(rebuild_search(shop_));
    EXPECT_THAT(findings(), ElementsAre(Finding{FindingCode::history_altered, first_, "1"}));
}

TEST_F(HistorySealTest, ShowsWhoAndWhenAndTheOrderOfActs) {
    for (const char* sql : {"UPDATE acts SET who = 'Lee' WHERE number = 3",
                            "UPDATE acts SET when_utc = '2026-03-02T08:00:01Z' WHERE number = 3",
                            "UPDATE acts SET undoes = NULL WHERE number = 5",
                            "UPDATE edits SET salt = randomblob(16) WHERE act = 3",
                            "UPDATE history_links SET digest = randomblob(32) WHERE act = 3"}) {
        const std::string copy = in_folder("copy.rodway");
        tamper(shop_.path(), "VACUUM INTO '" + copy + "'");
        for (const char* trigger : {"acts_stay", "edits_stay", "history_links_stay"}) {
            tamper(copy, std::string("DROP TRIGGER ") + trigger);
        }
        tamper(copy, sql);
        {
            ShopFile opened = take(ShopFile::open(copy));
            EXPECT_THAT(
                take(opened.check()).findings,
                ::testing::Contains(::testing::Field(&Finding::code, FindingCode::history_altered)))
                << sql;
        }
        for (const char* suffix : {"", "-wal", "-shm"}) std::remove((copy + suffix).c_str());
    }
}

TEST_F(HistorySealTest, ShowsThatTheNewestActsWereTakenOff) {
    tamper_with_history("DELETE FROM history_links WHERE act > 3");
    tamper(shop_.path(), "DELETE FROM edits WHERE act > 3");
    tamper(shop_.path(), "DELETE FROM acts WHERE number > 3");
    EXPECT_THAT(findings(),
                ElementsAre(Finding{FindingCode::history_shortened, std::nullopt, "2"}));
}

TEST_F(HistorySealTest, ShowsAnActThatWasTakenOutOfTheMiddle) {
    tamper_with_history("DELETE FROM edits WHERE act = 2");
    EXPECT_THAT(findings(), ::testing::Contains(Finding{FindingCode::history_altered,
                                                        RecordRef{RecordKind::build, 2}, "2"}));
}

TEST_F(HistorySealTest, HasADigestThatDoesNotConfirmAGuess) {
    // The same text twice: without the salts the digests tell nothing, not even that.
    const QByteArray a = digest_of_edit(new_salt(), std::nullopt, "Ada");
    const QByteArray b = digest_of_edit(new_salt(), std::nullopt, "Ada");
    EXPECT_NE(a, b);
    const QByteArray salt = new_salt();
    EXPECT_EQ(salt.size(), salt_bytes);
    EXPECT_NE(salt_of_edit(salt, 0), salt_of_edit(salt, 1));
    EXPECT_NE(digest_of_edit(salt, "a", std::nullopt), digest_of_edit(salt, std::nullopt, "a"));
    EXPECT_NE(digest_of_edit(salt, "ab", "c"), digest_of_edit(salt, "a", "bc"));
    EXPECT_NE(digest_of_edit(salt, "", "c"), digest_of_edit(salt, std::nullopt, "c"));
}

} // namespace
} // namespace rodway
