#include "db/parts_to_come.h"

#include <algorithm>
#include <map>

#include "db/connection.h"
#include "db/rows_of_builds.h"

namespace rodway {
namespace {

template <typename Record>
Result<Done> read(Connection& connection, const QString& condition, std::vector<Record>& records) {
    auto found = records_where<Record>(connection, condition);
    if (!found) return found.error();
    records = std::move(found).value();
    return Done{};
}

template <typename Record>
void by_ordinal(std::vector<Record>& records) {
    std::stable_sort(records.begin(), records.end(),
                     [](const Record& a, const Record& b) { return a.ordinal < b.ordinal; });
}

/// The parts of builds in hand that are to come and in whose place no other stands, by id.
Result<std::vector<PartRecord>> parts_to_come_in(Connection& connection) {
    const auto ids = selected_ids(connection,
                                  QStringLiteral("SELECT p.id FROM builds b JOIN parts p"
                                                 " ON p.build_id = b.id"
                                                 " WHERE b.archived IS NULL AND ") +
                                      part_to_come,
                                  {});
    if (!ids) return ids.error();
    return records_where<PartRecord>(connection, QStringLiteral("id IN (%1)").arg(id_list(*ids)));
}

} // namespace

Result<std::vector<BuildWaiting>> builds_waiting_for_parts(ShopFile& shop) {
    Connection& connection = shop.connection();
    auto begun = Transaction::begin(connection, Transaction::Kind::read);
    if (!begun) return begun.error();
    Transaction transaction = std::move(begun).value();
    const auto to_come = parts_to_come_in(connection);
    if (!to_come) return to_come.error();
    std::map<std::int64_t, BuildWaiting> builds;
    for (const PartRecord& part : *to_come) builds[part.build_id].to_come.push_back(part);
    for (auto& [id, waiting] : builds) {
        const QString of_build = QStringLiteral("build_id = %1").arg(id);
        const QString of_stage =
            QStringLiteral("stage_id IN (SELECT id FROM stages WHERE %1)").arg(of_build);
        std::vector<Build> build;
        auto done = read(connection, QStringLiteral("id = %1").arg(id), build);
        if (done) done = read(connection, of_build, waiting.plan.stages);
        if (done) done = read(connection, of_stage, waiting.plan.steps);
        if (done) done = read(connection, of_stage, waiting.plan.gates);
        if (done) done = read(connection, of_build, waiting.plan.parts);
        if (!done) return done.error();
        waiting.build = build.front();
        by_ordinal(waiting.plan.stages);
        by_ordinal(waiting.plan.steps);
        by_ordinal(waiting.plan.gates);
    }
    if (const auto ended = transaction.commit(); !ended) return ended.error();
    std::vector<BuildWaiting> answer;
    for (auto& [id, waiting] : builds) answer.push_back(std::move(waiting));
    return answer;
}

} // namespace rodway
