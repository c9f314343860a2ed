#include "app/words/today_words.h"

#include <QCoreApplication>
#include <algorithm>

#include "app/words/hold_words.h"

namespace rodway::words {
namespace {

struct TodayWords {
    Q_DECLARE_TR_FUNCTIONS(TodayWords)
};

QString text(const std::string& utf8) {
    return QString::fromStdString(utf8);
}

template <typename Record>
const Record& with_id(const std::vector<Record>& records, std::int64_t id) {
    const auto found = std::find_if(records.begin(), records.end(),
                                    [id](const Record& record) { return record.id == id; });
    RODWAY_ASSERT(found != records.end()); // the list was made of these facts
    return *found;
}

} // namespace

QString due_title(const Due& due, const TodayFacts& facts) {
    switch (due.record.kind) {
        case RecordKind::cure:
            return text(with_id(facts.cures, due.record.id).place);
        case RecordKind::part: {
            const PartRecord& part =
                with_id(due.kind == DueKind::keep_ended ? facts.kept : facts.parts, due.record.id);
            return part.supplier
                       ? TodayWords::tr("%1 from %2").arg(text(part.item), text(*part.supplier))
                       : text(part.item);
        }
        case RecordKind::open_item:
            return text(with_id(facts.open_items, due.record.id).title);
        case RecordKind::visit:
            return text(with_id(facts.visits, due.record.id).reason);
        case RecordKind::hand_off:
            return text(with_id(facts.hand_offs, due.record.id).service_dates.value_or(""));
        default:
            return {};
    }
}

QString due_when(const Due& due) {
    if (due.at.empty()) {
        return TodayWords::tr("not known");
    }
    return due.days ? days_off(*due.days) : time_of(due.at);
}

QString days_off(std::int64_t days) {
    if (days == 0) {
        return TodayWords::tr("today");
    }
    if (days == 1) {
        return TodayWords::tr("tomorrow");
    }
    if (days == -1) {
        return TodayWords::tr("yesterday");
    }
    return days > 0 ? TodayWords::tr("in %1 days").arg(days)
                    : TodayWords::tr("%1 days ago").arg(-days);
}

} // namespace rodway::words
