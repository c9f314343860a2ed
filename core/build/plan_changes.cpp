#include "core/build/plan_changes.h"

#include <algorithm>
#include <tuple>
#include <utility>

#include "core/build/part_role.h"

namespace rodway {
namespace {

using NamedTexts = std::vector<std::pair<const char*, std::optional<std::string>>>;

NamedTexts texts_of(const Stage& stage) {
    return {{"title", stage.title}, {"caution", stage.caution}};
}
NamedTexts texts_of(const Step& step) {
    return {{"title", step.title},
            {"detail", step.detail},
            {"caution", step.caution},
            {"sheet_kind", step.sheet_kind},
            {"part_roles", step.part_roles}};
}
NamedTexts texts_of(const Gate& gate) {
    return {{"title", gate.title}, {"needs", gate.needs}};
}

void put(const PlannedStage& planned, Stage& stage) {
    stage.title = planned.title;
    stage.caution = planned.caution;
}
void put(const PlannedStep& planned, Step& step) {
    step.title = planned.title;
    step.detail = planned.detail;
    step.caution = planned.caution;
    step.sheet_kind = planned.sheet;
    step.part_roles =
        planned.roles.empty() ? std::nullopt : std::optional(part_roles_text(planned.roles));
}
void put(const PlannedGate& planned, Gate& gate) {
    gate.title = planned.title;
    gate.needs = planned.needs.empty() ? std::nullopt : std::optional(needs_text(planned.needs));
}

RecordKind kind_of(const Stage&) {
    return RecordKind::stage;
}
RecordKind kind_of(const Step&) {
    return RecordKind::step;
}
RecordKind kind_of(const Gate&) {
    return RecordKind::gate;
}

/// The id by which the plan knows what the record came from; empty if it came from elsewhere.
template <typename Record>
std::string id_in(const StagePlan& plan, const Record& record) {
    const std::string start = plan_item(plan, "");
    const std::string item = record.plan_item.value_or("");
    return item.compare(0, start.size(), start) == 0 ? item.substr(start.size()) : std::string();
}

template <typename Record>
void put_in_order(std::vector<Record>& list) {
    std::sort(list.begin(), list.end(), [](const Record& a, const Record& b) {
        return std::tie(a.ordinal, a.id) < std::tie(b.ordinal, b.id);
    });
}

template <typename Record>
std::vector<Record> of_stage(const std::vector<Record>& list, std::int64_t stage_id) {
    std::vector<Record> those;
    std::copy_if(list.begin(), list.end(), std::back_inserter(those),
                 [&](const Record& record) { return record.stage_id == stage_id; });
    put_in_order(those);
    return those;
}

template <typename Item>
const Item* called(const std::vector<Item>& items, const std::string& id) {
    const auto found =
        std::find_if(items.begin(), items.end(), [&](const Item& item) { return item.id == id; });
    return found == items.end() ? nullptr : &*found;
}

/// Of records and what a plan has in their place, which goes with which: the record's place in
/// `have` for each of `wanted`, the first if there are several.
template <typename Record, typename Planned>
std::vector<std::optional<std::size_t>> places(const StagePlan& plan,
                                               const std::vector<Record>& have,
                                               const std::vector<Planned>& wanted) {
    std::vector<std::optional<std::size_t>> found;
    for (const Planned& planned : wanted) {
        const auto at = std::find_if(have.begin(), have.end(), [&](const Record& record) {
            return id_in(plan, record) == planned.id;
        });
        found.push_back(at == have.end()
                            ? std::nullopt
                            : std::optional(static_cast<std::size_t>(at - have.begin())));
    }
    return found;
}

/// Which of the places must be left so that the others rise: as few as possible.
std::vector<bool> out_of_order(const std::vector<std::optional<std::size_t>>& at) {
    std::vector<std::size_t> length(at.size(), 0);
    std::vector<std::optional<std::size_t>> before(at.size());
    std::optional<std::size_t> last;
    for (std::size_t here = 0; here < at.size(); ++here) {
        if (!at[here]) {
            continue;
        }
        length[here] = 1;
        for (std::size_t earlier = 0; earlier < here; ++earlier) {
            if (at[earlier] && *at[earlier] < *at[here] && length[earlier] >= length[here]) {
                length[here] = length[earlier] + 1;
                before[here] = earlier;
            }
        }
        if (!last || length[here] > length[*last]) {
            last = here;
        }
    }
    std::vector<bool> moved(at.size());
    for (std::size_t here = 0; here < at.size(); ++here) {
        moved[here] = at[here].has_value();
    }
    for (; last; last = before[*last]) {
        moved[*last] = false;
    }
    return moved;
}

template <typename Record, typename Planned>
std::vector<PlanFieldChange> differing(const Record& record, const Planned& planned) {
    Record as_planned = record;
    put(planned, as_planned);
    const NamedTexts before = texts_of(record);
    const NamedTexts now = texts_of(as_planned);
    std::vector<PlanFieldChange> fields;
    for (std::size_t which = 0; which < before.size(); ++which) {
        if (before[which].second != now[which].second) {
            fields.push_back({before[which].first, before[which].second, now[which].second});
        }
    }
    return fields;
}

/// Changes of the items that the plan has, one list for each of `wanted`, empty or of one.
template <typename Record, typename Planned>
std::vector<std::vector<PlanChange>> compared(const StagePlan& plan, const std::string& stage,
                                              const std::vector<Record>& have,
                                              const std::vector<Planned>& wanted) {
    const auto at = places(plan, have, wanted);
    const std::vector<bool> moved = out_of_order(at);
    std::vector<std::vector<PlanChange>> all(wanted.size());
    for (std::size_t which = 0; which < wanted.size(); ++which) {
        const Planned& planned = wanted[which];
        PlanChange change{PlanChangeKind::added, kind_of(Record{}), planned.id,
                          stage.empty() ? planned.id : stage, planned.title};
        if (at[which]) {
            const Record& record = have[*at[which]];
            change.kind = PlanChangeKind::changed;
            change.record_id = record.id;
            change.fields = differing(record, planned);
            if (moved[which]) {
                PlanFieldChange order{"after", std::nullopt, std::nullopt};
                if (*at[which] > 0) {
                    order.before = have[*at[which] - 1].title;
                }
                if (which > 0) {
                    order.now = wanted[which - 1].title;
                }
                change.fields.push_back(order);
            }
        }
        if (!at[which] || !change.fields.empty()) {
            all[which].push_back(change);
        }
    }
    return all;
}

bool may_go(const Step& step) {
    return !step.ticked_at && !step.not_needed;
}
bool may_go(const Gate&) {
    return true;
}

/// Those that came from this plan, and that `wanted` has no more.
template <typename Record, typename Planned>
std::vector<PlanChange> gone_from(const StagePlan& plan, const std::string& stage,
                                  const std::vector<Record>& have,
                                  const std::vector<Planned>& wanted) {
    std::vector<PlanChange> gone;
    for (const Record& record : have) {
        const std::string id = id_in(plan, record);
        if (!id.empty() && called(wanted, id) == nullptr && may_go(record)) {
            gone.push_back(
                {PlanChangeKind::gone, kind_of(record), id, stage, record.title, record.id});
        }
    }
    return gone;
}

void append(std::vector<PlanChange>& all, std::vector<PlanChange> more) {
    all.insert(all.end(), std::make_move_iterator(more.begin()),
               std::make_move_iterator(more.end()));
}

std::string title_of_stage(const StagePlan& plan, const std::vector<Stage>& stages,
                           const std::string& id) {
    if (const PlannedStage* planned = called(plan.stages, id)) {
        return planned->title;
    }
    const auto found = std::find_if(stages.begin(), stages.end(),
                                    [&](const Stage& stage) { return id_in(plan, stage) == id; });
    return found == stages.end() ? std::string() : found->title;
}

/// What is gone of one stage of the build: what stands in it, then the stage.
std::vector<PlanChange> gone_of(const PlanInBuild& build, const StagePlan& plan,
                                const Stage& stage) {
    const std::string id = id_in(plan, stage);
    const PlannedStage* planned = called(plan.stages, id);
    const PlannedStage none;
    const PlannedStage& wanted = planned != nullptr ? *planned : none;
    const auto steps = of_stage(build.steps, stage.id);
    const auto gates = of_stage(build.gates, stage.id);
    std::vector<PlanChange> gone = gone_from(plan, id, steps, wanted.steps);
    append(gone, gone_from(plan, id, gates, wanted.gates));
    if (planned == nullptr && gone.size() == steps.size() + gates.size()) {
        gone.push_back({PlanChangeKind::gone, RecordKind::stage, id, id, stage.title, stage.id});
    }
    return gone;
}

} // namespace

std::vector<PlanChange> plan_changes(const PlanInBuild& build, const StagePlan& plan) {
    std::vector<Stage> stages = build.stages;
    put_in_order(stages);
    std::vector<PlanChange> changes;
    const auto stage_changes = compared(plan, "", stages, plan.stages);
    const auto at = places(plan, stages, plan.stages);
    for (std::size_t which = 0; which < plan.stages.size(); ++which) {
        const PlannedStage& planned = plan.stages[which];
        // A stage that isn't there has nothing in it.
        const std::int64_t id = at[which] ? stages[*at[which]].id : 0;
        const auto steps = at[which] ? of_stage(build.steps, id) : std::vector<Step>();
        const auto gates = at[which] ? of_stage(build.gates, id) : std::vector<Gate>();
        append(changes, stage_changes[which]);
        for (auto& change : compared(plan, planned.id, steps, planned.steps)) {
            append(changes, std::move(change));
        }
        for (auto& change : compared(plan, planned.id, gates, planned.gates)) {
            append(changes, std::move(change));
        }
    }
    for (const Stage& stage : stages) {
        if (!id_in(plan, stage).empty()) {
            append(changes, gone_of(build, plan, stage));
        }
    }
    for (PlanChange& change : changes) {
        change.stage_title = title_of_stage(plan, stages, change.stage);
    }
    return changes;
}

namespace {

/// Takes chosen changes over, one list of siblings after the other.
class Taking {
  public:
    Taking(const PlanInBuild& build, const StagePlan& plan, std::set<std::string> chosen)
        : plan_(plan), chosen_(std::move(chosen)), changes_(plan_changes(build, plan)) {
        taken_.after = build;
        choose_with();
    }

