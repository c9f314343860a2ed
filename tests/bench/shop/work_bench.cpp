#include "tests/bench/shop/work_bench.h"

#include <QString>
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <functional>
#include <stdexcept>
#include <utility>

#include "db/bench_rows.h"
#include "db/build_facts.h"
#include "db/connection.h"
#include "db/parts_to_come.h"
#include "db/shop_file.h"
#include "db/today.h"

namespace rodway::bench {
namespace {

template <typename T>
T taken(Result<T> result) {
    if (!result) throw std::runtime_error(result.error().field + ": " + result.error().value);
    return std::move(result).value();
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
    for (int turn = 0; turn < 7; ++turn) {
        small = std::min(small, milliseconds(on_small));
        large = std::min(large, milliseconds(on_large));
    }
    std::printf("%-28s %9.2f ms %9.2f ms   ratio %.2f\n", what, small, large, large / small);
}

BenchRequest bench(BenchFilter filter, BenchOrder order, const char* text = "") {
    BenchRequest request;
    request.filter = filter;
    request.order = order;
    request.text = text;
    request.now_utc = "2026-03-15T12:00:00Z";
    request.today = "2026-03-15";
    return request;
}

void page_of(ShopFile& shop, const BenchRequest& request) {
    if (taken(bench_page(shop, request)).rows.empty()) throw std::runtime_error("an empty page");
}

void day_of(ShopFile& shop) {
    TodayRequest request;
    request.day = {"2026-03-15", "2026-03-15T00:00:00Z", "2026-03-16T00:00:00Z"};
    request.now_utc = "2026-03-15T12:00:00Z";
    if (due_today(taken(load_today_facts(shop, request)), request).empty()) {
        throw std::runtime_error("nothing due");
    }
}

void facts_of(ShopFile& shop, std::int64_t build) {
    if (taken(load_build_facts(shop, build)).changes.size() < 1000) {
        throw std::runtime_error("no history");
    }
}

} // namespace

void add_work(const std::string& path, int builds) {
    ShopFile shop = taken(ShopFile::open(path));
    Connection& connection = shop.connection();
    const QString numbers = QStringLiteral(
        "WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i <"
        " %1) ");
    const QString at = QStringLiteral("'2026-03-01T12:00:00Z'");
    const QString day = QStringLiteral("date('2026-03-01', '+' || (i % 40) || ' days')");
    const QString statements[] = {
        QStringLiteral("PRAGMA synchronous = OFF"),
        QStringLiteral("UPDATE builds SET promised = date('2026-03-01', '+' || (id % 90) ||"
                       " ' days')"),
        numbers.arg(builds * 20) +
            QStringLiteral("INSERT INTO parts (id, build_id, item, owner, supplier, promised,"
                           " received, kept_until) SELECT i, (i - 1) / 20 + 1, 'part ' || i,"
                           " 'shop', 'Supplier ' || (i % 17), %1, CASE WHEN i % 10 THEN %1 END,"
                           " CASE WHEN i % 50 = 0 THEN %1 END FROM n")
                .arg(day),
        numbers.arg(builds * 3) +
            QStringLiteral("INSERT INTO cures (id, build_id, place, handling_minutes, full_minutes,"
                           " applied_by, applied_at, ended) SELECT i, (i - 1) / 3 + 1, 'tubes', 30,"
                           " 1440 * (i % 30), 'MH', %1, CASE WHEN i % 3 THEN %1 END FROM n")
                .arg(at),
        numbers.arg(builds) +
            QStringLiteral("INSERT INTO approvals (id, build_id, subject, answer, asked_at)"
                           " SELECT i, i, 'larger valves', CASE WHEN i % 5 THEN 'approved' ELSE"
                           " 'asked' END, %1 FROM n")
                .arg(at),
        numbers.arg(builds * 3) +
            QStringLiteral("INSERT INTO open_items (id, build_id, kind, title, due, opened_by,"
                           " opened_at, closed_by, closed_at) SELECT i, (i - 1) / 3 + 1, 'watch',"
                           " 'a doubtful thread', %1, 'MH', %2, CASE WHEN i % 3 THEN 'MH' END,"
                           " CASE WHEN i % 3 THEN %2 END FROM n")
                .arg(day, at),
        numbers.arg(builds) +
            QStringLiteral("INSERT INTO hand_offs (id, build_id, version, history_head,"
                           " program_version, given_at, service_dates) SELECT i, i, 1,"
                           " printf('%064x', i), '1', %2, %1 || ': retorque' FROM n")
                .arg(day, at),
        QStringLiteral("PRAGMA wal_checkpoint(TRUNCATE)")};
    for (const QString& sql : statements) taken(connection.run(sql));
}

void print_work(const std::string& small, const std::string& large, int small_build,
                int large_build) {
    ShopFile small_shop = taken(ShopFile::open(small));
    ShopFile large_shop = taken(ShopFile::open(large));
    const auto on_both = [&](const char* what, const std::function<void(ShopFile&)>& work) {
        compare(
            what, [&] { work(small_shop); }, [&] { work(large_shop); });
    };
    const auto list = [&](const char* what, BenchFilter filter, BenchOrder order,
                          const char* text = "") {
        on_both(what, [=](ShopFile& shop) { page_of(shop, bench(filter, order, text)); });
    };
    list("Bench: in hand, by promise", BenchFilter::in_hand, BenchOrder::promised);
    list("Bench: in hand, newest", BenchFilter::in_hand, BenchOrder::newest_change);
    list("Bench: waits for a part", BenchFilter::waits_for_part, BenchOrder::promised);
    list("Bench: put away, newest", BenchFilter::put_away, BenchOrder::newest_change);
    list("Bench: put away, by words", BenchFilter::put_away, BenchOrder::promised, "customer 5");
    on_both("today", day_of);
    on_both("buying list",
            [](ShopFile& shop) { static_cast<void>(taken(builds_waiting_for_parts(shop))); });
    compare(
        "one build's facts", [&] { facts_of(small_shop, small_build); },
        [&] { facts_of(large_shop, large_build); });
}

} // namespace rodway::bench
