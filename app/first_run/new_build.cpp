#include "app/first_run/new_build.h"

#include "app/work/stage_plans.h"
#include "db/build_store.h"
#include "db/set_up_store.h"

namespace rodway {
namespace {

void append(std::vector<Edit>& all, std::vector<Edit> more) {
    all.insert(all.end(), std::make_move_iterator(more.begin()),
               std::make_move_iterator(more.end()));
}

/// Stands in a plan's edits for the build, whose id isn't known before it is written.
constexpr std::int64_t build_to_come = 0;

std::vector<Edit> in_build(std::vector<Edit> edits, std::int64_t build_id) {
    for (Edit& edit : edits) {
        if (edit.field == "build_id") {
            edit.after = std::to_string(build_id);
        }
    }
    return edits;
}

} // namespace

Result<std::int64_t> create_build(ShopSession& session, Build build, const SetUpFields& fields,
                                  const std::string& plan) {
    const auto begins_with = find_plan(session.shop(), plan);
    if (!begins_with) {
        return begins_with.error();
    }
    const auto set_up_id = new_id(session.shop(), RecordKind::set_up);
    const auto of_plan =
        edits_between(session.shop(), {}, plan_for_new_build(*begins_with, build_to_come));
    if (!set_up_id || !of_plan) {
        return !set_up_id ? set_up_id.error() : of_plan.error();
    }
    build.plan = plan;
    return session.create(
        RecordKind::build,
        [&](std::int64_t id) {
            build.id = id;
            std::vector<Edit> edits = edits_to_create(build);
            append(edits, in_build(*of_plan, id));
            if (!fields.empty()) {
                append(edits,
                       edits_to_create(SetUpRecord{*set_up_id, id, "As first mocked up", fields}));
            }
            return edits;
        },
        QObject::tr("new build"));
}

Result<std::int64_t> add_set_up(ShopSession& session, std::int64_t build_id, const QString& name,
                                const SetUpFields& fields) {
    return session.create(
        RecordKind::set_up,
        [&](std::int64_t id) {
            return edits_to_create(SetUpRecord{id, build_id, name.toStdString(), fields});
        },
        QObject::tr("import of a set-up"));
}

} // namespace rodway
