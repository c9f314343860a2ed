#include <limits>
#include <map>
#include <optional>
#include <utility>

#include "core/sheets/rod_gap_reading.h"
#include "db/attachments.h"
#include "db/connection.h"
#include "db/history_replay.h"
#include "db/record_tables.h"
#include "db/seal_check.h"
#include "db/search_index.h"
#include "db/shop_file.h"

namespace rodway {
namespace {

using Findings = std::vector<Finding>;

Result<Done> check_pages(Connection& connection, Findings& findings) {
    const auto pages =
        connection.each(QStringLiteral("PRAGMA integrity_check"), {}, [&](const Row& row) {
            if (row.text(0) == "ok") return;
            findings.push_back({FindingCode::damaged_pages, std::nullopt, row.text(0)});
        });
    if (!pages) return pages;
    return connection.each(QStringLiteral("PRAGMA foreign_key_check"), {}, [&](const Row& row) {
        std::optional<RecordRef> record;
        for (const RecordTable& table : record_tables()) {
            if (table.table == row.text(0)) record = RecordRef{table.kind, row.integer(1)};
        }
        findings.push_back({FindingCode::broken_reference, record, row.text(0)});
    });
}

/// Compares what is stored of a build with what its history leads to.
void compare(const Replay& replay, const RecordTexts& stored, Findings& findings) {
    RecordTexts all = replay.records;
    all.insert(stored.begin(), stored.end());
    const FieldTexts nothing;
    for (const auto& [record, unused] : all) {
        const auto in_history = replay.records.find(record);
        const auto in_table = stored.find(record);
        const FieldTexts& wanted =
            in_history == replay.records.end() ? nothing : in_history->second;
        const FieldTexts& found = in_table == stored.end() ? nothing : in_table->second;
        FieldTexts fields = wanted;
        fields.insert(found.begin(), found.end());
        for (const auto& [field, any_value] : fields) {
            if (replay.unknown.count(FieldRef{record, field}) != 0) continue;
            const auto a = wanted.find(field);
            const auto b = found.find(field);
            const bool same = a != wanted.end() && b != found.end() && a->second == b->second;
            if (!same) findings.push_back({FindingCode::record_differs, record, field});
        }
    }
}

void check_photo(const ShopFile& shop, std::int64_t id, const std::string& digest,
                 Findings& findings) {
    const RecordRef record{RecordKind::photo, id};
    const auto path = path_of(shop, digest);
    if (!path) {
        findings.push_back({FindingCode::photo_missing, record, digest});
        return;
    }
    const auto found = digest_of_file(*path);
    if (!found) {
        findings.push_back({FindingCode::photo_missing, record, digest});
    } else if (*found != digest) {
        findings.push_back({FindingCode::photo_altered, record, *path});
    }
}

std::string text_at(const FieldTexts& fields, const char* field) {
    const auto found = fields.find(field);
    return found == fields.end() ? std::string() : found->second;
}

/// A gap reading that can't be read is left out wherever gaps count.
void check_rod_gap(std::int64_t id, const FieldTexts& fields, Findings& findings) {
    if (text_at(fields, "quantity") != rod_gap_quantity) return;
    Reading reading;
    reading.id = id;
    reading.position = text_at(fields, "position");
    reading.text = text_at(fields, "text");
    reading.unit = text_at(fields, "unit");
    const RecordRef record{RecordKind::reading, id};
    if (!parse_rod_gap_position(reading.position)) {
        findings.push_back({FindingCode::reading_position_unreadable, record, reading.position});
    } else if (!reading.text.empty() && !read_rod_gap(reading)) {
        findings.push_back({FindingCode::reading_text_unreadable, record,
                            reading.text + (reading.unit.empty() ? "" : " " + reading.unit)});
    }
}

/// Builds that are there or have a history, and the shop as a whole.
Result<std::vector<std::int64_t>> builds_to_check(Connection& connection) {
    std::vector<std::int64_t> builds{shop_wide};
    const auto rows = connection.each(
        QStringLiteral("SELECT id FROM builds UNION SELECT DISTINCT build_id FROM history_links"
                       " WHERE build_id > 0 ORDER BY 1"),
        {}, [&builds](const Row& row) { builds.push_back(row.integer(0)); });
    if (!rows) return rows.error();
    return builds;
}

Result<Done> check_build(ShopFile& shop, std::int64_t build_id,
                         std::map<std::int64_t, std::string>& digests, Findings& findings) {
    const auto replay =
        replay_history(shop.connection(), build_id, std::numeric_limits<std::int64_t>::max(),
                       [&findings](const FieldRef& at) {
                           findings.push_back({FindingCode::history_broken, at.record, at.field});
                       });
    if (!replay) return replay.error();
    const auto stored = records_of_build(shop, build_id);
    if (!stored) return stored.error();
    compare(*replay, *stored, findings);
    for (const auto& [record, fields] : *stored) {
        if (record.kind == RecordKind::reading) check_rod_gap(record.id, fields, findings);
        if (record.kind == RecordKind::photo) digests[record.id] = text_at(fields, "digest");
    }
    return Done{};
}

} // namespace

Result<CheckReport> ShopFile::check() {
    Connection& file = connection();
    // One transaction: all is read as of one moment, whatever another window writes meanwhile.
    auto begun = Transaction::begin(file, Transaction::Kind::read);
    if (!begun) return begun.error();
    Transaction transaction = std::move(begun).value();
    CheckReport report;
    auto step = check_pages(file, report.findings);
    if (step) step = check_seals(file, report.findings);
    if (step) step = check_search(file, report.findings);
    if (!step) return step.error();
    const auto builds = builds_to_check(file);
    if (!builds) return builds.error();
    std::map<std::int64_t, std::string> digests;
    for (const std::int64_t build_id : *builds) {
        const auto checked = check_build(*this, build_id, digests, report.findings);
        if (!checked) return checked.error();
    }
    if (const auto ended = transaction.commit(); !ended) return ended.error();
    // Photos are read outside it, for they may take long and a reader holds the log up.
    for (const auto& [id, digest] : digests) check_photo(*this, id, digest, report.findings);
    return report;
}

} // namespace rodway