    void take_out(const std::set<RecordRef, ByKindAndId>& referred, const std::string& reason) {
        for (const PlanChange& change : changes_) {
            if (change.kind != PlanChangeKind::gone || !is_chosen(change)) {
                continue;
            }
            const bool named = referred.count({change.item, change.record_id}) > 0;
            if (change.item == RecordKind::step && named) {
                record_of(taken_.after.steps, change.record_id).not_needed = reason;
            } else if (named || (change.item == RecordKind::stage && has_any(change.record_id))) {
                taken_.kept.push_back(change.id);
            } else {
                erase(change);
            }
        }
    }

    void take_in() {
        PlanInBuild& after = taken_.after;
        settle(after.stages, plan_.stages, [&](Stage& stage) { stage.build_id = after.build_id; });
        for (const PlannedStage& planned : plan_.stages) {
            const auto stage =
                std::find_if(after.stages.begin(), after.stages.end(),
                             [&](const Stage& one) { return id_in(plan_, one) == planned.id; });
            if (stage != after.stages.end()) {
                settle_in(after.steps, planned.steps, stage->id);
                settle_in(after.gates, planned.gates, stage->id);
            }
        }
    }

    TakenPlan taken() { return std::move(taken_); }

  private:
    bool is_chosen(const PlanChange& change) const { return chosen_.count(change.id) > 0; }

