#include "app/words/cure_words.h"

#include <QCoreApplication>
#include <QStringList>

#include "app/words/hold_words.h"

namespace rodway::words {
namespace {

struct CureWords {
    Q_DECLARE_TR_FUNCTIONS(CureWords)
};

constexpr std::int64_t minutes_in_hour = 60;
constexpr std::int64_t minutes_in_day = 24 * minutes_in_hour;

QString handling(const CureState& state) {
    if (!state.minutes_to_handling) {
        return CureWords::tr("When it may be handled isn't known.");
    }
    return *state.minutes_to_handling > 0
               ? CureWords::tr("May be handled in %1: on %2.")
                     .arg(time_span(*state.minutes_to_handling), time_of(*state.handling_at))
               : CureWords::tr("May be handled since %1.").arg(time_of(*state.handling_at));
}

QString full(const CureState& state) {
    if (!state.minutes_to_full) {
        return CureWords::tr("When it has cured fully isn't known.");
    }
    return *state.minutes_to_full > 0
               ? CureWords::tr("Fully cured in %1: on %2.")
                     .arg(time_span(*state.minutes_to_full), time_of(*state.full_at))
               : CureWords::tr("Its full time has passed: on %1.").arg(time_of(*state.full_at));
}

} // namespace

QString time_span(std::int64_t minutes) {
    const std::int64_t days = minutes / minutes_in_day;
    const std::int64_t hours = minutes % minutes_in_day / minutes_in_hour;
    const std::int64_t rest = minutes % minutes_in_hour;
    if (days > 0) {
        return hours > 0 ? CureWords::tr("%1 d %2 h").arg(days).arg(hours)
                         : CureWords::tr("%1 d").arg(days);
    }
    if (hours > 0) {
        return rest > 0 ? CureWords::tr("%1 h %2 min").arg(hours).arg(rest)
                        : CureWords::tr("%1 h").arg(hours);
    }
    return CureWords::tr("%1 min").arg(rest);
}

QString countdown(const CureState& state) {
    switch (state.stage) {
        case CureStage::wet:
        case CureStage::may_be_handled:
            return QStringList{handling(state), full(state)}.join('\n');
        case CureStage::not_known:
            return state.full_at ? QStringList{handling(state), full(state)}.join('\n')
                                 : CureWords::tr(
                                       "The label's times aren't known: type them, or "
                                       "end it by hand.");
        case CureStage::cured:
            return CureWords::tr("Cured since %1.").arg(time_of(*state.full_at));
        case CureStage::ended:
            return state.ended_early == true ? CureWords::tr("Ended before the label's time.")
                                             : CureWords::tr("Ended by hand.");
    }
    return {};
}

QString cure_stage(const CureState& state) {
    switch (state.stage) {
        case CureStage::wet:
            return CureWords::tr("Wet");
        case CureStage::may_be_handled:
            return CureWords::tr("May be handled");
        case CureStage::cured:
            return CureWords::tr("Cured");
        case CureStage::not_known:
            return state.full_at ? CureWords::tr("Not cured yet")
                                 : CureWords::tr("Times not known");
        case CureStage::ended:
            return CureWords::tr("Ended");
    }
    return {};
}

} // namespace rodway::words
