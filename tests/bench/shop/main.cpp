// How the shop file's work grows: the same work on a file of 100 builds and on a large one, by
// turns in one run.
#include <QCoreApplication>
#include <QDir>
#include <QFileInfo>
#include <QTemporaryDir>
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <functional>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "db/alike_builds.h"
#include "db/build_records.h"
#include "db/build_store.h"
#include "db/edits.h"
#include "db/history.h"
#include "db/search.h"
#include "db/stage_store.h"
#include "tests/bench/shop/grown_shop.h"
#include "tests/bench/shop/work_bench.h"

namespace rodway {
namespace {

template <typename T>
T taken(Result<T> result) {
    if (!result) throw std::runtime_error(result.error().field + ": " + result.error().value);
    return std::move(result).value();
}

void first_list(const std::string& path) {
    ShopFile shop = taken(ShopFile::open(path));
    if (taken(builds_in_hand(shop)).empty()) throw std::runtime_error("no builds in hand");
}

/// Everything of one build, and its plan in its order.
void page_of(ShopFile& shop, std::int64_t build_id) {
    if (taken(records_of_build(shop, build_id)).size() < 100) throw std::runtime_error("no page");
    taken(stages_with_steps(shop, build_id));
}

void one_edit(ShopFile& shop, std::int64_t build_id) {
    Reading reading;
    reading.id = taken(new_id(shop, RecordKind::reading));
    reading.build_id = build_id;
    reading.quantity = "main_clearance";
    reading.position = "main 3";
    reading.text = ".0024";
    reading.unit = "in";
    reading.taken_by = "MH";
    reading.taken_at = "2026-03-02T12:00:00Z";
    taken(apply(shop, edits_to_create(reading), "MH", reading.taken_at));
    if (taken(history(shop, {RecordKind::reading, reading.id})).size() != 1) {
        throw std::runtime_error("no history");
    }
}

/// What is typed, and what must be found of it: `rows` at least.
struct Query {
    const char* what;
    std::string typed;
    std::size_t rows = 0;
};

/// The shop's names are `Arn` and letters of the build's number.
std::string customer_of(std::int64_t build_id) {
    const auto letter = [](std::int64_t number) { return static_cast<char>('a' + number); };
    return std::string("Arn") + letter(build_id % 26) + letter(build_id / 26 % 26) +
           letter(build_id / 676);
}

constexpr int rows_shown = 50;

std::vector<Query> queries() {
    return {
        {"a customer's name", customer_of(50), 1},
        {"a word of every reading", "clearance", rows_shown},
        {"a word of every note", "chased", rows_shown},
        {"a word of every photo", "bearing", rows_shown},
        {"a beginning of 1 letter", "m", rows_shown},
        {"a beginning of 2 letters", "cl", rows_shown},
        {"a beginning of 4, readings", "clea", rows_shown},
        {"a beginning of 4, photos", "bear", rows_shown},
        {"two words of every note", "thread good", rows_shown},
        {"two words of every reading", "main clearance", rows_shown},
        {"a name and a common word", customer_of(50) + " inline", 1},
        // The one that grows: that no row has all is known when every row of one is looked at.
        {"no row has all (grows)", "2 3 4", 0},
    };
}

void one_search(ShopFile& shop, const Query& query) {
    const std::size_t found = taken(search(shop, query.typed, rows_shown)).found.size();
    if (query.rows > 0 ? found < query.rows : found > 0) {
        throw std::runtime_error(query.typed + ": found " + std::to_string(found));
    }
}

double milliseconds(const std::function<void()>& work) {
    const auto start = std::chrono::steady_clock::now();
    work();
    return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start)
        .count();
}

/// Least time of several turns on each file, taken alternately.
void compare(const char* what, const std::function<void()>& on_small,
             const std::function<void()>& on_large) {
    double small = 1e18;
    double large = 1e18;
    for (int turn = 0; turn < 15; ++turn) {
        small = std::min(small, milliseconds(on_small));
        large = std::min(large, milliseconds(on_large));
    }
    std::printf("%-28s %9.2f ms %9.2f ms   ratio %.2f\n", what, small, large, large / small);
}

int run(const bench::ShopSize& large_size) {
    const QTemporaryDir folder;
    const std::string small = folder.filePath("small.rodway").toStdString();
    const std::string large = folder.filePath("large.rodway").toStdString();
    const bench::ShopSize small_size;
    make_grown_shop(small, small_size);
    const double made = milliseconds([&] { make_grown_shop(large, large_size); });
    std::printf(
        "%d builds, %d readings: %.1f MB; %d builds, %lld readings: %.1f MB, made in %.0f s\n",
        small_size.builds, small_size.builds * small_size.readings_of_a_build,
        double(QFileInfo(QString::fromStdString(small)).size()) / 1e6, large_size.builds,
        static_cast<long long>(large_size.builds) * large_size.readings_of_a_build,
        double(QFileInfo(QString::fromStdString(large)).size()) / 1e6, made / 1e3);
    ShopFile small_shop = taken(ShopFile::open(small));
    ShopFile large_shop = taken(ShopFile::open(large));
    const std::int64_t small_build = small_size.builds / 2;
    const std::int64_t large_build = large_size.builds / 2;
    compare(
        "opened, builds in hand", [&] { first_list(small); }, [&] { first_list(large); });
    compare(
        "a build's page", [&] { page_of(small_shop, small_build); },
        [&] { page_of(large_shop, large_build); });
    compare(
        "one edit with its history", [&] { one_edit(small_shop, small_build); },
        [&] { one_edit(large_shop, large_build); });
    for (const Query& query : queries()) {
        compare(
            query.what, [&] { one_search(small_shop, query); },
            [&] { one_search(large_shop, query); });
    }
    // At worst no other build has it, and every build alike is looked into.
    const auto last_time = [](ShopFile& shop, std::int64_t build_id, const char* quantity) {
        taken(alike_builds(shop, build_id, quantity, 12));
    };
    for (const auto& [what, quantity] : {std::pair{"what alike builds had", "main_clearance"},
                                         {"what none of them had", "nobody_measured_it"}}) {
        compare(
            what, [&] { last_time(small_shop, small_build, quantity); },
            [&] { last_time(large_shop, large_build, quantity); });
    }
    bench::add_work(small, small_size.builds);
    bench::add_work(large, large_size.builds);
    bench::print_work(small, large, static_cast<int>(small_build), static_cast<int>(large_build));
    return 0;
}

} // namespace
} // namespace rodway

int main(int argc, char** argv) {
    const QCoreApplication application(argc, argv);
    rodway::bench::ShopSize large;
    large.builds = 1000;
    const QStringList words = QCoreApplication::arguments().mid(1);
    if (words == QStringList{"--long"}) {
        large.builds = 10'000; // with 5 million readings and 200,000 photos
    } else if (!words.isEmpty()) {
        std::fprintf(stderr, "usage: rodway_shop_bench [--long]\n");
        return 2;
    }
    try {
        return rodway::run(large);
    } catch (const std::exception& failure) {
        std::fprintf(stderr, "%s\n", failure.what());
        return 1;
    }
}
