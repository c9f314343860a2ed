#include "core/build/plan_place.h"

#include <utility>

#include "core/base/assert.h"

namespace rodway {
namespace {

template <typename Plan, typename Use>
decltype(auto) with_item(Plan& plan, const PlanPlace& place, Use&& use) {
    auto& stage = plan.stages.at(place.stage);
    if (place.kind == RecordKind::step) {
        return use(stage.steps.at(place.at));
    }
    if (place.kind == RecordKind::gate) {
        return use(stage.gates.at(place.at));
    }
    RODWAY_ASSERT(place.kind == RecordKind::stage);
    return use(stage);
}

/// Of the list in which the item stands, and its place there.
template <typename Use>
void with_list(StagePlan& plan, const PlanPlace& place, Use&& use) {
    if (place.kind == RecordKind::stage) {
        use(plan.stages, place.stage);
    } else if (place.kind == RecordKind::step) {
        use(plan.stages.at(place.stage).steps, place.at);
    } else {
        use(plan.stages.at(place.stage).gates, place.at);
    }
}

template <typename Items>
std::optional<std::size_t> index_of(const Items& items, const std::string& id) {
    for (std::size_t at = 0; at < items.size(); ++at) {
        if (items[at].id == id) {
            return at;
        }
    }
    return std::nullopt;
}

template <typename Items, typename Item>
void insert_at(Items& items, std::size_t at, Item item) {
    items.insert(items.begin() + static_cast<std::ptrdiff_t>(at), std::move(item));
}

} // namespace

std::optional<PlanPlace> place_in(const StagePlan& plan, const std::string& id) {
    if (const auto stage = index_of(plan.stages, id)) {
        return PlanPlace{RecordKind::stage, *stage, 0};
    }
    for (std::size_t stage = 0; stage < plan.stages.size(); ++stage) {
        if (const auto at = index_of(plan.stages[stage].steps, id)) {
            return PlanPlace{RecordKind::step, stage, *at};
        }
        if (const auto at = index_of(plan.stages[stage].gates, id)) {
            return PlanPlace{RecordKind::gate, stage, *at};
        }
    }
    return std::nullopt;
}

const std::string& id_at(const StagePlan& plan, const PlanPlace& place) {
    return with_item(plan, place, [](const auto& item) -> const std::string& { return item.id; });
}

std::string& title_at(StagePlan& plan, const PlanPlace& place) {
    return with_item(plan, place, [](auto& item) -> std::string& { return item.title; });
}

const std::string& title_at(const StagePlan& plan, const PlanPlace& place) {
    return with_item(plan, place,
                     [](const auto& item) -> const std::string& { return item.title; });
}

std::string put_stage_behind(StagePlan& plan, const std::optional<PlanPlace>& place,
                             const std::string& title) {
    const std::string id = free_plan_id(plan, title);
    insert_at(plan.stages, place ? place->stage + 1 : 0, PlannedStage{id, title});
    return id;
}

std::string put_step_behind(StagePlan& plan, const PlanPlace& place, const std::string& title) {
    const std::string id = free_plan_id(plan, title);
    auto& steps = plan.stages.at(place.stage).steps;
    insert_at(steps, place.kind == RecordKind::step ? place.at + 1 : steps.size(),
              PlannedStep{id, title});
    return id;
}

std::string put_gate(StagePlan& plan, const PlanPlace& place, const std::string& title) {
    const std::string id = free_plan_id(plan, title);
    plan.stages.at(place.stage).gates.push_back({id, title, {Need{NeedKind::steps}}});
    return id;
}

void move_in_plan(StagePlan& plan, const PlanPlace& place, int by) {
    with_list(plan, place, [by](auto& items, std::size_t at) {
        const auto to = static_cast<std::ptrdiff_t>(at) + by;
        if (to >= 0 && to < static_cast<std::ptrdiff_t>(items.size())) {
            std::swap(items[at], items[static_cast<std::size_t>(to)]);
        }
    });
}

void take_out_of_plan(StagePlan& plan, const PlanPlace& place) {
    with_list(plan, place, [](auto& items, std::size_t at) {
        items.erase(items.begin() + static_cast<std::ptrdiff_t>(at));
    });
}

} // namespace rodway
