#include "tests/db/killed_writer.h"

#include <QCoreApplication>
#include <QProcess>
#include <cstdio>
#include <random>
#include <sstream>

#include "db/build_store.h"
#include "db/stage_store.h"
#include "tests/db/shop_test.h"

namespace rodway {
namespace {

std::string build_name(std::int64_t id) {
    return "build number " + std::to_string(id);
}

std::vector<Edit> edits_of_one_act(std::int64_t id) {
    Build build = sample_build(id);
    build.name = build_name(id);
    auto edits = joined(edits_to_create(build), edits_to_create(sample_stage(id, id)));
    for (int i = 0; i < 20; ++i) {
        edits = joined(std::move(edits), edits_to_create(sample_step(id * 100 + i, id)));
    }
    return edits;
}

} // namespace

int write_until_killed(const std::string& path) {
    auto opened = ShopFile::open(path);
    if (!opened) return 1;
    ShopFile shop = std::move(opened).value();
    for (;;) {
        const auto id = new_id(shop, RecordKind::build);
        if (!id) return 2;
        const auto act = apply(shop, edits_of_one_act(*id), "Dee", noon);
        if (!act) return 3;
        std::printf("%lld %lld\n", static_cast<long long>(act->number),
                    static_cast<long long>(*id));
        std::fflush(stdout);
    }
}

using KilledWriter = ShopTest;

TEST_F(KilledWriter, LosesNoActThatWasAnsweredAndLeavesNoHalfAct) {
    static_cast<void>(new_shop());
    const std::string path = in_folder("shop.rodway");
    const unsigned seed = std::random_device()();
    SCOPED_TRACE("seed " + std::to_string(seed));
    std::mt19937 random(seed);
    std::int64_t answered = 0;
    for (int round = 0; round < 6; ++round) {
        QProcess writer;
        writer.start(QCoreApplication::applicationFilePath(),
                     {killed_writer_role, QString::fromStdString(path)});
        ASSERT_TRUE(writer.waitForStarted());
        ASSERT_TRUE(writer.waitForReadyRead(20000));
        writer.waitForFinished(static_cast<int>(random() % 150)); // lets it work for a while
        ASSERT_EQ(writer.state(), QProcess::Running);
        writer.kill();
        ASSERT_TRUE(writer.waitForFinished());
        ASSERT_EQ(writer.exitStatus(), QProcess::CrashExit);

        std::istringstream lines(writer.readAllStandardOutput().toStdString());
        ShopFile shop = take(ShopFile::open(path));
        std::int64_t number = 0;
        std::int64_t id = 0;
        std::string line;
        while (std::getline(lines, line) && std::istringstream(line) >> number >> id) {
            ++answered;
            const Act act = take(load_act(shop, number));
            EXPECT_EQ(act.edits, edits_of_one_act(id));
            EXPECT_EQ(take(load_build(shop, id)).name, build_name(id));
            EXPECT_EQ(take(stages_with_steps(shop, id)).at(0).steps.size(), 20U);
        }
        EXPECT_TRUE(take(shop.check()).findings.empty());
        // An act may have been written and not answered: at most one in each round.
        const auto builds = static_cast<std::int64_t>(take(load_builds(shop)).size());
        EXPECT_EQ(builds, take(last_act(shop)));
        EXPECT_GE(builds, answered);
        EXPECT_LE(builds, answered + round + 1);
    }
    EXPECT_GE(answered, 6);
}

} // namespace rodway
