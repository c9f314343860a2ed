#include "core/build/build_facts.h"

#include <algorithm>
#include <map>
#include <set>

#include "core/build/need.h"

namespace rodway {
namespace {

/// The act that made each sign-off.
std::map<std::int64_t, const BuildChange*> makers_of_sign_offs(
    const std::vector<BuildChange>& changes) {
    std::map<std::int64_t, const BuildChange*> makers;
    for (const BuildChange& change : changes) {
        if (change.edit.record.kind == RecordKind::sign_off && change.edit.field == "exists" &&
            change.edit.after) {
            makers[change.edit.record.id] = &change;
        }
    }
    return makers;
}

/// The checks that a gate waits for, as made by its sign-off.
std::vector<MadeCheck> checks_signed(const Gate& gate, const BuildChange& by) {
    std::vector<MadeCheck> checks;
    const auto needs = gate.needs ? parse_needs(*gate.needs) : Result<std::vector<Need>>(Error{});
    if (!needs) {
        return checks;
    }
    const auto add = [&](std::string_view kind) {
        checks.push_back({std::string(kind), {}, {}, by.act, by.when_utc});
    };
    for (const Need& need : *needs) {
        if (need.kind == NeedKind::clearance) {
            add(clearance_check);
            add("rod_clearance");
        }
        for (const std::string& kind : need.sheets) {
            add(kind);
        }
    }
    return checks;
}

/// Ids of a stage's gates.
std::set<std::int64_t> gates_of(const BuildFacts& records, std::int64_t stage_id) {
    std::set<std::int64_t> gates;
    for (const Gate& gate : records.gates) {
        if (gate.stage_id == stage_id) {
            gates.insert(gate.id);
        }
    }
    return gates;
}

} // namespace

std::vector<std::int64_t> overtaken_sign_offs(const BuildFacts& records,
                                              const BuildTimeline& timeline) {
    const auto makers = makers_of_sign_offs(records.changes);
    std::vector<MadeCheck> checks;
    std::vector<std::int64_t> signed_by; // the sign-off of each of `checks`
    for (const SignOff& sign_off : records.sign_offs) {
        const auto gate = std::find_if(records.gates.begin(), records.gates.end(),
                                       [&](const Gate& one) { return sign_off.gate_id == one.id; });
        const auto maker = makers.find(sign_off.id);
        if (gate == records.gates.end() || maker == makers.end() || sign_off.withdrawn_at) {
            continue;
        }
        for (MadeCheck& check : checks_signed(*gate, *maker->second)) {
            checks.push_back(std::move(check));
            signed_by.push_back(sign_off.id);
        }
    }
    const auto stale = stale_checks(checks, timeline);
    std::vector<std::int64_t> overtaken;
    for (std::size_t which = 0; which < checks.size(); ++which) {
        const bool is_stale = std::any_of(stale.begin(), stale.end(), [&](const StaleCheck& one) {
            return one.check.kind == checks[which].kind && one.check.act == checks[which].act;
        });
        if (is_stale && (overtaken.empty() || overtaken.back() != signed_by[which])) {
            overtaken.push_back(signed_by[which]);
        }
    }
    for (const SignOff& sign_off : records.sign_offs) {
        if (!sign_off.stage_id || sign_off.gate_id || sign_off.withdrawn_at) {
            continue;
        }
        const auto of_stage = gates_of(records, *sign_off.stage_id);
        const bool with_a_gate = std::any_of(
            records.sign_offs.begin(), records.sign_offs.end(), [&](const SignOff& one) {
                return one.gate_id && of_stage.contains(*one.gate_id) &&
                       one.signed_at == sign_off.signed_at &&
                       std::find(overtaken.begin(), overtaken.end(), one.id) != overtaken.end();
            });
        if (with_a_gate) {
            overtaken.push_back(sign_off.id);
        }
    }
    std::sort(overtaken.begin(), overtaken.end());
    return overtaken;
}

HoldFacts hold_facts(BuildFacts records, std::vector<SheetStanding> sheets,
                     std::optional<std::vector<ClearanceStanding>> clearances, std::string now_utc,
                     std::string today) {
    HoldFacts facts;
    const BuildTimeline timeline(records.changes);
    std::vector<MadeCheck> checks = checks_made(timeline);
    for (MadeCheck& check : clearance_checks_made(timeline)) {
        checks.push_back(std::move(check));
    }
    facts.stale = stale_checks(checks, timeline);
    facts.overtaken = overtaken_sign_offs(records, timeline);
    facts.records = std::move(records);
    facts.sheets = std::move(sheets);
    facts.clearances = std::move(clearances);
    facts.now_utc = std::move(now_utc);
    facts.today = std::move(today);
    return facts;
}

} // namespace rodway
