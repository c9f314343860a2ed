#pragma once

#include <QString>
#include <map>
#include <string>
#include <vector>

#include "app/bench/bench_place.h"
#include "core/base/result.h"
#include "core/build/today.h"
#include "db/shop_file.h"

namespace rodway {

/// One line of Today: what is due and when, of which build, and where it is dealt with.
struct TodayLine {
    DueKind kind = DueKind::part_due;
    std::int64_t build_id = 0;
    BenchPlace place;
    QString what;  ///< "Part overdue, 3 days ago"
    QString about; ///< "Halden V8 · Head gasket from Norvik"
};

/// What is due across all builds at one moment.
struct TodayList {
    std::string now_utc;
    std::string day; ///< ISO day of the shop's calendar
    std::vector<TodayLine> lines;
    std::vector<Cure> cures;                ///< not ended, of builds in hand
    std::map<std::int64_t, QString> builds; ///< names of those in `lines` and `cures`
    std::string until;                      ///< UTC: from then on time alone changes it
};

/// Errors: those of reading the file.
[[nodiscard]] Result<TodayList> load_today_list(ShopFile& shop, const std::string& now_utc);

/// The cures of the list that ran at that time before and have cured fully at the list's own, by
/// their labels.
[[nodiscard]] std::vector<Cure> cured_since(const TodayList& list, const std::string& before_utc);

} // namespace rodway
