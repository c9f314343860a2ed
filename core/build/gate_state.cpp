#include "core/build/gate_state.h"

#include <algorithm>
#include <iterator>
#include <set>
#include <string>

#include "core/build/hold_finder.h"

namespace rodway {
namespace {

bool none_stands(const std::vector<Hold>& holds) {
    return std::none_of(holds.begin(), holds.end(), [](const Hold& hold) { return hold.stands(); });
}

/// Sorts a stage's holds to its gates, and keeps account of which have a place.
class HoldSorter {
  public:
    explicit HoldSorter(std::vector<Hold> holds) : holds_(std::move(holds)) {}

    /// Those that a need waits for. All of them hold the stage, so that each is there, its waiver
    /// with it.
    std::vector<Hold> of_need(const HoldFacts& facts, const Gate& gate, const Need& need) {
        HoldFinder finder(facts);
        finder.add_need_of(gate, need);
        std::set<std::string> keys;
        for (const Hold& hold : finder.take()) {
            keys.insert(hold.key);
        }
        return placed([&](const Hold& hold) { return keys.contains(hold.key); });
    }

    /// What the gate waits for by itself.
    std::vector<Hold> of_gate(const Gate& gate) {
        return placed([&](const Hold& hold) {
            return hold.gate_id == gate.id && !placed_.contains(hold.key);
        });
    }

    [[nodiscard]] std::vector<Hold> rest() const {
        std::vector<Hold> rest = holds_;
        std::erase_if(rest, [&](const Hold& hold) { return placed_.contains(hold.key); });
        return rest;
    }

  private:
    template <typename Wanted>
    std::vector<Hold> placed(const Wanted& wanted) {
        std::vector<Hold> found;
        std::copy_if(holds_.begin(), holds_.end(), std::back_inserter(found), wanted);
        for (const Hold& hold : found) {
            placed_.insert(hold.key);
        }
        return found;
    }

    std::vector<Hold> holds_;
    std::set<std::string> placed_;
};

} // namespace

bool NeedState::met() const {
    return none_stands(holds);
}

bool GateState::met() const {
    return needs && none_stands(others) &&
           std::all_of(needs->begin(), needs->end(),
                       [](const NeedState& need) { return need.met(); });
}

StageGates stage_gates(const HoldFacts& facts, std::int64_t stage_id) {
    HoldSorter sorter(holds_of_stage(facts, stage_id).holds);
    StageGates answer;
    for (const Gate& gate : facts.records.gates) {
        if (gate.stage_id != stage_id) {
            continue;
        }
        GateState state;
        state.gate_id = gate.id;
        const auto needs =
            gate.needs ? parse_needs(*gate.needs) : Result<std::vector<Need>>(std::vector<Need>());
        if (needs) {
            state.needs.emplace();
            for (const Need& need : *needs) {
                state.needs->push_back({need, sorter.of_need(facts, gate, need)});
            }
        }
        answer.gates.push_back(std::move(state));
    }
    // After the needs of all gates: what two of them wait for isn't a gate's own.
    for (GateState& state : answer.gates) {
        const auto gate = std::find_if(facts.records.gates.begin(), facts.records.gates.end(),
                                       [&](const Gate& one) { return one.id == state.gate_id; });
        state.others = sorter.of_gate(*gate);
    }
    answer.others = sorter.rest();
    return answer;
}

} // namespace rodway
