#include "app/words/next_words.h"

#include "core/build/part_wait.h"

namespace rodway::words {

bool only_time_helps(const Hold& hold) {
    switch (hold.kind) {
        case HoldKind::cure_running:
        case HoldKind::decision_pending:
            return true;
        case HoldKind::part_awaited:
            return hold.wait == PartWait::ordered || hold.wait == PartWait::promised ||
                   hold.wait == PartWait::overdue;
        default:
            return false;
    }
}

} // namespace rodway::words