    /// A stage that comes or goes takes along what is in it; a step or gate brings a new stage.
    void choose_with() {
        std::set<std::string> new_stages;
        std::set<std::string> whole_stages;
        for (const PlanChange& change : changes_) {
            if (change.item != RecordKind::stage || change.kind == PlanChangeKind::changed) {
                continue;
            }
            if (change.kind == PlanChangeKind::added) {
                new_stages.insert(change.id);
            }
            if (is_chosen(change)) {
                whole_stages.insert(change.id);
            }
        }
        for (const PlanChange& change : changes_) {
            if (whole_stages.count(change.stage) > 0) {
                chosen_.insert(change.id);
            } else if (is_chosen(change) && new_stages.count(change.stage) > 0) {
                chosen_.insert(change.stage);
            }
        }
    }

    template <typename Record>
    static Record& record_of(std::vector<Record>& list, std::int64_t id) {
        const auto found = std::find_if(list.begin(), list.end(),
                                        [&](const Record& record) { return record.id == id; });
        RODWAY_ASSERT(found != list.end());
        return *found;
    }

    bool has_any(std::int64_t stage_id) const {
        const auto in_it = [&](const auto& record) { return record.stage_id == stage_id; };
        return std::any_of(taken_.after.steps.begin(), taken_.after.steps.end(), in_it) ||
               std::any_of(taken_.after.gates.begin(), taken_.after.gates.end(), in_it);
    }

