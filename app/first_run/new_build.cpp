#include "app/first_run/new_build.h"

#include "app/first_run/stage_plan.h"
#include "db/build_store.h"
#include "db/set_up_store.h"
#include "db/stage_store.h"

namespace rodway {
namespace {

void append(std::vector<Edit>& all, std::vector<Edit> more) {
    all.insert(all.end(), std::make_move_iterator(more.begin()),
               std::make_move_iterator(more.end()));
}

} // namespace

Result<std::int64_t> create_build(ShopSession& session, Build build, const SetUpFields& fields) {
    const auto first_stage = new_id(session.shop(), RecordKind::stage);
    const auto first_step = new_id(session.shop(), RecordKind::step);
    const auto set_up_id = new_id(session.shop(), RecordKind::set_up);
    if (!first_stage || !first_step || !set_up_id) {
        return !first_stage  ? first_stage.error()
               : !first_step ? first_step.error()
                             : set_up_id.error();
    }
    return session.create(
        RecordKind::build,
        [&](std::int64_t id) {
            build.id = id;
            std::vector<Edit> edits = edits_to_create(build);
            std::int64_t stage_id = *first_stage;
            std::int64_t step_id = *first_step;
            int stage_ordinal = 0;
            for (const PlannedStage& planned : stage_plan("port-tube-engine")) {
                Stage stage{stage_id++, id, ++stage_ordinal, planned.title, std::nullopt};
                if (!planned.caution.empty()) {
                    stage.caution = planned.caution;
                }
                append(edits, edits_to_create(stage));
                int step_ordinal = 0;
                for (const std::string& title : planned.steps) {
                    append(edits, edits_to_create(Step{step_id++, stage.id, ++step_ordinal, title,
                                                       std::nullopt, std::nullopt}));
                }
            }
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
