#include "app/bench/today_list.h"

#include <QCoreApplication>
#include <QDateTime>
#include <algorithm>
#include <iterator>

#include "app/bench/bench_standing.h"
#include "app/words/hold_words.h"
#include "app/words/today_words.h"
#include "app/work/shop_day.h"
#include "core/build/cure_state.h"
#include "db/build_store.h"
#include "db/today.h"

namespace rodway {
namespace {

struct TodayLines {
    Q_DECLARE_TR_FUNCTIONS(TodayLines)
};

bool is_cure(DueKind kind) {
    return kind == DueKind::cure_handling || kind == DueKind::cure_full ||
           kind == DueKind::cure_not_known;
}

BenchPlace place_of(const Due& due) {
    return due.record.kind == RecordKind::part
               ? BenchPlace{BenchPlace::Where::parts, {}, due.record}
               : BenchPlace{BenchPlace::Where::build, {}, due.record};
}

/// "since 14:05": of a cure the day is known.
QString when_of(const Due& due, const std::string& now_utc) {
    if (!is_cure(due.kind)) {
        return words::due_when(due);
    }
    if (due.at.empty()) {
        return {};
    }
    const QString clock = QDateTime::fromString(QString::fromStdString(due.at), Qt::ISODate)
                              .toLocalTime()
                              .toString(QStringLiteral("hh:mm"));
    return due.at > now_utc ? TodayLines::tr("from %1 on").arg(clock)
                            : TodayLines::tr("since %1").arg(clock);
}

QString sentence(const QString& words) {
    return words.left(1).toUpper() + words.mid(1);
}

Result<Done> add_name(ShopFile& shop, std::int64_t build_id,
                      std::map<std::int64_t, QString>& names) {
    if (names.contains(build_id)) {
        return Done{};
    }
    const auto build = load_build(shop, build_id);
    if (!build) {
        return build.error();
    }
    names[build_id] = QString::fromStdString(build->name);
    return Done{};
}

} // namespace

Result<TodayList> load_today_list(ShopFile& shop, const std::string& now_utc) {
    TodayRequest request;
    request.day = shop_day(now_utc);
    request.now_utc = now_utc;
    const auto facts = load_today_facts(shop, request);
    if (!facts) {
        return facts.error();
    }
    TodayList list;
    list.now_utc = now_utc;
    list.day = request.day.day;
    list.cures = facts->cures;
    list.until = next_change(list.cures, now_utc);
    const std::vector<Due> dues = due_today(*facts, request);
    auto named = Result(Done{});
    for (auto due = dues.begin(); named && due != dues.end(); ++due) {
        named = add_name(shop, due->build_id, list.builds);
    }
    for (auto cure = list.cures.begin(); named && cure != list.cures.end(); ++cure) {
        named = add_name(shop, cure->build_id, list.builds);
    }
    if (!named) {
        return named.error();
    }
    for (const Due& due : dues) {
        const QString when = when_of(due, now_utc);
        const QString what = sentence(words::due(due.kind));
        const QString title = words::due_title(due, *facts);
        const QString& build = list.builds.at(due.build_id);
        list.lines.push_back(
            {due.kind, due.build_id, place_of(due),
             when.isEmpty() ? what : TodayLines::tr("%1, %2").arg(what, when),
             title.isEmpty() ? build : TodayLines::tr("%1 · %2").arg(build, title)});
    }
    return list;
}

std::vector<Cure> cured_since(const TodayList& list, const std::string& before_utc) {
    std::vector<Cure> cured;
    std::copy_if(list.cures.begin(), list.cures.end(), std::back_inserter(cured),
                 [&](const Cure& cure) {
                     return cure_state(cure, before_utc).is_running() &&
                            cure_state(cure, list.now_utc).stage == CureStage::cured;
                 });
    return cured;
}

} // namespace rodway
