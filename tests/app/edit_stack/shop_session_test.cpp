#include "app/edit_stack/shop_session.h"

#include <gtest/gtest.h>
#include <QFile>
#include <QSignalSpy>
#include <QSqlDatabase>
#include <QSqlQuery>
#include <QTemporaryDir>

#include "app/words/error_text.h"
#include "app/words/waiting_words.h"
#include "db/build_store.h"
#include "db/record_fields.h"

namespace rodway {
namespace {

const RecordRef the_build{RecordKind::build, 1};

Build build(std::int64_t id, const char* name) {
    Build made;
    made.id = id;
    made.name = name;
    return made;
}

/// Another program that holds the file as long as it lives.
class Holder {
  public:
    explicit Holder(const QString& path) {
        database_ = QSqlDatabase::addDatabase("QSQLITE", "holder");
        database_.setDatabaseName(path);
        EXPECT_TRUE(database_.open());
        EXPECT_TRUE(QSqlQuery(database_).exec("BEGIN IMMEDIATE"));
    }
    Holder(const Holder&) = delete;
    Holder& operator=(const Holder&) = delete;
    ~Holder() {
        QSqlQuery(database_).exec("ROLLBACK");
        database_ = QSqlDatabase();
        QSqlDatabase::removeDatabase("holder");
    }

  private:
    QSqlDatabase database_;
};

class ShopSessionTest : public ::testing::Test {
  protected:
    void SetUp() override {
        ASSERT_TRUE(ShopFile::create(path_.toStdString()).ok());
        session_ = open("Dee");
        session_->keep_what_waits();
        ASSERT_TRUE(session_->act(edits_to_create(build(1, "Blue pickup")), "build").ok());
    }
    std::unique_ptr<ShopSession> open(const QString& who) const {
        auto shop = ShopFile::open(path_.toStdString());
        EXPECT_TRUE(shop.ok());
        return std::make_unique<ShopSession>(std::move(shop).value(), who);
    }
    static std::vector<Edit> rename(const char* before, const char* after) {
        return {{the_build, "name", before, after}};
    }
    std::vector<std::string> names() const {
        const auto other = open("Kim");
        const auto builds = load_builds(other->shop());
        EXPECT_TRUE(builds.ok());
        std::vector<std::string> names;
        for (const Build& one : *builds) names.push_back(one.name);
        return names;
    }

