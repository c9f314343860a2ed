#pragma once

#include <QObject>
#include <map>
#include <optional>
#include <vector>

#include "app/bench/bench_standing.h"
#include "app/work/running_clock.h"
#include "app/work/shop_reader.h"

namespace rodway {

/// A build as it was when its row was read.
struct BuildVersion {
    std::int64_t build_id = 0;
    std::int64_t newest_act = 0;
    std::int64_t newest_shop_act = 0;

    bool operator==(const BuildVersion&) const = default;
};

/// How the builds stand that are seen on the Bench: worked out one after another on the reader's
/// thread, and kept until the build or the shop changes, or a time comes. What isn't seen isn't
/// worked out.
class BenchStandings : public QObject {
    Q_OBJECT

  public:
    /// The reader outlives this.
    BenchStandings(ShopReader& reader, Clock clock, QObject* parent = nullptr);

    /// The builds that are seen now, the first to be worked out first. Those wanted before that
    /// haven't begun are given up.
    void want(std::vector<BuildVersion> seen);
    /// What is known of a build as it was read, whatever time has gone by since; null if nothing
    /// is, it has changed since, or it couldn't be worked out.
    [[nodiscard]] const BenchStanding* find(const BuildVersion& version) const;
    /// Why it couldn't be worked out.
    [[nodiscard]] std::optional<Error> trouble(std::int64_t build_id) const;
    void forget();

    /// Whether something seen isn't known yet.
    [[nodiscard]] bool busy() const { return asked_.has_value(); }
    /// How many builds were worked out since this was made, one that was twice counted twice.
    [[nodiscard]] int worked_out() const { return worked_out_; }

  signals:
    void found(qint64 build_id);

  private:
    struct Known {
        BuildVersion version;
        std::optional<BenchStanding> standing;
        std::optional<Error> trouble;
    };
    [[nodiscard]] bool is_known(const BuildVersion& version) const;
    void ask_next();
    void take(const BuildVersion& version, const Result<BuildState>& answer);

    ShopReader& reader_;
    Clock clock_;
    std::map<std::int64_t, Known> known_;
    std::vector<BuildVersion> seen_;
    std::optional<BuildVersion> asked_;
    int worked_out_ = 0;
};

} // namespace rodway
