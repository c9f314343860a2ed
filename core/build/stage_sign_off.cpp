#include "core/build/stage_sign_off.h"

#include <algorithm>
#include <cmath>

#include "core/build/need.h"
#include "core/build/word_list.h"
#include "core/units/typed_text.h"

namespace rodway {
namespace {

std::string_view verdict_word(SheetVerdict verdict) {
    switch (verdict) {
        case SheetVerdict::no_limit:
            return "no_limit";
        case SheetVerdict::no_number:
            return "no_number";
        case SheetVerdict::passed:
            return "passed";
        case SheetVerdict::serviceable:
            return "serviceable";
        case SheetVerdict::too_close:
            return "too_close";
        case SheetVerdict::failed:
            return "failed";
    }
    return {};
}

std::string_view verdict_word(const std::optional<Verdict>& verdict) {
    if (!verdict) {
        return "no_answer";
    }
    switch (*verdict) {
        case Verdict::passed:
        case Verdict::passed_little_room:
        case Verdict::passed_for_now:
            return "passed";
        case Verdict::too_close_to_call:
            return "too_close";
        case Verdict::failed:
            return "failed";
        case Verdict::contact:
            return "contact";
        case Verdict::no_doubt_given:
            return "no_doubt_given";
    }
    return {};
}

std::string mm_text(double mm) {
    constexpr double steps = 1e4;
    return exact_text(std::round(mm * steps) / steps) + " mm";
}

/// What checks said, line by line.
class FrozenChecks {
  public:
    void add_sheet(const SheetStanding& sheet) {
        for (const CheckedBox& box : sheet.boxes) {
            const std::string place =
                box.position.empty() ? box.quantity : box.quantity + ' ' + box.position;
            const std::string value = box.value.empty() ? std::string() : ' ' + box.value + ',';
            add(place + ':' + value + ' ' + std::string(verdict_word(box.verdict)), box.limit,
                box.limit_source);
        }
    }
    void add_clearance(const ClearanceStanding& valve) {
        std::string value;
        if (valve.clearance_mm) {
            value = ' ' + mm_text(*valve.clearance_mm) +
                    (valve.doubt_mm ? " +/- " + mm_text(*valve.doubt_mm) : std::string()) + ',';
        }
        add("clearance " + valve.position + ':' + value + ' ' +
                std::string(verdict_word(valve.verdict)),
            ">= " + mm_text(valve.limit_mm), {});
    }
    void put_into(SignOff& sign_off) const {
        if (!values_.empty()) {
            sign_off.value = joined(values_, "\n");
            sign_off.limit_text = joined(limits_, "\n");
            sign_off.limit_source = joined(sources_, "\n");
        }
    }

  private:
    void add(std::string value, const std::string& limit, const std::string& source) {
        values_.push_back(std::move(value));
        limits_.push_back(limit.empty() ? "-" : limit);
        sources_.push_back(source.empty() ? "-" : source);
    }

