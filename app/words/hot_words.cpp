#include "app/words/hot_words.h"

#include <QCoreApplication>
#include <QStringList>

#include "app/words/clearance_words.h"
#include "app/words/lengths.h"
#include "app/words/stated_words.h"

namespace rodway::words {
namespace {

struct Hot {
    Q_DECLARE_TR_FUNCTIONS(Hot)
};

QString degrees_C(double degC) {
    return QString::number(degC, 'f', 0);
}

} // namespace

QString hot_and_cold(const HotAndCold& found, double cold_degC) {
    if (!found.missing.empty()) {
        return Hot::tr("To be stated first: %1.").arg(stated_fields(found.missing));
    }
    return Hot::tr(
               "Every part grown by its own metal and warmth over %1 °C, adjusters left as they "
               "were set cold, and the whole turn swept again. An estimate: each part is taken "
               "to be evenly warm and free to grow; a metal's coefficient lies within 5.5 % of "
               "its listed one (Callister, table B.6), which makes the ranges.")
        .arg(degrees_C(cold_degC));
}

QString hot_of(const HotClearance& valve, const Engine& engine) {
    if (valve.status == TrainStatus::rod_too_long && valve.cold) {
        return Hot::tr(
            "Hot, no lash is left: the rod holds the valve off its seat. Set it wider "
            "cold, by the maker's figure, and check it hot.");
    }
    if (!valve.hot || !valve.cold) {
        return train_status(valve.status, std::nullopt, std::nullopt);
    }
    QStringList said;
    if (valve.cold_lash_mm) {
        said << Hot::tr("Lash set to %1 cold becomes %2 hot.")
                    .arg(inches(*valve.cold_lash_mm), hot_range(valve.hot_lash_mm));
    }
    said << Hot::tr("Clearance %1 cold becomes %2 hot, nearest there: %3.")
                .arg(inches(valve.cold->clearance_mm), hot_range(valve.hot_least_mm),
                     place(*valve.hot, engine));
    return said.join(' ');
}

QString part_growth(const PartGrowth& part, double cold_degC) {
    const QString of = part.metal
                           ? metal(*part.metal)
                           : Hot::tr("%1 millionths for each °C")
                                 .arg(QString::number(1e6 * part.expansion_per_K.middle(), 'f', 1));
    return Hot::tr("%1, %2 to %3 °C")
        .arg(of, degrees_C(cold_degC), degrees_C(cold_degC + part.warmed_K));
}

QString hot_range(const std::optional<Interval>& range_mm) {
    if (!range_mm) {
        return Hot::tr("–");
    }
    const QString low = inches(range_mm->low);
    const QString high = inches(range_mm->high);
    return low == high ? low : Hot::tr("%1 to %2").arg(QString(low).remove(" in"), high);
}

QString hot_verdict(const HotClearance& valve) {
    if (valve.verdict) {
        return verdict(*valve.verdict);
    }
    return valve.status == TrainStatus::rod_too_long && valve.cold ? Hot::tr("No lash left")
                                                                   : Hot::tr("no answer");
}

} // namespace rodway::words
