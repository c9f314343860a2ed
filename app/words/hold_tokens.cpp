#include "app/words/hold_words.h"

namespace rodway::words {

QString token(HoldKind kind) {
    switch (kind) {
        case HoldKind::contact:
            return "contact";
        case HoldKind::check_failed:
            return "check_failed";
        case HoldKind::check_too_close:
            return "check_too_close";
        case HoldKind::check_stale:
            return "check_stale";
        case HoldKind::clearance_no_answer:
            return "clearance_no_answer";
        case HoldKind::clearance_no_doubt:
            return "clearance_no_doubt";
        case HoldKind::clearance_not_known:
            return "clearance_not_known";
        case HoldKind::sheet_missing:
            return "sheet_missing";
        case HoldKind::sheet_incomplete:
            return "sheet_incomplete";
        case HoldKind::part_awaited:
            return "part_awaited";
        case HoldKind::cure_running:
            return "cure_running";
        case HoldKind::open_item:
            return "open_item";
        case HoldKind::decision_pending:
            return "decision_pending";
        case HoldKind::step_open:
            return "step_open";
        case HoldKind::needs_not_readable:
            return "needs_not_readable";
    }
    return {};
}

QString token(PartWait wait) {
    switch (wait) {
        case PartWait::not_listed:
            return "not_listed";
        case PartWait::needed:
            return "needed";
        case PartWait::ordered:
            return "ordered";
        case PartWait::promised:
            return "promised";
        case PartWait::overdue:
            return "overdue";
        case PartWait::not_measured:
            return "not_measured";
        case PartWait::not_fitted:
            return "not_fitted";
        case PartWait::temporary:
            return "temporary";
        case PartWait::failed:
            return "failed";
    }
    return {};
}

QString token(CureStage stage) {
    switch (stage) {
        case CureStage::wet:
            return "wet";
        case CureStage::may_be_handled:
            return "may_be_handled";
        case CureStage::cured:
            return "cured";
        case CureStage::not_known:
            return "not_known";
        case CureStage::ended:
            return "ended";
    }
    return {};
}

QString token(NextKind kind) {
    switch (kind) {
        case NextKind::step:
            return "step";
        case NextKind::wait:
            return "wait";
        case NextKind::hold:
            return "hold";
        case NextKind::sign_off:
            return "sign_off";
        case NextKind::nothing:
            return "nothing";
    }
    return {};
}

QString token(DueKind kind) {
    switch (kind) {
        case DueKind::promise_passed:
            return "promise_passed";
        case DueKind::promise_near:
            return "promise_near";
        case DueKind::part_overdue:
            return "part_overdue";
        case DueKind::part_due:
            return "part_due";
        case DueKind::cure_handling:
            return "cure_handling";
        case DueKind::cure_full:
            return "cure_full";
        case DueKind::cure_not_known:
            return "cure_not_known";
        case DueKind::item_due:
            return "item_due";
        case DueKind::service_due:
            return "service_due";
        case DueKind::visit_due:
            return "visit_due";
        case DueKind::keep_ended:
            return "keep_ended";
    }
    return {};
}

QString token(WaiverNeglect why) {
    switch (why) {
        case WaiverNeglect::of_contact:
            return "of_contact";
        case WaiverNeglect::expired:
            return "expired";
        case WaiverNeglect::holds_nothing:
            return "holds_nothing";
    }
    return {};
}

QString token(DependenceReason reason) {
    switch (reason) {
        case DependenceReason::bolt_end_near_rod:
            return "bolt_end_near_rod";
        case DependenceReason::moves_head:
            return "moves_head";
        case DependenceReason::moves_intake:
            return "moves_intake";
        case DependenceReason::moves_rod_foot:
            return "moves_rod_foot";
        case DependenceReason::moves_rod_top:
            return "moves_rod_top";
        case DependenceReason::is_the_rod:
            return "is_the_rod";
        case DependenceReason::is_the_passage:
            return "is_the_passage";
        case DependenceReason::lifts_further:
            return "lifts_further";
        case DependenceReason::moves_valve:
            return "moves_valve";
        case DependenceReason::moves_piston:
            return "moves_piston";
        case DependenceReason::changes_chamber:
            return "changes_chamber";
        case DependenceReason::changes_fit:
            return "changes_fit";
        case DependenceReason::changes_clamping:
            return "changes_clamping";
        case DependenceReason::changes_spring:
            return "changes_spring";
        case DependenceReason::drags:
            return "drags";
        case DependenceReason::swings_near:
            return "swings_near";
        case DependenceReason::sets_mesh:
            return "sets_mesh";
        case DependenceReason::shifts_timing:
            return "shifts_timing";
        case DependenceReason::changes_balance:
            return "changes_balance";
        case DependenceReason::carries_oil:
            return "carries_oil";
        case DependenceReason::judged_by:
            return "judged_by";
    }
    return {};
}

} // namespace rodway::words
