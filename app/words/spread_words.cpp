#include "app/words/spread_words.h"

#include <QCoreApplication>

#include "app/words/lengths.h"

namespace rodway::words {
namespace {

struct Spreads {
    Q_DECLARE_TR_FUNCTIONS(Spreads)
};

} // namespace

QString spread(const BuildSpread& spread, std::uint64_t seed, double limit_mm) {
    return Spreads::tr(
               "%1 builds drawn (seed %2) as the set-up says its sizes may differ, the lash set "
               "again in each: %3 of them have a valve under the limit of %4. An estimate: what "
               "acts within every build, such as bow, slop and float, isn't drawn.")
        .arg(spread.builds)
        .arg(seed)
        .arg(share(spread.any_below_limit), inches(limit_mm));
}

QString spread_range(const ValveSpread& valve) {
    const auto end = [](const std::optional<double>& mm) {
        return mm ? inches(*mm).remove(" in") : Spreads::tr("no answer");
    };
    return Spreads::tr("%1 to %2 in").arg(end(valve.low_mm), end(valve.high_mm));
}

QString share(double share) {
    if (share > 0.0 && share < 0.01) {
        return Spreads::tr("under 1 %");
    }
    if (share < 1.0 && share > 0.99) {
        return Spreads::tr("over 99 %");
    }
    return Spreads::tr("%1 %").arg(QString::number(100.0 * share, 'f', 0));
}

} // namespace rodway::words
