#include <map>
#include <optional>
#include <utility>

#include "core/sheets/rod_gap_reading.h"
#include "db/attachments.h"
#include "db/connection.h"
#include "db/record_rows.h"
#include "db/record_tables.h"
#include "db/shop_file.h"

namespace rodway {
namespace {

using Findings = std::vector<Finding>;
using KindRecords = std::map<std::int64_t, FieldTexts>;
using Records = std::map<RecordKind, KindRecords>;

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

/// Plays the history from its first edit, from nothing.
Result<Records> replay(Connection& connection, Findings& findings) {
    Records records;
    const auto take = [&](const Row& row) {
        const auto kind = record_kind_from(row.text(0));
        const std::string field = row.text(2);
        if (!kind) {
            findings.push_back({FindingCode::history_broken, std::nullopt, field});
            return;
        }
        const RecordRef record{*kind, row.integer(1)};
        FieldTexts& texts = records[record.kind][record.id];
        const auto found = texts.find(field);
        const auto now = found == texts.end() ? std::nullopt : std::optional(found->second);
        if (now != row.optional_text(3)) {
            findings.push_back({FindingCode::history_broken, record, field});
        }
        const auto after = row.optional_text(4);
        if (after) {
            texts[field] = *after;
        } else {
            texts.erase(field);
        }
    };
    const auto rows = connection.each(
        QStringLiteral("SELECT record_kind, record_id, field, before, after FROM edits"
                       " ORDER BY act, ordinal"),
        {}, take);
    if (!rows) return rows.error();
    return records;
}

void compare(RecordKind kind, const KindRecords& replayed, const KindRecords& stored,
             Findings& findings) {
    KindRecords all = replayed;
    all.insert(stored.begin(), stored.end());
    const FieldTexts nothing;
    for (const auto& [id, unused] : all) {
        const auto in_history = replayed.find(id);
        const auto in_table = stored.find(id);
        const FieldTexts& wanted = in_history == replayed.end() ? nothing : in_history->second;
        const FieldTexts& found = in_table == stored.end() ? nothing : in_table->second;
        FieldTexts fields = wanted;
        fields.insert(found.begin(), found.end());
        for (const auto& [field, any_value] : fields) {
            const auto a = wanted.find(field);
            const auto b = found.find(field);
            const bool same = a != wanted.end() && b != found.end() && a->second == b->second;
            if (!same) {
                findings.push_back({FindingCode::record_differs, RecordRef{kind, id}, field});
            }
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

} // namespace

Result<CheckReport> ShopFile::check() {
    Connection& file = connection();
    // One transaction: all is read as of one moment, whatever another window writes meanwhile.
    auto begun = Transaction::begin(file, Transaction::Kind::read);
    if (!begun) return begun.error();
    Transaction transaction = std::move(begun).value();
    CheckReport report;
    if (const auto pages = check_pages(file, report.findings); !pages) return pages.error();
    auto replayed = replay(file, report.findings);
    if (!replayed) return replayed.error();
    Records in_history = std::move(replayed).value();
    std::map<std::int64_t, std::string> digests;
    for (const RecordTable& table : record_tables()) {
        const auto stored = all_stored_fields(file, table.kind);
        if (!stored) return stored.error();
        compare(table.kind, in_history[table.kind], *stored, report.findings);
        for (const auto& [id, fields] : *stored) {
            if (table.kind == RecordKind::reading) check_rod_gap(id, fields, report.findings);
            if (table.kind == RecordKind::photo) digests[id] = fields.at("digest");
        }
    }
    if (const auto ended = transaction.commit(); !ended) return ended.error();
    // Photos are read outside it, for they may take long and a reader holds the log up.
    for (const auto& [id, digest] : digests) check_photo(*this, id, digest, report.findings);
    return report;
}

} // namespace rodway
