#include "app/parts/buy_list.h"

#include <QString>
#include <algorithm>
#include <tuple>

#include "core/build/part_wait.h"
#include "db/build_records.h"
#include "db/parts_to_come.h"

namespace rodway {
namespace {

template <typename Record>
std::string title_of(const std::vector<Record>& records, std::int64_t id) {
    const auto found = std::find_if(records.begin(), records.end(),
                                    [id](const Record& record) { return record.id == id; });
    return found == records.end() ? std::string() : found->title;
}

template <typename Record>
Result<Done> load(ShopFile& shop, std::int64_t build_id, std::vector<Record>& into) {
    auto records = load_records<Record>(shop, build_id);
    if (!records) {
        return records.error();
    }
    into = std::move(records).value();
    return Done{};
}

} // namespace

Result<PlanAndParts> load_plan_and_parts(ShopFile& shop, std::int64_t build_id) {
    PlanAndParts plan;
    Result<Done> loaded = load(shop, build_id, plan.stages);
    if (loaded) {
        loaded = load(shop, build_id, plan.steps);
    }
    if (loaded) {
        loaded = load(shop, build_id, plan.gates);
    }
    if (loaded) {
        loaded = load(shop, build_id, plan.parts);
    }
    if (!loaded) {
        return loaded.error();
    }
    const auto by_ordinal = [](const auto& a, const auto& b) { return a.ordinal < b.ordinal; };
    std::stable_sort(plan.stages.begin(), plan.stages.end(), by_ordinal);
    std::stable_sort(plan.steps.begin(), plan.steps.end(), by_ordinal);
    std::stable_sort(plan.gates.begin(), plan.gates.end(), by_ordinal);
    return plan;
}

std::vector<Unblocked> unblocked(const PlanAndParts& plan, const PartRecord& part,
                                 const std::string& today) {
    std::vector<Unblocked> named;
    for (const Arrival& one : what_arrives_for(plan, part, today)) {
        named.push_back(
            {title_of(plan.stages, one.stage_id),
             one.step_id ? title_of(plan.steps, *one.step_id) : title_of(plan.gates, *one.gate_id),
             one.gate_id.has_value(), one.others});
    }
    return named;
}

Result<std::vector<BuyLine>> load_buy_list(ShopFile& shop, const std::string& today) {
    const auto builds = builds_waiting_for_parts(shop);
    if (!builds) {
        return builds.error();
    }
    std::vector<BuyLine> lines;
    for (const BuildWaiting& waiting : *builds) {
        for (const PartRecord& part : waiting.to_come) {
            lines.push_back({part, waiting.build.name, unblocked(waiting.plan, part, today)});
        }
    }
    const auto key = [&](const BuyLine& line) {
        const QString supplier =
            QString::fromStdString(line.part.supplier.value_or(std::string())).toCaseFolded();
        const bool late = part_wait(line.part, today) == PartWait::overdue;
        return std::tuple(supplier.isEmpty(), supplier, !late,
                          line.part.promised.value_or("9999-12-31"), line.part.id);
    };
    std::sort(lines.begin(), lines.end(),
              [&](const BuyLine& a, const BuyLine& b) { return key(a) < key(b); });
    return lines;
}

} // namespace rodway
