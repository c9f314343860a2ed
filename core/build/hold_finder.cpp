#include "core/build/hold_finder.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "core/build/cure_state.h"
#include "core/build/part_role.h"
#include "core/build/word_list.h"
#include "core/units/typed_text.h"

namespace rodway {
namespace {

template <typename Id>
std::string key_of(std::string_view what, const Id& id) {
    return std::string(what) + '/' + std::to_string(id);
}

std::string_view record_word(RecordKind kind) {
    switch (kind) {
        case RecordKind::part:
            return "part";
        case RecordKind::set_up:
            return "set_up";
        default:
            return "reading";
    }
}

/// The same changes give the same key, and one more another.
std::string key_of(const std::vector<StaleCause>& causes) {
    std::string key;
    for (const StaleCause& cause : causes) {
        key += '/' + std::string(record_word(cause.record.kind)) + ' ' +
               std::to_string(cause.record.id) + ' ' + cause.field + " act " +
               std::to_string(cause.act);
    }
    return key;
}

std::string_view wait_word(PartWait wait) {
    if (is_to_come(wait)) {
        return "to_come";
    }
    switch (wait) {
        case PartWait::not_measured:
            return "not_measured";
        case PartWait::not_fitted:
            return "not_fitted";
        case PartWait::temporary:
            return "temporary";
        default:
            return "failed";
    }
}

std::vector<std::string> positions_in(const std::optional<std::string>& text) {
    return text ? split_list(*text, ',') : std::vector<std::string>();
}

/// Microns, whole: finer differences are how the program counts.
std::string micron_text(const std::optional<double>& mm) {
    return mm ? std::to_string(std::lround(*mm * 1000.0)) + "um" : std::string("unknown");
}

std::string mm_text(double mm) {
    constexpr double steps = 1e4;
    return exact_text(std::round(mm * steps) / steps) + " mm";
}

} // namespace

bool is_done(const Step& step) {
    return step.ticked_at || step.not_needed;
}

void HoldFinder::add_stage(const Stage& stage) {
    const Waiting who{stage.id};
    for (const Gate& gate : records_.gates) {
        if (gate.stage_id == stage.id) {
            add_gate(gate);
        }
    }
    add_steps(who);
    add_cures(who);
    for (const Step& step : records_.steps) {
        if (step.stage_id == stage.id && !step.not_needed) {
            add_step(step, {stage.id, std::nullopt, step.id});
        }
    }
}

void HoldFinder::add_gate(const Gate& gate) {
    const Waiting who{gate.stage_id, gate.id};
    for (const OpenItem& item : records_.open_items) {
        if (item.gate_id == gate.id) {
            add_item(item, who);
        }
    }
    if (!gate.needs) {
        return;
    }
    const auto needs = parse_needs(*gate.needs);
    if (!needs) {
        Hold hold{HoldKind::needs_not_readable, key_of("needs", gate.id) + '/' + *gate.needs};
        hold.record = RecordRef{RecordKind::gate, gate.id};
        hold.subject = *gate.needs;
        add(std::move(hold), who);
        return;
    }
    for (const Need& need : *needs) {
        add_need(need, who);
    }
}

void HoldFinder::add_need_of(const Gate& gate, const Need& need) {
    add_need(need, {gate.stage_id, gate.id});
}

void HoldFinder::add_need(const Need& need, const Waiting& who) {
    switch (need.kind) {
        case NeedKind::steps:
            add_steps(who);
            break;
        case NeedKind::sheet:
            for (const std::string& kind : need.sheets) {
                add_sheet(kind, who);
            }
            break;
        case NeedKind::parts:
            for (const std::string& role : need.roles) {
                add_role(role, true, who);
            }
            break;
        case NeedKind::cures:
            add_cures(who);
            break;
        case NeedKind::clearance:
            add_clearance(who);
            break;
        case NeedKind::closed:
            for (const OpenItemKind kind : need.items) {
                add_items(kind, who);
            }
            break;
        case NeedKind::approvals:
            add_approvals(who);
            break;
    }
}

void HoldFinder::add_steps(const Waiting& who) {
    for (const Step& step : records_.steps) {
        if (step.stage_id != who.stage_id || is_done(step)) {
            continue;
        }
        Hold hold{HoldKind::step_open, key_of("step", step.id)};
        hold.record = RecordRef{RecordKind::step, step.id};
        hold.step_id = step.id;
        hold.subject = step.title;
        add(std::move(hold), who);
    }
}

/// What a step asks for by itself: its checks must not stand badly, done or not; its parts must be
/// there to do it with.
void HoldFinder::add_step(const Step& step, const Waiting& who) {
    if (step.sheet_kind) {
        add_checks(*step.sheet_kind, who);
    }
    if (is_done(step)) {
        return;
    }
    for (const PartRecord& part : records_.parts) {
        if (part.step_id == step.id) {
            add_part(part, false, who);
        }
    }
    const auto roles = step.part_roles ? parse_part_roles(*step.part_roles)
                                       : Result<std::vector<std::string>>(Error{});
    if (roles) {
        for (const std::string& role : *roles) {
            add_role(role, false, who);
        }
    }
}

void HoldFinder::add_cures(const Waiting& who) {
    for (const Cure& cure : records_.cures) {
        const auto step = std::find_if(records_.steps.begin(), records_.steps.end(),
                                       [&](const Step& one) { return cure.step_id == one.id; });
        if (step != records_.steps.end() && step->stage_id == who.stage_id) {
            add_cure(cure, who);
        }
    }
}

const SheetStanding* HoldFinder::sheet(std::string_view kind) const {
    const auto found = std::find_if(facts_.sheets.begin(), facts_.sheets.end(),
                                    [&](const SheetStanding& one) { return one.kind == kind; });
    return found == facts_.sheets.end() ? nullptr : &*found;
}

void HoldFinder::add_sheet(std::string_view kind, const Waiting& who) {
    const SheetStanding* standing = sheet(kind);
    const std::string key = "sheet/" + std::string(kind);
    if (standing == nullptr || standing->is_missing()) {
        Hold hold{HoldKind::sheet_missing, key + "/missing"};
        hold.subject = kind;
        add(std::move(hold), who);
    } else if (!standing->is_complete()) {
        Hold hold{HoldKind::sheet_incomplete, key + "/incomplete"};
        hold.subject = kind;
        hold.positions = standing->empty_at;
        add(std::move(hold), who);
    }
    add_checks(kind, who);
}

/// The boxes of a sheet that stand badly.
void HoldFinder::add_checks(std::string_view kind, const Waiting& who) {
    add_stale(kind, who);
    const SheetStanding* standing = sheet(kind);
    if (standing == nullptr) {
        return;
    }
    for (const CheckedBox& box : standing->boxes) {
        const std::string place = '/' + box.quantity + '/' + box.position;
        const std::string made =
            box.reading_id ? "/reading " + std::to_string(*box.reading_id) : '/' + box.value;
        Hold hold;
        if (box.contact) {
            hold.kind = HoldKind::contact;
            hold.key = "contact" + place;
        } else if (box.verdict == SheetVerdict::failed) {
            hold.kind = HoldKind::check_failed;
            hold.key = "failed" + place + made;
        } else if (box.verdict == SheetVerdict::too_close) {
            hold.kind = HoldKind::check_too_close;
            hold.key = "too_close" + place + made;
        } else {
            continue;
        }
        if (box.reading_id) {
            hold.record = RecordRef{RecordKind::reading, *box.reading_id};
        }
        hold.subject = kind;
        hold.quantity = box.quantity;
        hold.positions = {box.position};
        hold.value = box.value;
        hold.limit = box.limit;
        add(std::move(hold), who);
    }
}

/// Checks of one kind that the same changes made stale are one hold.
void HoldFinder::add_stale(std::string_view kind, const Waiting& who) {
    std::map<std::string, Hold> by_cause;
    for (const StaleCheck& stale : facts_.stale) {
        if (stale.check.kind != kind) {
            continue;
        }
        const std::string key = "stale/" + std::string(kind) + key_of(stale.causes);
        Hold& hold = by_cause[key];
        hold.kind = HoldKind::check_stale;
        hold.key = key;
        hold.subject = kind;
        hold.causes = stale.causes;
        const auto& there = hold.positions;
        if (!stale.check.position.empty() &&
            std::find(there.begin(), there.end(), stale.check.position) == there.end()) {
            hold.positions.push_back(stale.check.position);
        }
    }
    for (auto& [key, hold] : by_cause) {
        hold.record = hold.causes.front().record;
        add(std::move(hold), who);
    }
}

void HoldFinder::add_clearance(const Waiting& who) {
    if (!facts_.clearances || facts_.clearances->empty()) {
        Hold hold{HoldKind::clearance_not_known, "clearance/not_known"};
        hold.subject = clearance_check;
        add(std::move(hold), who);
    }
    add_clearance_checks(who);
    add_clearances_without_doubt(who);
    add_checks("rod_clearance", who);
}

/// Asked for together: the doubt of an engine is stated once.
void HoldFinder::add_clearances_without_doubt(const Waiting& who) {
    Hold hold{HoldKind::clearance_no_doubt, "clearance/no_doubt"};
    hold.subject = clearance_check;
    for (const ClearanceStanding& valve :
         facts_.clearances.value_or(std::vector<ClearanceStanding>())) {
        if (valve.verdict == Verdict::no_doubt_given) {
            hold.positions.push_back(valve.position);
        }
    }
    if (!hold.positions.empty()) {
        add(std::move(hold), who);
    }
}

void HoldFinder::add_clearance_checks(const Waiting& who) {
    add_stale(clearance_check, who);
    if (!facts_.clearances) {
        return;
    }
    for (const ClearanceStanding& valve : *facts_.clearances) {
        const std::string place = "/clearance/" + valve.position;
        Hold hold;
        if (!valve.verdict) {
            hold.kind = HoldKind::clearance_no_answer;
            hold.key = "no_answer" + place;
        } else if (*valve.verdict == Verdict::contact) {
            hold.kind = HoldKind::contact;
            hold.key = "contact" + place;
        } else if (*valve.verdict == Verdict::failed) {
            hold.kind = HoldKind::check_failed;
            hold.key = "failed" + place + '/' + micron_text(valve.clearance_mm);
        } else if (*valve.verdict == Verdict::too_close_to_call) {
            hold.kind = HoldKind::check_too_close;
            hold.key = "too_close" + place + '/' + micron_text(valve.clearance_mm);
        } else {
            continue;
        }
        hold.subject = clearance_check;
        hold.positions = {valve.position};
        if (valve.clearance_mm) {
            hold.value = mm_text(*valve.clearance_mm);
            hold.limit = ">= " + mm_text(valve.limit_mm);
        }
        add(std::move(hold), who);
    }
}

bool HoldFinder::is_replaced(const PartRecord& part) const {
    return std::any_of(records_.parts.begin(), records_.parts.end(), [&](const PartRecord& other) {
        return other.id != part.id && other.replaces_id == part.id && !other.returned;
    });
}

void HoldFinder::add_role(const std::string& role, bool to_be_fitted, const Waiting& who) {
    bool listed = false;
    for (const PartRecord& part : records_.parts) {
        if (part.role == role && !part.returned) {
            listed = true;
            add_part(part, to_be_fitted, who);
        }
    }
    if (listed) {
        return;
    }
    Hold hold{HoldKind::part_awaited, "role/" + role + "/not_listed"};
    hold.subject = role;
    hold.wait = PartWait::not_listed;
    add(std::move(hold), who);
}

void HoldFinder::add_part(const PartRecord& part, bool to_be_fitted, const Waiting& who) {
    const auto wait = part_wait(part, facts_.today);
    if (!wait || is_replaced(part) || *wait == PartWait::temporary ||
        (*wait == PartWait::not_fitted && !to_be_fitted)) {
        return;
    }
    Hold hold{HoldKind::part_awaited,
              key_of("part", part.id) + '/' + std::string(wait_word(*wait))};
    hold.record = RecordRef{RecordKind::part, part.id};
    hold.step_id = part.step_id;
    hold.subject = part.item;
    hold.positions = positions_in(part.position);
    hold.wait = wait;
    if (is_to_come(*wait)) {
        hold.until = part.promised;
    }
    add(std::move(hold), who);
}

void HoldFinder::add_cure(const Cure& cure, const Waiting& who) {
    const CureState state = cure_state(cure, facts_.now_utc);
    if (!state.is_running()) {
        return;
    }
    Hold hold{HoldKind::cure_running, key_of("cure", cure.id)};
    hold.record = RecordRef{RecordKind::cure, cure.id};
    hold.step_id = cure.step_id;
    hold.subject = cure.place;
    hold.until = state.full_at;
    add(std::move(hold), who);
}

void HoldFinder::add_item(const OpenItem& item, const Waiting& who) {
    if (item.closed_at) {
        return;
    }
    Hold hold{HoldKind::open_item, key_of("open_item", item.id)};
    hold.record = RecordRef{RecordKind::open_item, item.id};
    hold.step_id = item.step_id;
    hold.subject = item.title;
    hold.positions = positions_in(item.position);
    hold.until = item.due;
    add(std::move(hold), who);
}

void HoldFinder::add_items(OpenItemKind kind, const Waiting& who) {
    for (const OpenItem& item : records_.open_items) {
        if (item.kind == kind) {
            add_item(item, who);
        }
    }
    if (kind != OpenItemKind::temporary_part) {
        return;
    }
    for (const PartRecord& part : records_.parts) {
        if (part_wait(part, facts_.today) != PartWait::temporary || is_replaced(part)) {
            continue;
        }
        Hold hold{HoldKind::part_awaited, key_of("part", part.id) + "/temporary"};
        hold.record = RecordRef{RecordKind::part, part.id};
        hold.subject = part.item;
        hold.positions = positions_in(part.position);
        hold.wait = PartWait::temporary;
        add(std::move(hold), who);
    }
}

void HoldFinder::add_approvals(const Waiting& who) {
    for (const Approval& approval : records_.approvals) {
        if (approval.answer != ApprovalAnswer::asked) {
            continue;
        }
        Hold hold{HoldKind::decision_pending, key_of("approval", approval.id)};
        hold.record = RecordRef{RecordKind::approval, approval.id};
        hold.subject = approval.subject;
        add(std::move(hold), who);
    }
}

void HoldFinder::add_rest() {
    const Waiting nobody;
    for (const SheetStanding& standing : facts_.sheets) {
        add_checks(standing.kind, nobody);
    }
    add_clearance_checks(nobody);
    for (const PartRecord& part : records_.parts) {
        add_part(part, false, nobody);
    }
    for (const Cure& cure : records_.cures) {
        add_cure(cure, nobody);
    }
    add_approvals(nobody);
}

void HoldFinder::add(Hold hold, const Waiting& who) {
    if (!keys_.insert(hold.key).second) {
        return;
    }
    hold.stage_id = who.stage_id;
    hold.gate_id = who.gate_id;
    if (who.step_id) {
        hold.step_id = who.step_id;
    }
    holds_.push_back(std::move(hold));
}

std::vector<Hold> HoldFinder::take() {
    std::stable_sort(holds_.begin(), holds_.end(),
                     [](const Hold& a, const Hold& b) { return a.kind < b.kind; });
    return std::move(holds_);
}

std::vector<Hold> all_holds(const HoldFacts& facts) {
    std::vector<Hold> all;
    HoldFinder rest(facts);
    for (const Stage& stage : facts.records.stages) {
        HoldFinder of_stage(facts);
        of_stage.add_stage(stage);
        for (Hold& hold : of_stage.take()) {
            all.push_back(std::move(hold));
        }
    }
    rest.add_rest();
    for (Hold& hold : rest.take()) {
        const bool taken = std::any_of(all.begin(), all.end(),
                                       [&](const Hold& one) { return one.key == hold.key; });
        if (!taken) {
            all.push_back(std::move(hold));
        }
    }
    return all;
}

} // namespace rodway
