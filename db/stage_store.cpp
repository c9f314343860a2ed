#include "db/stage_store.h"

#include <algorithm>
#include <utility>

#include "db/build_records.h"
#include "db/connection.h"

namespace rodway {
namespace {

std::vector<Edit> edits_of_tick(const Step& step, const std::optional<std::string>& by,
                                const std::optional<std::string>& at) {
    const RecordRef record{RecordKind::step, step.id};
    return {Edit{record, "ticked_by", step.ticked_by, by},
            Edit{record, "ticked_at", step.ticked_at, at}};
}

} // namespace

Result<std::vector<StageWithSteps>> stages_with_steps(ShopFile& shop, std::int64_t build_id) {
    // One transaction: stages and steps as of one moment.
    auto begun = Transaction::begin(shop.connection(), Transaction::Kind::read);
    if (!begun) return begun.error();
    Transaction transaction = std::move(begun).value();
    auto found_stages = load_records<Stage>(shop, build_id);
    if (!found_stages) return found_stages.error();
    auto found_steps = load_records<Step>(shop, build_id);
    if (!found_steps) return found_steps.error();
    if (const auto ended = transaction.commit(); !ended) return ended.error();
    std::vector<Stage> stages = std::move(found_stages).value();
    std::vector<Step> steps = std::move(found_steps).value();
    const auto by_ordinal = [](const auto& a, const auto& b) { return a.ordinal < b.ordinal; };
    std::stable_sort(stages.begin(), stages.end(), by_ordinal);
    std::stable_sort(steps.begin(), steps.end(), by_ordinal);
    std::vector<StageWithSteps> plan;
    plan.reserve(stages.size());
    for (Stage& stage : stages) plan.push_back({std::move(stage), {}});
    for (Step& step : steps) {
        const auto of = std::find_if(plan.begin(), plan.end(), [&step](const StageWithSteps& s) {
            return s.stage.id == step.stage_id;
        });
        if (of == plan.end()) {
            return Error{ErrorCode::damaged_file,       shop.path(), "step",
                         std::to_string(step.stage_id), {},          {}};
        }
        of->steps.push_back(std::move(step));
    }
    return plan;
}

std::vector<Edit> edits_to_tick(const Step& step, const std::string& by, const std::string& at) {
    return edits_of_tick(step, by, at);
}

std::vector<Edit> edits_to_untick(const Step& step) {
    return edits_of_tick(step, std::nullopt, std::nullopt);
}

} // namespace rodway
