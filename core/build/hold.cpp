#include "core/build/hold.h"

#include <algorithm>
#include <set>
#include <string_view>

#include "core/build/hold_finder.h"
#include "core/build/stage_state.h"

namespace rodway {
namespace {

constexpr std::string_view contact_key = "contact/";

/// The waiver that counts for a hold: of those in force the newest.
const Waiver* waiver_for(const Hold& hold, const HoldFacts& facts) {
    const Waiver* counts = nullptr;
    for (const Waiver& waiver : facts.records.waivers) {
        const bool in_force = !waiver.until || *waiver.until >= facts.today;
        if (hold.may_be_waived() && in_force && waiver.hold == hold.key &&
            (counts == nullptr || waiver.waived_at >= counts->waived_at)) {
            counts = &waiver;
        }
    }
    return counts;
}

void put_waivers_to(std::vector<Hold>& holds, const HoldFacts& facts) {
    for (Hold& hold : holds) {
        if (const Waiver* waiver = waiver_for(hold, facts)) {
            hold.waived = HoldWaiver{waiver->id, waiver->waived_by, waiver->waived_at,
                                     waiver->reason, waiver->until};
        }
    }
}

std::vector<NeglectedWaiver> neglected_among(const std::vector<Hold>& holds,
                                             const HoldFacts& facts) {
    std::vector<NeglectedWaiver> neglected;
    for (const Waiver& waiver : facts.records.waivers) {
        const auto held = std::find_if(holds.begin(), holds.end(),
                                       [&](const Hold& one) { return one.key == waiver.hold; });
        if (waiver.hold && std::string_view(*waiver.hold).starts_with(contact_key)) {
            neglected.push_back({waiver.id, WaiverNeglect::of_contact});
        } else if (held == holds.end()) {
            neglected.push_back({waiver.id, WaiverNeglect::holds_nothing});
        } else if (waiver.until && *waiver.until < facts.today) {
            neglected.push_back({waiver.id, WaiverNeglect::expired});
        }
    }
    std::sort(neglected.begin(), neglected.end(),
              [](const auto& a, const auto& b) { return a.waiver_id < b.waiver_id; });
    return neglected;
}

/// What is merely still to come, and holds nobody up before its stage has begun.
bool has_not_begun(const Hold& hold) {
    return hold.kind == HoldKind::step_open || hold.kind == HoldKind::sheet_missing ||
           hold.kind == HoldKind::sheet_incomplete || hold.kind == HoldKind::clearance_not_known ||
           hold.kind == HoldKind::clearance_no_doubt || hold.kind == HoldKind::needs_not_readable ||
           (hold.kind == HoldKind::part_awaited &&
            (hold.wait == PartWait::not_listed || hold.wait == PartWait::not_fitted));
}

} // namespace

Holds holds_of_stage(const HoldFacts& facts, std::int64_t stage_id) {
    Holds answer;
    std::vector<Hold> all = all_holds(facts);
    answer.neglected = neglected_among(all, facts);
    std::erase_if(all, [&](const Hold& hold) { return hold.stage_id != stage_id; });
    answer.holds = std::move(all);
    put_waivers_to(answer.holds, facts);
    return answer;
}

Holds holds_of_build(const HoldFacts& facts) {
    Holds answer;
    answer.holds = all_holds(facts);
    answer.neglected = neglected_among(answer.holds, facts);
    const auto in_hand = stage_in_hand(facts);
    std::set<std::int64_t> behind;
    bool is_behind = false;
    for (const Stage& stage : facts.records.stages) {
        if (is_behind) {
            behind.insert(stage.id);
        }
        is_behind = is_behind || stage.id == in_hand;
    }
    std::set<std::string> keys;
    std::erase_if(answer.holds, [&](const Hold& hold) {
        const bool to_come = hold.stage_id && behind.contains(*hold.stage_id);
        return (to_come && has_not_begun(hold)) || !keys.insert(hold.key).second;
    });
    put_waivers_to(answer.holds, facts);
    return answer;
}

} // namespace rodway
