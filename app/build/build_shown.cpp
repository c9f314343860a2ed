#include "app/build/build_shown.h"

#include <algorithm>

#include "db/build_records.h"
#include "db/build_store.h"

namespace rodway {
namespace {

/// Loads the records of one kind; false, with the error kept, if that can't be done.
template <typename Record>
bool load_into(std::vector<Record>& into, ShopFile& shop, std::int64_t build_id,
               std::optional<Error>& trouble) {
    auto loaded = load_records<Record>(shop, build_id);
    if (!loaded) {
        trouble = loaded.error();
        return false;
    }
    into = std::move(loaded).value();
    return true;
}

} // namespace

const StageShown* BuildStanding::stage(std::int64_t id) const {
    const auto found = std::find_if(stages.begin(), stages.end(), [id](const StageShown& one) {
        return one.state.stage_id == id;
    });
    return found == stages.end() ? nullptr : &*found;
}

Result<BuildStanding> load_build_standing(ShopFile& shop, std::int64_t build_id,
                                          const Moment& moment) {
    auto state = load_build_state(shop, build_id, moment);
    if (!state) {
        return state.error();
    }
    BuildStanding standing{std::move(state).value(), {}};
    for (const StageState& stage : standing.state.stages) {
        standing.stages.push_back({stage, stage_gates(standing.state.facts, stage.stage_id),
                                   holds_of_stage(standing.state.facts, stage.stage_id)});
    }
    return standing;
}

const StageWithSteps* BuildShown::stage(std::int64_t id) const {
    const auto found = std::find_if(stages.begin(), stages.end(),
                                    [id](const StageWithSteps& one) { return one.stage.id == id; });
    return found == stages.end() ? nullptr : &*found;
}

const Step* BuildShown::step(std::int64_t id) const {
    for (const StageWithSteps& stage : stages) {
        for (const Step& step : stage.steps) {
            if (step.id == id) {
                return &step;
            }
        }
    }
    return nullptr;
}

const StageWithSteps* BuildShown::stage_of_step(std::int64_t id) const {
    const Step* found = step(id);
    return found == nullptr ? nullptr : stage(found->stage_id);
}

words::OwnTitles BuildShown::own_titles() const {
    return standing ? standing->state.own_titles : words::OwnTitles();
}

Result<BuildShown> load_build_shown(ShopFile& shop, std::int64_t build_id) {
    auto build = load_build(shop, build_id);
    if (!build) {
        return build.error();
    }
    auto stages = stages_with_steps(shop, build_id);
    if (!stages) {
        return stages.error();
    }
    BuildShown shown;
    shown.build = std::move(build).value();
    shown.stages = std::move(stages).value();
    std::optional<Error> trouble;
    const bool loaded = load_into(shown.parts, shop, build_id, trouble) &&
                        load_into(shown.sign_offs, shop, build_id, trouble) &&
                        load_into(shown.cures, shop, build_id, trouble) &&
                        load_into(shown.items, shop, build_id, trouble) &&
                        load_into(shown.decisions, shop, build_id, trouble) &&
                        load_into(shown.promises, shop, build_id, trouble) &&
                        load_into(shown.castings, shop, build_id, trouble) &&
                        load_into(shown.notes, shop, build_id, trouble) &&
                        load_into(shown.photos, shop, build_id, trouble) &&
                        load_into(shown.products, shop, shop_wide, trouble) &&
                        load_into(shown.customers, shop, shop_wide, trouble);
    if (!loaded) {
        return *trouble;
    }
    return shown;
}

} // namespace rodway
