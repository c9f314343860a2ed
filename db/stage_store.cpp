#include "db/stage_store.h"

#include "db/connection.h"
#include "db/new_record_edits.h"

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
    std::vector<StageWithSteps> plan;
    const auto rows = shop.connection().each(
        QStringLiteral("SELECT s.id, s.build_id, s.ordinal, s.title, s.caution, t.id, t.ordinal,"
                       " t.title, t.ticked_by, t.ticked_at FROM stages s"
                       " LEFT JOIN steps t ON t.stage_id = s.id WHERE s.build_id = ?"
                       " ORDER BY s.ordinal, s.id, t.ordinal, t.id"),
        {QVariant::fromValue<qlonglong>(build_id)}, [&plan](const Row& row) {
            if (plan.empty() || plan.back().stage.id != row.integer(0)) {
                plan.push_back(
                    {Stage{row.integer(0), row.integer(1), static_cast<int>(row.integer(2)),
                           row.text(3), row.optional_text(4)},
                     {}});
            }
            const auto step_id = row.optional_integer(5);
            if (!step_id) return;
            plan.back().steps.push_back(Step{*step_id, row.integer(0),
                                             static_cast<int>(row.integer(6)), row.text(7),
                                             row.optional_text(8), row.optional_text(9)});
        });
    if (!rows) return rows.error();
    return plan;
}

std::vector<Edit> edits_to_create(const Stage& stage) {
    return NewRecordEdits({RecordKind::stage, stage.id})
        .set_number("build_id", stage.build_id)
        .set_number("ordinal", stage.ordinal)
        .set("title", stage.title)
        .set("caution", stage.caution)
        .take();
}

std::vector<Edit> edits_to_create(const Step& step) {
    return NewRecordEdits({RecordKind::step, step.id})
        .set_number("stage_id", step.stage_id)
        .set_number("ordinal", step.ordinal)
        .set("title", step.title)
        .set("ticked_by", step.ticked_by)
        .set("ticked_at", step.ticked_at)
        .take();
}

std::vector<Edit> edits_to_tick(const Step& step, const std::string& by, const std::string& at) {
    return edits_of_tick(step, by, at);
}

std::vector<Edit> edits_to_untick(const Step& step) {
    return edits_of_tick(step, std::nullopt, std::nullopt);
}

} // namespace rodway
