#include "db/build_facts.h"

#include <algorithm>
#include <map>

#include "db/build_records.h"
#include "db/build_store.h"
#include "db/connection.h"
#include "db/record_tables.h"

namespace rodway {
namespace {

/// Reads one kind after the other until one fails.
class FactReader {
  public:
    FactReader(ShopFile& shop, std::int64_t build_id) : shop_(shop), build_id_(build_id) {}

    template <typename Record>
    FactReader& read(std::vector<Record>& records) {
        if (!failure_) {
            auto loaded = load_records<Record>(shop_, build_id_);
            if (loaded) {
                records = std::move(loaded).value();
            } else {
                failure_ = loaded.error();
            }
        }
        return *this;
    }
    [[nodiscard]] const std::optional<Error>& failure() const { return failure_; }

  private:
    ShopFile& shop_;
    std::int64_t build_id_;
    std::optional<Error> failure_;
};

/// The history of what holds depend on.
Result<std::vector<BuildChange>> changes_of(ShopFile& shop, std::int64_t build_id) {
    std::vector<BuildChange> changes;
    std::optional<std::string> unknown_kind;
    const auto id = QVariant::fromValue<qlonglong>(build_id);
    const auto rows = shop.connection().each(
        QStringLiteral(
            "SELECT a.number, a.who, a.when_utc, e.record_kind, e.record_id, e.field, e.before,"
            " e.after, e.erased_digest IS NOT NULL FROM edits e JOIN acts a ON a.number = e.act"
            " WHERE e.act IN (SELECT act FROM history_links WHERE build_id = ?)"
            " AND e.build_id = ? AND (e.record_kind IN ('part', 'set_up', 'reading')"
            " OR (e.record_kind = 'sign_off' AND e.field = 'exists')) ORDER BY e.act, e.ordinal"),
        {id, id}, [&](const Row& row) {
            const auto kind = record_kind_from(row.text(3));
            if (!kind) {
                unknown_kind = row.text(3);
                return;
            }
            changes.push_back(
                {row.integer(0), row.text(1), row.text(2),
                 Edit{RecordRef{*kind, row.integer(4)}, row.text(5), row.optional_text(6),
                      row.optional_text(7), row.integer(8) != 0}});
        });
    if (!rows) return rows.error();
    if (unknown_kind) {
        return Error{ErrorCode::damaged_file, shop.path(), *unknown_kind, {}, {}, {}};
    }
    return changes;
}

void put_in_order(BuildFacts& facts) {
    std::stable_sort(facts.stages.begin(), facts.stages.end(),
                     [](const Stage& a, const Stage& b) { return a.ordinal < b.ordinal; });
    std::map<std::int64_t, std::size_t> place;
    for (std::size_t which = 0; which < facts.stages.size(); ++which) {
        place[facts.stages[which].id] = which;
    }
    const auto by_stage = [&place](const auto& a, const auto& b) {
        return std::pair(place[a.stage_id], a.ordinal) < std::pair(place[b.stage_id], b.ordinal);
    };
    std::stable_sort(facts.steps.begin(), facts.steps.end(), by_stage);
    std::stable_sort(facts.gates.begin(), facts.gates.end(), by_stage);
}

} // namespace

Result<BuildFacts> load_build_facts(ShopFile& shop, std::int64_t build_id) {
    auto begun = Transaction::begin(shop.connection(), Transaction::Kind::read);
    if (!begun) return begun.error();
    Transaction transaction = std::move(begun).value();
    auto build = load_build(shop, build_id);
    if (!build) return build.error();
    BuildFacts facts;
    facts.build = std::move(build).value();
    FactReader reader(shop, build_id);
    reader.read(facts.stages).read(facts.steps).read(facts.gates).read(facts.waivers);
    reader.read(facts.sign_offs).read(facts.cures).read(facts.open_items).read(facts.parts);
    reader.read(facts.approvals);
    if (reader.failure()) return *reader.failure();
    auto changes = changes_of(shop, build_id);
    if (!changes) return changes.error();
    facts.changes = std::move(changes).value();
    if (const auto ended = transaction.commit(); !ended) return ended.error();
    put_in_order(facts);
    return facts;
}

} // namespace rodway