    std::vector<std::string> values_;
    std::vector<std::string> limits_;
    std::vector<std::string> sources_;
};

void freeze_sheet(const HoldFacts& facts, std::string_view kind, FrozenChecks& frozen) {
    for (const SheetStanding& sheet : facts.sheets) {
        if (sheet.kind == kind) {
            frozen.add_sheet(sheet);
        }
    }
}

void freeze(const HoldFacts& facts, const Gate& gate, FrozenChecks& frozen) {
    const auto needs = gate.needs ? parse_needs(*gate.needs) : Result<std::vector<Need>>(Error{});
    if (!needs) {
        return;
    }
    for (const Need& need : *needs) {
        for (const std::string& kind : need.sheets) {
            freeze_sheet(facts, kind, frozen);
        }
        if (need.kind == NeedKind::clearance) {
            for (const ClearanceStanding& valve :
                 facts.clearances.value_or(std::vector<ClearanceStanding>())) {
                frozen.add_clearance(valve);
            }
            freeze_sheet(facts, "rod_clearance", frozen);
        }
    }
}

std::string keys_of(const std::vector<Hold>& holds, std::string_view between) {
    std::vector<std::string> keys;
    for (const Hold& hold : holds) {
        keys.push_back(hold.key);
    }
    return joined(keys, between);
}

SignOff begun_by(const Signature& signature, std::int64_t build_id,
                 const std::vector<Hold>& waived) {
    SignOff sign_off;
    sign_off.build_id = build_id;
    sign_off.verdict = waived.empty() ? "passed" : "waived";
    sign_off.program_version = signature.program_version;
    sign_off.signed_by = signature.by;
    sign_off.signed_at = signature.at;
    sign_off.note = signature.note;
    if (!waived.empty()) {
        sign_off.note =
            (signature.note ? *signature.note + '\n' : std::string()) + keys_of(waived, "\n");
    }
    return sign_off;
}

} // namespace

SignOffAnswer may_sign_off(const HoldFacts& facts, std::int64_t stage_id) {
    SignOffAnswer answer;
    for (Hold& hold : holds_of_stage(facts, stage_id).holds) {
        (hold.stands() ? answer.standing : answer.waived).push_back(std::move(hold));
    }
    answer.may = answer.standing.empty();
    return answer;
}

Result<std::vector<SignOff>> sign_offs_to_keep(const HoldFacts& facts, std::int64_t stage_id,
                                               const Signature& signature) {
    const auto& stages = facts.records.stages;
    const auto stage = std::find_if(stages.begin(), stages.end(),
                                    [&](const Stage& one) { return one.id == stage_id; });
    if (stage == stages.end()) {
        return Error{ErrorCode::no_such_record, "stage", std::to_string(stage_id), {}, {}, {}};
    }
    const SignOffAnswer answer = may_sign_off(facts, stage_id);
    if (!answer.may) {
        return Error{ErrorCode::not_of_this_kind,
                     "holds",
                     keys_of(answer.standing, ", "),
                     "held_up",
                     {},
                     {}};
    }
    std::vector<SignOff> records;
    for (const Gate& gate : facts.records.gates) {
        if (gate.stage_id != stage_id) {
            continue;
        }
        std::vector<Hold> waived;
        std::copy_if(answer.waived.begin(), answer.waived.end(), std::back_inserter(waived),
                     [&](const Hold& hold) { return hold.gate_id == gate.id; });
        SignOff sign_off = begun_by(signature, facts.records.build.id, waived);
        sign_off.gate_id = gate.id;
        sign_off.subject = gate.title;
        FrozenChecks frozen;
        freeze(facts, gate, frozen);
        frozen.put_into(sign_off);
        records.push_back(std::move(sign_off));
    }
    SignOff whole = begun_by(signature, facts.records.build.id, answer.waived);
    whole.stage_id = stage_id;
    whole.subject = stage->title;
    records.push_back(std::move(whole));
    return records;
}

std::vector<SignOff> sign_offs_of_stage(const BuildFacts& records, std::int64_t stage_id) {
    const SignOff* newest = nullptr;
    for (const SignOff& one : records.sign_offs) {
        if (one.stage_id == stage_id && !one.gate_id && !one.withdrawn_at &&
            (newest == nullptr || one.id > newest->id)) {
            newest = &one;
        }
    }
    std::vector<SignOff> found;
    if (newest == nullptr) {
        return found;
    }
    for (const SignOff& one : records.sign_offs) {
        const bool of_stage =
            one.gate_id &&
            std::any_of(records.gates.begin(), records.gates.end(), [&](const Gate& g) {
                return g.id == *one.gate_id && g.stage_id == stage_id;
            });
        if (of_stage && !one.withdrawn_at && one.signed_at == newest->signed_at) {
            found.push_back(one);
        }
    }
    found.push_back(*newest);
    return found;
}

Result<Waiver> waiver_of(const Holds& holds, std::string_view key, std::string_view reason) {
    const auto found = std::find_if(holds.holds.begin(), holds.holds.end(),
                                    [&](const Hold& hold) { return hold.key == key; });
    if (found == holds.holds.end()) {
        std::vector<Hold> others;
        std::copy_if(holds.holds.begin(), holds.holds.end(), std::back_inserter(others),
                     [](const Hold& hold) { return hold.may_be_waived() && hold.stands(); });
        return Error{ErrorCode::no_such_record, "hold", std::string(key),
                     keys_of(others, ", "),     {},     {}};
    }
    if (!found->may_be_waived()) {
        return Error{ErrorCode::not_of_this_kind, "hold", std::string(key), "contact", {}, {}};
    }
    if (without_blanks(reason).empty()) {
        return Error{ErrorCode::empty_text, "reason", {}, {}, {}, {}};
    }
    Waiver waiver;
    waiver.gate_id = found->gate_id;
    waiver.subject = found->subject.empty() ? found->key : found->subject;
    waiver.reason = without_blanks(reason);
    waiver.hold = found->key;
    return waiver;
}

} // namespace rodway
