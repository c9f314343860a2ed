#include "app/bench/bench_place.h"

namespace rodway {
namespace {

std::optional<RecordRef> step_of(const Hold& hold) {
    return hold.step_id ? std::optional(RecordRef{RecordKind::step, *hold.step_id}) : std::nullopt;
}

} // namespace

BenchPlace place_of(const Hold& hold) {
    using Where = BenchPlace::Where;
    switch (hold.kind) {
        case HoldKind::contact:
        case HoldKind::check_failed:
        case HoldKind::check_too_close:
        case HoldKind::check_stale:
            return hold.subject == clearance_check
                       ? BenchPlace{Where::valvetrain}
                       : BenchPlace{Where::sheets, hold.subject, hold.record};
        case HoldKind::clearance_no_answer:
        case HoldKind::clearance_not_known:
            return {Where::valvetrain};
        case HoldKind::sheet_missing:
        case HoldKind::sheet_incomplete:
            return {Where::sheets, hold.subject};
        case HoldKind::part_awaited:
            return {Where::parts, {}, hold.record};
        case HoldKind::decision_pending:
            return {Where::account, {}, hold.record};
        case HoldKind::cure_running:
        case HoldKind::open_item:
        case HoldKind::step_open:
        case HoldKind::needs_not_readable:
            return {Where::build, {}, hold.record ? hold.record : step_of(hold)};
    }
    return {};
}

} // namespace rodway
