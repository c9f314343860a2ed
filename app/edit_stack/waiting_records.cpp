#include "app/edit_stack/waiting_records.h"

#include <algorithm>

#include "db/record_fields.h"

namespace rodway {
namespace {

bool ticks(const Edit& edit, std::int64_t step_id) {
    return edit.record == RecordRef{RecordKind::step, step_id} && edit.field == "ticked_at";
}

} // namespace

std::vector<Reading> waiting_readings(const std::vector<WaitingAct>& waiting,
                                      std::int64_t build_id) {
    std::vector<Reading> readings;
    for (const WaitingAct& act : waiting) {
        FieldTexts texts;
        for (const Edit& edit : act.edits) {
            if (edit.record.kind == RecordKind::reading && edit.after) {
                texts[edit.field] = *edit.after;
            }
        }
        if (!act.creates || texts.empty()) {
            continue;
        }
        const auto reading = record_from<Reading>(id_to_come + act.key, texts);
        if (reading && reading->build_id == build_id) {
            readings.push_back(*reading);
        }
    }
    return readings;
}

const WaitingAct* waiting_tick(const std::vector<WaitingAct>& waiting, std::int64_t step_id) {
    const auto found = std::find_if(waiting.rbegin(), waiting.rend(), [&](const WaitingAct& act) {
        return std::any_of(act.edits.begin(), act.edits.end(),
                           [&](const Edit& edit) { return ticks(edit, step_id); });
    });
    return found == waiting.rend() ? nullptr : &*found;
}

Step ticked_by(const WaitingAct& act, Step step) {
    for (const Edit& edit : act.edits) {
        if (edit.record != RecordRef{RecordKind::step, step.id}) {
            continue;
        }
        if (edit.field == "ticked_at") {
            step.ticked_at = edit.after;
        } else if (edit.field == "ticked_by") {
            step.ticked_by = edit.after;
        }
    }
    return step;
}

} // namespace rodway