    QTemporaryDir folder_;
    QString path_ = folder_.filePath("shop.rodway");
    std::unique_ptr<ShopSession> session_;
};

using Names = std::vector<std::string>;

TEST_F(ShopSessionTest, WhatIsTypedWhileTheFileIsLockedWaitsInItsOrderAndIsWritten) {
    QSignalSpy waiting(session_.get(), &ShopSession::waiting_changed);
    {
        const Holder holder(path_);
        const auto first = session_->act(rename("Blue pickup", "Green pickup"), "name");
        ASSERT_FALSE(first.ok());
        EXPECT_EQ(first.error().code, ErrorCode::locked_file);
        EXPECT_TRUE(is_waiting(first.error()));
        // The second builds on the first, and a new record comes behind both.
        EXPECT_FALSE(session_->act(rename("Green pickup", "Red pickup"), "name").ok());
        const auto made = session_->create(
            RecordKind::build,
            [](std::int64_t id) { return edits_to_create(build(id, "Grey coupe")); }, "build");
        ASSERT_FALSE(made.ok());
        EXPECT_TRUE(is_waiting(made.error()));
        ASSERT_EQ(session_->waiting().size(), 3U);
        EXPECT_EQ(session_->waiting()[1].edits[0].after, "Red pickup");
        EXPECT_GE(waiting.count(), 3);
        session_->try_waiting();
        EXPECT_EQ(session_->waiting().size(), 3U);
        EXPECT_FALSE(session_->undo().ok()); // would take back what lies before them
    }
    // Another window takes the id that the new build would have got.
    ASSERT_TRUE(open("Kim")->act(edits_to_create(build(2, "White van")), "build").ok());
    // No one asks: it is tried again by itself.
    EXPECT_TRUE(waiting.wait(10000));
    EXPECT_TRUE(session_->waiting().empty());
    EXPECT_EQ(names(), (Names{"Red pickup", "White van", "Grey coupe"}));
    const auto acts = history(session_->shop(), the_build);
    ASSERT_TRUE(acts.ok());
    ASSERT_EQ(acts->size(), 3U);
    EXPECT_EQ((*acts)[1].edits[0].after, "Green pickup");
    EXPECT_EQ((*acts)[1].who, "Dee");
    // And each can be undone, the last one first.
    ASSERT_TRUE(session_->undo().ok());
    EXPECT_EQ(names(), (Names{"Red pickup", "White van"}));
}

TEST_F(ShopSessionTest, AFileThatWasMovedAwayTakesNothingUntilItIsBack) {
    const QString away = folder_.filePath("away.rodway");
    ASSERT_TRUE(QFile::rename(path_, away));
    const auto done = session_->act(rename("Blue pickup", "Green pickup"), "name");
    ASSERT_FALSE(done.ok());
    EXPECT_EQ(done.error().code, ErrorCode::cannot_read);
    EXPECT_EQ(done.error().value, "gone");
    EXPECT_TRUE(is_waiting(done.error()));
    ASSERT_TRUE(QFile::rename(away, path_));
    EXPECT_EQ(names(), (Names{"Blue pickup"})); // not written where nobody would find it
    session_->try_waiting();
    EXPECT_TRUE(session_->waiting().empty());
    EXPECT_EQ(names(), (Names{"Green pickup"}));
}

TEST_F(ShopSessionTest, AnotherShopInItsPlaceIsNotWrittenToButACopyOfTheSameIs) {
    const QString away = folder_.filePath("away.rodway");
    const QString copy = folder_.filePath("copy.rodway");
    ASSERT_TRUE(session_->shop().set_patience(std::chrono::milliseconds(0)).ok());
    {
        // Whole, with what stands in the log.
        const auto other = open("Kim");
        QSqlDatabase database = QSqlDatabase::addDatabase("QSQLITE", "copier");
        database.setDatabaseName(path_);
        ASSERT_TRUE(database.open());
        ASSERT_TRUE(QSqlQuery(database).exec("VACUUM INTO '" + copy + "'"));
    }
    QSqlDatabase::removeDatabase("copier");
    for (const char* suffix : {"", "-wal", "-shm"}) {
        ASSERT_TRUE(QFile::rename(path_ + suffix, away + suffix));
    }
    ASSERT_TRUE(ShopFile::create(path_.toStdString()).ok());
    const auto done = session_->act(rename("Blue pickup", "Green pickup"), "name");
    ASSERT_FALSE(done.ok());
    EXPECT_EQ(done.error().value, "replaced");
    session_->try_waiting();
    session_->try_waiting();
    EXPECT_EQ(session_->waiting().size(), 1U);
    EXPECT_EQ(names(), Names());
    for (const char* suffix : {"", "-wal", "-shm"}) QFile::remove(path_ + suffix);
    ASSERT_TRUE(QFile::rename(copy, path_));
    session_->try_waiting(); // finds the same shop
    session_->try_waiting();
    EXPECT_TRUE(session_->waiting().empty());
    EXPECT_EQ(names(), (Names{"Green pickup"}));
}

TEST_F(ShopSessionTest, AnEditOnAnOutdatedValueIsRefusedWithBothValues) {
    ASSERT_TRUE(open("Kim")->act(rename("Blue pickup", "Red pickup"), "name").ok());
    const auto done = session_->act(rename("Blue pickup", "Green pickup"), "name");
    ASSERT_FALSE(done.ok());
    EXPECT_EQ(done.error().code, ErrorCode::changed_since);
    EXPECT_FALSE(is_waiting(done.error()));
    const QString text = words::error_text(done.error());
    EXPECT_TRUE(text.contains("Red pickup")) << text.toStdString();
    EXPECT_TRUE(text.contains("Blue pickup")) << text.toStdString();
    EXPECT_TRUE(session_->waiting().empty());
    EXPECT_EQ(names(), (Names{"Red pickup"}));
}

TEST_F(ShopSessionTest, AWaitingActThatIsOutdatedByThenAsksAndTheNextGoesOn) {
    for (const bool overwrites : {true, false}) {
        const std::string stored = names().front();
        {
            const Holder holder(path_);
            ASSERT_FALSE(session_->act(rename(stored.c_str(), "Green pickup"), "name").ok());
            ASSERT_FALSE(
                session_->act({{the_build, "note", std::nullopt, "in the queue"}}, "note").ok());
        }
        ASSERT_TRUE(open("Kim")->act(rename(stored.c_str(), "Red pickup"), "name").ok());
        session_->try_waiting();
        ASSERT_EQ(session_->waiting().size(), 1U);
        const WaitingAct act = session_->waiting().front();
        EXPECT_TRUE(act.refused);
        const auto both = session_->against_stored(act.key);
        ASSERT_TRUE(both.ok());
        ASSERT_EQ(both->size(), 1U);
        EXPECT_EQ(both->front().before, "Red pickup");
        EXPECT_EQ(both->front().after, "Green pickup");
        const QString text = words::waiting_against_stored(*both);
        EXPECT_TRUE(text.contains("Red pickup") && text.contains("Green pickup"));
        if (overwrites) {
            session_->overwrite(act.key);
        } else {
            session_->drop(act.key);
        }
        EXPECT_TRUE(session_->waiting().empty());
        EXPECT_EQ(names().front(), overwrites ? "Green pickup" : "Red pickup");
        ASSERT_TRUE(
            session_->act({{the_build, "note", "in the queue", std::nullopt}}, "note").ok());
    }
}

TEST_F(ShopSessionTest, WhatIsGivenUpIsHandedOver) {
    const Holder holder(path_);
    ASSERT_FALSE(session_->act(rename("Blue pickup", "Green pickup"), "name of build 1").ok());
    const auto all = session_->give_up();
    ASSERT_EQ(all.size(), 1U);
    EXPECT_TRUE(session_->waiting().empty());
    const QString text = words::waiting_as_text(all);
    for (const char* part : {"name of build 1", "Blue pickup", "Green pickup", "Dee"}) {
        EXPECT_TRUE(text.contains(part)) << part;
    }
}

TEST_F(ShopSessionTest, WithoutAWindowNothingWaits) {
    const auto plain = open("Kim");
    ASSERT_TRUE(plain->shop().set_patience(std::chrono::milliseconds(0)).ok());
    const Holder holder(path_);
    const auto done = plain->act(rename("Blue pickup", "Green pickup"), "name");
    ASSERT_FALSE(done.ok());
    EXPECT_FALSE(is_waiting(done.error()));
    EXPECT_TRUE(plain->waiting().empty());
}

} // namespace
} // namespace rodway
