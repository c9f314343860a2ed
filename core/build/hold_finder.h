#pragma once

#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "core/build/hold.h"
#include "core/build/need.h"

namespace rodway {

/// Gathers the holds of one stage, or of no stage in particular: each key once.
class HoldFinder {
  public:
    explicit HoldFinder(const HoldFacts& facts) : facts_(facts), records_(facts.records) {}

    /// All of one stage.
    void add_stage(const Stage& stage);
    /// What one of a gate's needs waits for.
    void add_need_of(const Gate& gate, const Need& need);
    /// What no stage has taken: checks that stand badly, parts, cures, questions.
    void add_rest();

    /// By stage and kind.
    [[nodiscard]] std::vector<Hold> take();

  private:
    /// For whom a thing is waited.
    struct Waiting {
        std::optional<std::int64_t> stage_id = {};
        std::optional<std::int64_t> gate_id = {};
        std::optional<std::int64_t> step_id = {};
    };

    void add_gate(const Gate& gate);
    void add_need(const Need& need, const Waiting& who);
    void add_step(const Step& step, const Waiting& who);
    void add_steps(const Waiting& who);
    void add_cures(const Waiting& who);
    void add_sheet(std::string_view kind, const Waiting& who);
    void add_checks(std::string_view kind, const Waiting& who);
    void add_stale(std::string_view kind, const Waiting& who);
    void add_clearance(const Waiting& who);
    void add_clearance_checks(const Waiting& who);
    void add_clearances_without_doubt(const Waiting& who);
    void add_role(const std::string& role, bool to_be_fitted, const Waiting& who);
    void add_part(const PartRecord& part, bool to_be_fitted, const Waiting& who);
    void add_cure(const Cure& cure, const Waiting& who);
    void add_item(const OpenItem& item, const Waiting& who);
    void add_items(OpenItemKind kind, const Waiting& who);
    void add_approvals(const Waiting& who);
    void add(Hold hold, const Waiting& who);

    [[nodiscard]] const SheetStanding* sheet(std::string_view kind) const;
    /// Whether another part of the build has come in its place, or is to.
    [[nodiscard]] bool is_replaced(const PartRecord& part) const;

    const HoldFacts& facts_;
    const BuildFacts& records_;
    std::set<std::string, std::less<>> keys_;
    std::vector<Hold> holds_;
};

/// Every hold of the build, by stage and kind, without regard to waivers or to the stage in hand.
[[nodiscard]] std::vector<Hold> all_holds(const HoldFacts& facts);

/// Whether a step is ticked, or left out.
[[nodiscard]] bool is_done(const Step& step);

} // namespace rodway
