#pragma once

#include <QString>
#include <optional>
#include <string>
#include <vector>

#include "app/bench/bench_place.h"
#include "app/bench/stage_rail.h"
#include "app/work/build_state.h"

namespace rodway {

/// One thing that holds a build up, in words.
struct HeldBy {
    HoldKind kind = HoldKind::open_item;
    QString words;
    BenchPlace place;
};

/// How one build stands, as far as the Bench shows it.
struct BenchStanding {
    std::vector<HeldBy> held_by; ///< the gravest first; without steps to do and what is waived
    int waived = 0;              ///< how many things are
    QString next;                ///< what to do
    QString next_stage;          ///< in which stage; empty: in none
    Rail rail;
    std::string until; ///< UTC: from then on time alone may have changed it
};

/// The words are made on the window's thread; the shop isn't read.
[[nodiscard]] BenchStanding bench_standing(const BuildState& state);

/// The earliest time at which a cure of these passes one of its times, or the day ends.
[[nodiscard]] std::string next_change(const std::vector<Cure>& cures, const std::string& now_utc);

} // namespace rodway