    void erase(const PlanChange& change) {
        const auto out_of = [&](auto& list) {
            std::erase_if(list, [&](const auto& one) { return one.id == change.record_id; });
        };
        if (change.item == RecordKind::step) {
            out_of(taken_.after.steps);
        } else if (change.item == RecordKind::gate) {
            out_of(taken_.after.gates);
        } else {
            out_of(taken_.after.stages);
        }
    }

    const PlanChange* chosen_change(RecordKind item, const std::string& id) const {
        const auto found =
            std::find_if(changes_.begin(), changes_.end(), [&](const PlanChange& change) {
                return change.kind != PlanChangeKind::gone && change.item == item &&
                       change.id == id && is_chosen(change);
            });
        return found == changes_.end() ? nullptr : &*found;
    }

    template <typename Record, typename Planned>
    void settle_in(std::vector<Record>& all, const std::vector<Planned>& wanted,
                   std::int64_t stage_id) {
        std::vector<Record> siblings = of_stage(all, stage_id);
        settle(siblings, wanted, [&](Record& record) { record.stage_id = stage_id; });
        std::erase_if(all, [&](const Record& record) { return record.stage_id == stage_id; });
        all.insert(all.end(), siblings.begin(), siblings.end());
    }

    /// Brings one list of siblings to what was chosen of the plan.
    template <typename Record, typename Planned, typename Own>
    void settle(std::vector<Record>& siblings, const std::vector<Planned>& wanted, Own&& own) {
        put_in_order(siblings);
        bool other_order = false;
        for (std::size_t which = 0; which < wanted.size(); ++which) {
            const PlanChange* change = chosen_change(kind_of(Record{}), wanted[which].id);
            if (change == nullptr) {
                continue;
            }
            Record record;
            if (change->kind == PlanChangeKind::added) {
                record.id = --last_new_;
                record.plan_item = plan_item(plan_, wanted[which].id);
                own(record);
            } else {
                record = record_of(siblings, change->record_id);
            }
            put(wanted[which], record);
            const bool moves =
                change->kind == PlanChangeKind::added ||
                std::any_of(change->fields.begin(), change->fields.end(),
                            [](const PlanFieldChange& field) { return field.field == "after"; });
            if (!moves) {
                record_of(siblings, record.id) = record;
                continue;
            }
            std::erase_if(siblings, [&](const Record& one) { return one.id == record.id; });
            siblings.insert(behind(siblings, wanted, which), record);
            other_order = true;
        }
        for (std::size_t at = 0; other_order && at < siblings.size(); ++at) {
            siblings[at].ordinal = static_cast<int>(at) + 1;
        }
    }

    /// Behind the nearest that stands before it in the plan; first of all if none does.
    template <typename Record, typename Planned>
    auto behind(std::vector<Record>& siblings, const std::vector<Planned>& wanted,
                std::size_t which) {
        while (which-- > 0) {
            const auto found = std::find_if(
                siblings.begin(), siblings.end(),
                [&](const Record& one) { return id_in(plan_, one) == wanted[which].id; });
            if (found != siblings.end()) {
                return found + 1;
            }
        }
        return siblings.begin();
    }

    const StagePlan& plan_;
    std::set<std::string> chosen_;
    std::vector<PlanChange> changes_;
    TakenPlan taken_;
    std::int64_t last_new_ = 0;
};

} // namespace

TakenPlan take_plan_changes(const PlanInBuild& build, const StagePlan& plan,
                            const std::set<std::string>& chosen,
                            const std::set<RecordRef, ByKindAndId>& referred,
                            const std::string& not_needed) {
    Taking taking(build, plan, chosen);
    taking.take_out(referred, not_needed);
    taking.take_in();
    return taking.taken();
}

PlanInBuild plan_for_new_build(const StagePlan& plan, std::int64_t build_id) {
    PlanInBuild nothing;
    nothing.build_id = build_id;
    std::set<std::string> all;
    for (const PlannedStage& stage : plan.stages) {
        all.insert(stage.id);
    }
    return take_plan_changes(nothing, plan, all, {}, {}).after;
}

} // namespace rodway
