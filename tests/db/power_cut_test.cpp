#include <QDir>
#include <QFileInfo>
#include <QTemporaryDir>
#include <cstdio>
#include <memory>
#include <optional>
#include <random>

#include "db/attachments.h"
#include "db/backups.h"
#include "db/build_store.h"
#include "db/connection.h"
#include "db/durable_file.h"
#include "db/migrations.h"
#include "db/photo_store.h"
#include "db/reading_store.h"
#include "db/set_up_store.h"
#include "db/stage_store.h"
#include "tests/db/every_call.h"
#include "tests/db/failing_disk.h"
#include "tests/db/rounds.h"
#include "tests/db/shop_test.h"

namespace rodway {
namespace {

using ::testing::IsEmpty;
using ::testing::Not;

const std::string shop_name = "/shop.rodway";

/// What a program does with a shop, step by step.
class Bench {
  public:
    Bench(std::string folder, QStringList pragmas)
        : folder_(std::move(folder)), pragmas_(std::move(pragmas)) {}

    Result<Done> open() {
        auto opened = ShopFile::open(folder_ + shop_name);
        if (!opened) return opened.error();
        shop_ = std::move(opened).value();
        for (const QString& pragma : pragmas_) {
            const auto set = shop_->connection().run("PRAGMA " + pragma);
            if (!set) {
                shop_.reset();
                return set.error();
            }
        }
        return Done{};
    }
    Result<Done> close() {
        shop_.reset();
        return Done{};
    }
    Result<Done> act(const std::vector<Edit>& edits) {
        const auto done = apply(*shop_, edits, "Dee", noon);
        if (!done) return done.error();
        return Done{};
    }
    Result<Done> take_back(std::int64_t number) {
        const auto done = undo(*shop_, number, "Dee", noon);
        if (!done) return done.error();
        return Done{};
    }
    Result<Done> import(std::int64_t id, std::int64_t build, const std::string& source) {
        const auto kept = keep(*shop_, folder_ + source);
        if (!kept) return kept.error();
        Photo photo = sample_photo(id, build);
        photo.digest = kept->digest;
        return act(edits_to_create(photo));
    }
    Result<Done> remove(const RecordRef& record) {
        const auto edits = edits_to_remove(*shop_, record);
        if (!edits) return edits.error();
        return act(*edits);
    }

