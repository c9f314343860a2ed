#include "app/bench/bench_standings.h"

#include <algorithm>

#include "app/work/build_state.h"

namespace rodway {
namespace {

/// A few kilobytes each. Who scrolls through more comes back to them seldom.
constexpr std::size_t most_kept = 1000;

} // namespace

BenchStandings::BenchStandings(ShopReader& reader, Clock clock, QObject* parent)
    : QObject(parent), reader_(reader), clock_(std::move(clock)) {}

void BenchStandings::want(std::vector<BuildVersion> seen) {
    seen_ = std::move(seen);
    // What couldn't be worked out is tried again.
    std::erase_if(known_, [](const auto& known) { return known.second.trouble.has_value(); });
    if (known_.size() > most_kept) {
        std::erase_if(known_, [this](const auto& known) {
            return std::none_of(seen_.begin(), seen_.end(), [&](const BuildVersion& version) {
                return version.build_id == known.first;
            });
        });
    }
    if (!asked_) {
        ask_next();
    }
}

const BenchStanding* BenchStandings::find(const BuildVersion& version) const {
    const auto known = known_.find(version.build_id);
    const bool there = known != known_.end() && known->second.version == version;
    return there && known->second.standing ? &*known->second.standing : nullptr;
}

std::optional<Error> BenchStandings::trouble(std::int64_t build_id) const {
    const auto known = known_.find(build_id);
    return known == known_.end() ? std::nullopt : known->second.trouble;
}

void BenchStandings::forget() {
    known_.clear();
    seen_.clear();
    asked_.reset(); // the reader no longer answers, for it was told of another shop
}

bool BenchStandings::is_known(const BuildVersion& version) const {
    const auto known = known_.find(version.build_id);
    if (known == known_.end() || !(known->second.version == version)) {
        return false;
    }
    return !known->second.standing || clock_() < known->second.standing->until;
}

void BenchStandings::ask_next() {
    const auto next = std::find_if(seen_.begin(), seen_.end(), [this](const BuildVersion& version) {
        return !is_known(version);
    });
    if (next == seen_.end()) {
        return;
    }
    asked_ = *next;
    const Moment moment = Moment::at(clock_());
    reader_.ask<BuildState>(
        [moment, build_id = next->build_id](ShopFile& shop) {
            return load_build_state(shop, build_id, moment);
        },
        [this, version = *next](Result<BuildState> answer) { take(version, answer); });
}

void BenchStandings::take(const BuildVersion& version, const Result<BuildState>& answer) {
    asked_.reset();
    ++worked_out_;
    Known& known = known_[version.build_id];
    known.version = version;
    known.trouble = answer ? std::nullopt : std::optional(answer.error());
    known.standing =
        answer ? std::optional(bench_standing(*answer)) : std::optional<BenchStanding>();
    emit found(version.build_id);
    ask_next();
}

} // namespace rodway
