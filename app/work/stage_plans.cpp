#include "app/work/stage_plans.h"

#include <QFile>
#include <algorithm>
#include <array>
#include <map>

#include "core/build/word_list.h"
#include "core/files/stage_plan_file.h"
#include "core/files/text_bytes.h"
#include "db/build_records.h"
#include "db/edits.h"
#include "db/record_fields.h"
#include "db/record_tables.h"

namespace rodway {
namespace {

/// In the order in which they are offered.
constexpr std::array<const char*, 5> built_in_words{
    "complete_build", "refresh", "valvetrain_mock_up", "head_work", "marine_pair"};

std::string built_in_text(const std::string& word) {
    QFile file(QStringLiteral(":/rodway/stage_plans/%1.json").arg(QString::fromStdString(word)));
    RODWAY_ASSERT(file.open(QIODevice::ReadOnly));
    return file.readAll().toStdString();
}

bool is_built_in(const std::string& word) {
    return std::find(built_in_words.begin(), built_in_words.end(), word) != built_in_words.end();
}

Result<std::vector<std::string>> own_sheets(ShopFile& shop) {
    const auto kinds = load_records<ShopSheetKind>(shop, shop_wide);
    if (!kinds) {
        return kinds.error();
    }
    std::vector<std::string> words;
    for (const ShopSheetKind& kind : *kinds) {
        words.push_back(kind.word);
    }
    return words;
}

/// Two writers may have kept one word each: the later counts.
std::optional<ShopPlan> own_plan(const std::vector<ShopPlan>& plans, const std::string& word) {
    const auto found = std::find_if(plans.rbegin(), plans.rend(),
                                    [&](const ShopPlan& plan) { return plan.word == word; });
    return found == plans.rend() ? std::nullopt : std::optional(*found);
}

Error no_plan(const std::string& word, const std::vector<KnownPlan>& known) {
    std::vector<std::string> words;
    for (const KnownPlan& plan : known) {
        words.push_back(plan.word);
    }
    return Error{ErrorCode::not_a_choice, "plan", word, joined(words, " "), {}, {}};
}

/// Stages, steps and gates that other records of the build name.
Result<std::set<RecordRef, ByKindAndId>> named_by_others(ShopFile& shop, std::int64_t build_id) {
    const auto is_of_plan = [](RecordKind kind) {
        return kind == RecordKind::stage || kind == RecordKind::step || kind == RecordKind::gate;
    };
    const auto records = records_of_build(shop, build_id);
    if (!records) {
        return records.error();
    }
    std::set<RecordRef, ByKindAndId> named;
    for (const auto& [ref, fields] : *records) {
        if (is_of_plan(ref.kind)) {
            continue;
        }
        for (const RecordField& field : table_of(ref.kind).fields) {
            const auto text = fields.find(std::string(field.name));
            if (field.refers_to && is_of_plan(*field.refers_to) && text != fields.end()) {
                named.insert({*field.refers_to, std::stoll(text->second)});
            }
        }
    }
    return named;
}

void append(std::vector<Edit>& all, std::vector<Edit> more) {
    all.insert(all.end(), std::make_move_iterator(more.begin()),
               std::make_move_iterator(more.end()));
}

/// Gives what is new in a list its id, from the next free one on.
template <typename Record>
std::map<std::int64_t, std::int64_t> number_new(std::vector<Record>& list, std::int64_t next) {
    std::map<std::int64_t, std::int64_t> ids;
    for (Record& record : list) {
        if (record.id < 0) {
            ids.emplace(record.id, next);
            record.id = next++;
        }
    }
    return ids;
}

/// Edits that create what is new and change what is otherwise.
template <typename Record>
std::vector<Edit> edits_to_reach(const std::vector<Record>& before,
                                 const std::vector<Record>& after) {
    std::vector<Edit> edits;
    for (const Record& record : after) {
        const auto was = std::find_if(before.begin(), before.end(),
                                      [&](const Record& one) { return one.id == record.id; });
        append(edits,
               was == before.end() ? edits_to_create(record) : edits_to_change(*was, record));
    }
    return edits;
}

template <typename Record>
Result<Done> append_removals(ShopFile& shop, const std::vector<Record>& before,
                             const std::vector<Record>& after, std::vector<Edit>& edits) {
    for (const Record& record : before) {
        const bool stays = std::any_of(after.begin(), after.end(),
                                       [&](const Record& one) { return one.id == record.id; });
        if (stays) {
            continue;
        }
        auto removal = edits_to_remove(shop, {RecordShape<Record>::kind, record.id});
        if (!removal) {
            return removal.error();
        }
        append(edits, std::move(removal).value());
    }
    return Done{};
}

} // namespace

const std::vector<StagePlan>& built_in_plans() {
    static const std::vector<StagePlan> plans = [] {
        std::vector<StagePlan> read;
        for (const char* word : built_in_words) {
            auto plan = read_stage_plan_file(built_in_text(word));
            RODWAY_ASSERT(plan.ok() && plan->word == word);
            read.push_back(std::move(plan).value());
        }
        return read;
    }();
    return plans;
}

Result<std::vector<KnownPlan>> known_plans(ShopFile& shop) {
    const auto own = load_records<ShopPlan>(shop, shop_wide);
    const auto sheets = own_sheets(shop);
    if (!own || !sheets) {
        return !own ? own.error() : sheets.error();
    }
    std::vector<KnownPlan> known;
    for (const StagePlan& plan : built_in_plans()) {
        known.push_back({plan.word, plan.title, plan.about.value_or(""), false, true, 0});
    }
    for (const ShopPlan& plan : *own) {
        const auto read = read_stage_plan_file(plan.content, *sheets);
        const KnownPlan entry{plan.word,
                              plan.title,
                              read ? read->about.value_or("") : std::string(),
                              true,
                              is_built_in(plan.word),
                              plan.id};
        const auto same = std::find_if(known.begin(), known.end(),
                                       [&](const KnownPlan& one) { return one.word == plan.word; });
        if (same == known.end()) {
            known.push_back(entry);
        } else {
            *same = entry;
        }
    }
    return known;
}

Result<std::string> plan_text(ShopFile& shop, const std::string& word) {
    const auto own = load_records<ShopPlan>(shop, shop_wide);
    if (!own) {
        return own.error();
    }
    if (const auto plan = own_plan(*own, word)) {
        return plan->content;
    }
    if (is_built_in(word)) {
        return built_in_text(word);
    }
    const auto known = known_plans(shop);
    return known ? no_plan(word, *known) : known.error();
}

Result<StagePlan> find_plan(ShopFile& shop, const std::string& word) {
    const auto text = plan_text(shop, word);
    const auto sheets = own_sheets(shop);
    if (!text || !sheets) {
        return !text ? text.error() : sheets.error();
    }
    return read_stage_plan_file(*text, *sheets);
}

Result<std::string> keep_plan(ShopSession& session, const std::string& text) {
    const auto sheets = own_sheets(session.shop());
    const auto own = load_records<ShopPlan>(session.shop(), shop_wide);
    if (!sheets || !own) {
        return !sheets ? sheets.error() : own.error();
    }
    const auto plan = read_stage_plan_file(text, *sheets);
    if (!plan) {
        return plan.error();
    }
    ShopPlan kept;
    kept.word = plan->word;
    kept.title = plan->title;
    kept.content = *utf8_text(text);
    const QString what = QObject::tr("plan “%1”").arg(QString::fromStdString(plan->title));
    if (const auto before = own_plan(*own, plan->word)) {
        kept.id = before->id;
        kept.note = before->note;
        std::vector<Edit> edits = edits_to_change(*before, kept);
        if (edits.empty()) {
            return plan->word;
        }
        const auto done = session.act(std::move(edits), what);
        return done ? Result<std::string>(plan->word) : done.error();
    }
    const auto id = session.create(
        RecordKind::shop_plan,
        [&](std::int64_t record_id) {
            kept.id = record_id;
            return edits_to_create(kept);
        },
        what);
    return id ? Result<std::string>(plan->word) : id.error();
}

Result<Done> let_plan_go(ShopSession& session, const std::string& word) {
    const auto own = load_records<ShopPlan>(session.shop(), shop_wide);
    if (!own) {
        return own.error();
    }
    std::vector<Edit> edits;
    std::vector<KnownPlan> known;
    for (const ShopPlan& plan : *own) {
        known.push_back({plan.word, plan.title, {}, true, is_built_in(plan.word), plan.id});
        if (plan.word != word) {
            continue;
        }
        auto removal = edits_to_remove(session.shop(), {RecordKind::shop_plan, plan.id});
        if (!removal) {
            return removal.error();
        }
        append(edits, std::move(removal).value());
    }
    if (edits.empty()) {
        return no_plan(word, known);
    }
    const auto done = session.act(std::move(edits), QObject::tr("letting an own plan go"));
    return done ? Result<Done>(Done{}) : done.error();
}

Result<PlanInBuild> plan_in_build(ShopFile& shop, std::int64_t build_id) {
    auto stages = load_records<Stage>(shop, build_id);
    auto steps = load_records<Step>(shop, build_id);
    auto gates = load_records<Gate>(shop, build_id);
    if (!stages || !steps || !gates) {
        return !stages ? stages.error() : !steps ? steps.error() : gates.error();
    }
    return PlanInBuild{build_id, std::move(stages).value(), std::move(steps).value(),
                       std::move(gates).value()};
}

namespace {

/// A build's plan as it stands in the build, and as it is now.
struct BothPlans {
    PlanInBuild build;
    StagePlan plan;
};

Result<BothPlans> both_plans(ShopFile& shop, const Build& build) {
    if (!build.plan) {
        return Error{ErrorCode::missing_field, "plan", {}, {}, {}, {}};
    }
    auto plan = find_plan(shop, *build.plan);
    auto here = plan_in_build(shop, build.id);
    if (!plan || !here) {
        return !plan ? plan.error() : here.error();
    }
    return BothPlans{std::move(here).value(), std::move(plan).value()};
}

} // namespace

Result<std::vector<PlanChange>> changes_of_plan(ShopFile& shop, const Build& build) {
    const auto both = both_plans(shop, build);
    return both ? Result<std::vector<PlanChange>>(plan_changes(both->build, both->plan))
                : both.error();
}

Result<std::vector<std::string>> take_over(ShopSession& session, const Build& build,
                                           const std::set<std::string>& chosen) {
    const auto both = both_plans(session.shop(), build);
    if (!both) {
        return both.error();
    }
    const std::vector<PlanChange> changes = plan_changes(both->build, both->plan);
    for (const std::string& id : chosen) {
        const bool known = std::any_of(changes.begin(), changes.end(),
                                       [&](const PlanChange& change) { return change.id == id; });
        if (!known) {
            return Error{ErrorCode::no_such_record, "change", id, {}, {}, {}};
        }
    }
    const auto named = named_by_others(session.shop(), build.id);
    if (!named) {
        return named.error();
    }
    const TakenPlan taken = take_plan_changes(both->build, both->plan, chosen, *named,
                                              QObject::tr("no longer in the plan").toStdString());
    auto edits = edits_between(session.shop(), both->build, taken.after);
    if (!edits) {
        return edits.error();
    }
    if (!edits->empty()) {
        const auto done =
            session.act(std::move(edits).value(), QObject::tr("changes of the plan taken over"));
        if (!done) {
            return done.error();
        }
    }
    return taken.kept;
}

Result<std::vector<Edit>> edits_between(ShopFile& shop, const PlanInBuild& before,
                                        PlanInBuild after) {
    const auto stage_id = new_id(shop, RecordKind::stage);
    const auto step_id = new_id(shop, RecordKind::step);
    const auto gate_id = new_id(shop, RecordKind::gate);
    if (!stage_id || !step_id || !gate_id) {
        return !stage_id ? stage_id.error() : !step_id ? step_id.error() : gate_id.error();
    }
    const auto stages = number_new(after.stages, *stage_id);
    number_new(after.steps, *step_id);
    number_new(after.gates, *gate_id);
    const auto to_stage = [&](auto& list) {
        for (auto& record : list) {
            const auto found = stages.find(record.stage_id);
            record.stage_id = found == stages.end() ? record.stage_id : found->second;
        }
    };
    to_stage(after.steps);
    to_stage(after.gates);
    std::vector<Edit> edits = edits_to_reach(before.stages, after.stages);
    append(edits, edits_to_reach(before.steps, after.steps));
    append(edits, edits_to_reach(before.gates, after.gates));
    for (const auto& removed : {append_removals(shop, before.steps, after.steps, edits),
                                append_removals(shop, before.gates, after.gates, edits),
                                append_removals(shop, before.stages, after.stages, edits)}) {
        if (!removed) {
            return removed.error();
        }
    }
    return edits;
}

} // namespace rodway