  private:
    std::string folder_;
    QStringList pragmas_;
    std::optional<ShopFile> shop_;
};

/// A new shop file. Its pages are small, for every disk that is judged is written out whole; the
/// long run has them as they are.
ShopFile make_shop(const std::string& folder) {
    const std::string path = folder + shop_name;
    static_cast<void>(take(ShopFile::create(path)));
    if (!long_run()) {
        Connection connection = take(Connection::open_existing(path, {}));
        for (const char* sql :
             {"PRAGMA journal_mode = DELETE", "PRAGMA page_size = 1024", "VACUUM"}) {
            take(connection.run(sql));
        }
    }
    return take(ShopFile::open(path));
}

/// A photo that `keep` copies in two pieces.
std::string scanned_picture() {
    std::string scan;
    scan.reserve(270'000);
    for (int i = 0; i < 270'000; ++i) scan += static_cast<char>(i * 7 + i / 256);
    return scan;
}

void prepare_shop(const std::string& folder) {
    make_shop(folder);
    write_bytes(folder + "/rod tip.jpg", "a mark at the tip");
    write_bytes(folder + "/guide plate.png", std::string(3000, 'g'));
}

std::vector<Edit> edits_of_build(std::int64_t id) {
    auto edits = joined(edits_to_create(sample_build(id)), edits_to_create(sample_set_up(id, id)));
    edits = joined(std::move(edits), edits_to_create(sample_stage(id, id)));
    return joined(std::move(edits), edits_to_create(sample_step(id, id)));
}

/// One build's day: eleven acts, with the shop closed over lunch. `id` numbers the build and all
/// its records, `earlier` the acts before.
void add_day(std::vector<DiskStep>& steps, const std::shared_ptr<Bench>& bench, std::int64_t id,
             std::int64_t earlier) {
    const auto add = [&steps](DiskStep step) { steps.push_back(std::move(step)); };
    add([=] { return bench->open(); });
    add([=] { return bench->act(edits_of_build(id)); });
    add([=] { return bench->act(edits_to_tick(sample_step(id, id), "Dee", noon)); });
    add([=] { return bench->act(edits_to_create(sample_reading(2 * id, id))); });
    add([=] { return bench->import(2 * id, id, "/rod tip.jpg"); });
    add([=] {
        return bench->act({edit_to_change(sample_set_up(id, id), "trains/3I/rod/length",
                                          TypedValue{"8.275", "in"}),
                           edit_to_change(sample_set_up(id, id), "layout/cylinders", {})});
    });
    add([=] { return bench->take_back(earlier + 2); }); // the tick
    add([=] { return bench->remove({RecordKind::photo, 2 * id}); });
    add([=] { return bench->close(); });
    add([=] { return bench->open(); });
    add([=] { return bench->import(2 * id + 1, id, "/guide plate.png"); });
    add([=] { return bench->take_back(earlier + 7); }); // the photo is there again
    add([=] { return bench->act(edits_to_create(sample_reading(2 * id + 1, id))); });
    add([=] { return bench->remove({RecordKind::reading, 2 * id}); });
    add([=] { return bench->close(); });
}
constexpr std::int64_t acts_of_a_day = 10;

/// A small log, so that the days see it brought into the file again and again.
const QString small_log = QStringLiteral("wal_autocheckpoint = 25");

/// What stands in the shop file after each number of steps, as a disk that never fails has it.
std::vector<std::string> dumps_after(const DiskScenario& scenario) {
    const IdleSyncs idle;
    const QTemporaryDir place;
    const std::string folder = place.path().toStdString();
    scenario.prepare(folder);
    std::vector<std::string> dumps{dump_with_history(folder + shop_name)};
    for (const DiskStep& step : scenario.steps(folder)) {
        take(step());
        dumps.push_back(dump_with_history(folder + shop_name));
    }
    return dumps;
}

/// What `ShopFile::check` says of the shop file, beside whether it opens.
std::string unsound(const std::string& path) {
    auto opened = ShopFile::open(path);
    if (!opened) return "doesn't open: " + describe(opened.error());
    ShopFile shop = std::move(opened).value();
    const auto report = shop.check();
    if (!report) return "can't be checked: " + describe(report.error());
    if (report->findings.empty()) return {};
    const Finding& first = report->findings.front();
    return "finding " + std::to_string(static_cast<int>(first.code)) + ' ' + first.detail;
}

std::string wrong_with_acts(const std::vector<std::string>& dumps, const std::string& path,
                            std::size_t answered) {
    if (std::string found = unsound(path); !found.empty()) return found;
    const std::string found = dump_with_history(path);
    const std::size_t may_be_done = std::min(answered + 1, dumps.size() - 1);
    if (found == dumps[answered] || found == dumps[may_be_done]) return {};
    for (std::size_t i = dumps.size(); i-- > 0;) {
        if (found == dumps[i]) return "stands as after step " + std::to_string(i);
    }
    return "stands as after no step";
}

/// Steps on a shop file, judged by its records and history after each.
DiskScenario scenario_of(
    const QStringList& pragmas, const std::function<void(const std::string&)>& prepare,
    const std::function<void(std::vector<DiskStep>&, const std::shared_ptr<Bench>&)>& add) {
    DiskScenario scenario;
    scenario.prepare = prepare;
    scenario.steps = [=](const std::string& folder) {
        std::vector<DiskStep> steps;
        add(steps, std::make_shared<Bench>(folder, pragmas));
        return steps;
    };
    scenario.wrong = [dumps = dumps_after(scenario)](const std::string& folder,
                                                     std::size_t answered) {
        return wrong_with_acts(dumps, folder + shop_name, answered);
    };
    return scenario;
}

DiskScenario days_of_work(const QStringList& pragmas) {
    return scenario_of(pragmas, prepare_shop, [](auto& steps, const auto& bench) {
        const std::int64_t days = long_run() ? 4 : 1;
        for (std::int64_t day = 0; day < days; ++day) {
            add_day(steps, bench, day + 1, day * acts_of_a_day);
        }
    });
}

DiskScenario morning_with_journal(const QString& synchronous) {
    const QStringList pragmas{"journal_mode = delete", synchronous};
    return scenario_of(pragmas, prepare_shop, [](auto& steps, const auto& bench) {
        steps.push_back([=] { return bench->open(); });
        steps.push_back([=] { return bench->act(edits_of_build(1)); });
        steps.push_back([=] { return bench->act(edits_to_tick(sample_step(1, 1), "Dee", noon)); });
        steps.push_back([=] { return bench->take_back(2); });
    });
}

DiskScenario photo_imports() {
    const auto prepare = [](const std::string& folder) {
        prepare_shop(folder);
        ShopFile shop = take(ShopFile::open(folder + shop_name));
        take(apply(shop, edits_of_build(1), "Dee", noon));
        write_bytes(folder + "/scan.png", scanned_picture());
    };
    return scenario_of({}, prepare, [](auto& steps, const auto& bench) {
        steps.push_back([=] { return bench->open(); });
        steps.push_back([=] { return bench->import(1, 1, "/rod tip.jpg"); });
        steps.push_back([=] { return bench->import(2, 1, "/scan.png"); });
        steps.push_back([=] { return bench->import(3, 1, "/rod tip.jpg"); });
    });
}

/// A migration that this program doesn't have, behind its own.
std::vector<Migration> with_one_more() {
    std::vector<Migration> migrations = own_migrations();
    migrations.push_back(Migration{static_cast<int>(migrations.size()) + 1,
                                   "ALTER TABLE builds ADD COLUMN colour TEXT;"
                                   "UPDATE builds SET colour = 'blue';"
                                   "CREATE TABLE colours (name TEXT) STRICT;"
                                   "CREATE INDEX builds_by_colour ON builds (colour)"});
    return migrations;
}

std::string wrong_after_migration(const std::vector<std::string>& dumps, const std::string& folder,
                                  bool answered) {
    const std::string path = folder + shop_name;
    const std::string pages = ask(path, "PRAGMA integrity_check");
    if (pages != "ok") return pages;
    const bool migrated =
        ask(path, "PRAGMA user_version") == std::to_string(with_one_more().back().version);
    if (answered && !migrated) return "stands at the old version";
    if (dump_with_history(path) != dumps[migrated ? 1 : 0]) return "half migrated";
    bool backed_up = false;
    for (const QString& name : QDir(QString::fromStdString(folder)).entryList(QDir::Files)) {
        // Judging the first one may have left its log's files beside it.
        if (!name.contains("backup") || !name.endsWith(".rodway")) continue;
        backed_up = true;
        const std::string backup = folder + '/' + name.toStdString();
        if (std::string found = unsound(backup); !found.empty()) return "backup " + found;
        if (dump_with_history(backup) != dumps[0]) return "backup differs";
    }
    return migrated && !backed_up ? "no backup" : "";
}

DiskScenario migration() {
    DiskScenario scenario;
    scenario.prepare = [](const std::string& folder) {
        ShopFile shop = make_shop(folder);
        take(apply(shop, edits_of_build(1), "Dee", noon));
        take(apply(shop, edits_of_build(2), "Dee", noon));
    };
    scenario.steps = [](const std::string& folder) {
        return std::vector<DiskStep>{[=]() -> Result<Done> {
            auto opened = Connection::open_existing(folder + shop_name, {});
            if (!opened) return opened.error();
            Connection connection = std::move(opened).value();
            const auto migrated = migrate(connection, with_one_more());
            if (!migrated) return migrated.error();
            return Done{};
        }};
    };
    scenario.wrong = [dumps = dumps_after(scenario)](const std::string& folder,
                                                     std::size_t answered) {
        return wrong_after_migration(dumps, folder, answered == 1);
    };
    return scenario;
}

/// A new shop file; one that stands there although its making failed is opened.
DiskScenario new_shop_file() {
    DiskScenario scenario;
    scenario.prepare = [](const std::string&) {};
    scenario.steps = [](const std::string& folder) {
        const std::string path = folder + shop_name;
        return std::vector<DiskStep>{[=]() -> Result<Done> {
            const bool there = QFileInfo::exists(QString::fromStdString(path));
            const auto shop = there ? ShopFile::open(path) : ShopFile::create(path);
            if (!shop) return shop.error();
            return Done{};
        }};
    };
    scenario.wrong = [](const std::string& folder, std::size_t answered) -> std::string {
        const bool there = QFileInfo::exists(QString::fromStdString(folder + shop_name));
        if (!there) return answered == 0 ? "" : "gone";
        return unsound(folder + shop_name);
    };
    return scenario;
}

DiskScenario replaced_file() {
    DiskScenario scenario;
    const std::string before(2000, 'a');
    const std::string after(3000, 'b');
    scenario.prepare = [=](const std::string& folder) { write_bytes(folder + "/card", before); };
    scenario.steps = [=](const std::string& folder) {
        return std::vector<DiskStep>{[=] { return write_durably(folder + "/card", after); }};
    };
    scenario.wrong = [=](const std::string& folder, std::size_t answered) -> std::string {
        const std::string found = bytes_of(folder + "/card");
        if (found == after || (answered == 0 && found == before)) return "";
        return found == before ? "still the old one" : "neither old nor new";
    };
    return scenario;
}

/// A dated backup to a place of its own.
DiskScenario backup() {
    DiskScenario scenario;
    scenario.prepare = [](const std::string& folder) {
        ShopFile shop = make_shop(folder);
        take(apply(shop, edits_of_build(1), "Dee", noon));
        QDir(QString::fromStdString(folder)).mkdir("second");
    };
    scenario.steps = [](const std::string& folder) {
        return std::vector<DiskStep>{[=]() -> Result<Done> {
            auto opened = ShopFile::open(folder + shop_name);
            if (!opened) return opened.error();
            ShopFile shop = std::move(opened).value();
            const auto made = back_up(shop, folder + "/second", noon);
            if (!made) return made.error();
            return Done{};
        }};
    };
    scenario.wrong = [dumps = dumps_after(scenario)](const std::string& folder,
                                                     std::size_t answered) -> std::string {
        if (dump_with_history(folder + shop_name) != dumps[0]) return "the shop differs";
        const QDir kept(QString::fromStdString(folder) + "/second/shop.backups");
        std::size_t backups = 0;
        for (const QString& name : kept.entryList({"*.rodway"}, QDir::Files)) {
            const std::string path = kept.filePath(name).toStdString();
            if (std::string found = unsound(path); !found.empty()) return "backup " + found;
            if (dump_with_history(path) != dumps[0]) return "backup differs";
            ++backups;
        }
        return backups < answered ? "no backup" : "";
    };
    return scenario;
}

class PowerCutTest : public ::testing::Test {
  protected:
    /// A multiple of four, so that the first trial of each call loses all that wasn't synced.
    PowerCutTest()
        : trials_{std::random_device()() / 8 * 4,
                  long_run() ? 16U : static_cast<unsigned>(rounds(4)), true, long_run()} {}

    /// Work of many calls does the same again and again, in the usual run every third of which
    /// fails: over a few runs all do.
    DiskVerdict judge(const DiskScenario& scenario) {
        if (!long_run()) trials_.stride = 3;
        return judge_with(scenario);
    }
    DiskVerdict judge_with(const DiskScenario& scenario) const {
        DiskVerdict verdict = for_every_call(scenario, trials_);
        std::printf("seed %u: %zu calls, %zu runs with a failure, %zu disks judged\n", trials_.seed,
                    verdict.calls, verdict.runs, verdict.images);
        return verdict;
    }
    /// Only power cuts, for what must be seen to lose something.
    DiskVerdict judge_cuts(const DiskScenario& scenario) {
        trials_.with_errors = false;
        return judge_with(scenario);
    }

    DiskTrials trials_;
};

TEST_F(PowerCutTest, ADaysAnsweredActsOutliveEveryFailure) {
    const DiskVerdict verdict = judge(days_of_work({small_log}));
    EXPECT_THAT(verdict.losses, IsEmpty());
    EXPECT_GT(verdict.calls, 100U);
}

TEST_F(PowerCutTest, ADayWithoutSyncsIsSeenToLoseActs) {
    EXPECT_THAT(judge_cuts(days_of_work({small_log, "synchronous = OFF"})).losses, Not(IsEmpty()));
}

// On a network disk there is no log but a journal, see `db/shop_file.cpp`.
TEST_F(PowerCutTest, AMorningWithAJournalOutlivesEveryFailure) {
    const DiskVerdict verdict = judge(morning_with_journal("synchronous = EXTRA"));
    EXPECT_THAT(verdict.losses, IsEmpty());
}

// Its removal is what commits; a journal that comes back takes the last act with it.
TEST_F(PowerCutTest, AJournalWhoseRemovalIsNotSyncedIsSeenToLoseActs) {
    EXPECT_THAT(judge_cuts(morning_with_journal("synchronous = FULL")).losses, Not(IsEmpty()));
}

TEST_F(PowerCutTest, ImportedPhotosOutliveEveryFailure) {
    const DiskVerdict verdict = judge(photo_imports());
    EXPECT_THAT(verdict.losses, IsEmpty());
}

TEST_F(PowerCutTest, PhotosWhoseContentIsNotSyncedAreSeenToBeLost) {
    DiskScenario scenario = photo_imports();
    scenario.neglect = Neglect::file_syncs;
    EXPECT_THAT(judge_cuts(scenario).losses, Not(IsEmpty()));
}

TEST_F(PowerCutTest, PhotosWhoseNamesAreNotSyncedAreSeenToBeLost) {
    DiskScenario scenario = photo_imports();
    scenario.neglect = Neglect::folder_syncs;
    EXPECT_THAT(judge_cuts(scenario).losses, Not(IsEmpty()));
}

TEST_F(PowerCutTest, AMigrationIsDoneWholeBehindAWholeBackupOrNotAtAll) {
    const DiskVerdict verdict = judge(migration());
    EXPECT_THAT(verdict.losses, IsEmpty());
}

TEST_F(PowerCutTest, ABackupIsThereWholeOrNotAtAll) {
    const DiskVerdict verdict = judge(backup());
    EXPECT_THAT(verdict.losses, IsEmpty());
}

TEST_F(PowerCutTest, ANewShopFileAppearsWholeOrNotAtAll) {
    const DiskVerdict verdict = judge(new_shop_file());
    EXPECT_THAT(verdict.losses, IsEmpty());
}

TEST_F(PowerCutTest, AReplacedFileIsTheOldOneOrTheNewOne) {
    const DiskVerdict verdict = judge_with(replaced_file());
    EXPECT_THAT(verdict.losses, IsEmpty());
    EXPECT_GE(verdict.calls, 5U); // create, write, sync, move, sync of the folder
}

} // namespace
} // namespace rodway
