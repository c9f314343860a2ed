#include "db/record_rows.h"

#include <QStringList>

#include "db/record_tables.h"
#include "db/typed_value_text.h"

namespace rodway {
namespace {

QString name_of(std::string_view text) {
    return QString::fromLatin1(text.data(), static_cast<qsizetype>(text.size()));
}

QVariant value_for(const RecordField& field, const FieldTexts& texts) {
    const auto found = texts.find(std::string(field.name));
    if (found == texts.end()) return QVariant();
    const QString text = QString::fromStdString(found->second);
    if (field.form == FieldForm::count || field.form == FieldForm::reference) {
        return text.toLongLong();
    }
    return text;
}

/// In a damaged file a unit may have a space, which no edit could have written: `check` must live
/// to tell.
std::string geometry_text(const std::string& text, const std::string& unit) {
    if (unit.find(' ') == std::string::npos) return to_edit_text(TypedValue{text, unit});
    return text + ' ' + unit;
}

std::optional<std::string> text_at(const FieldTexts& texts, const std::string& field) {
    const auto found = texts.find(field);
    if (found == texts.end()) return std::nullopt;
    return found->second;
}

Result<Done> write_path(Connection& connection, const RecordRef& record, const std::string& path,
                        const std::optional<std::string>& after) {
    const PathTable* const table = path_table(record.kind);
    RODWAY_ASSERT(table != nullptr);
    const auto id = QVariant::fromValue<qlonglong>(record.id);
    const QString name = QString::fromStdString(path);
    if (!after) {
        return connection.run(QStringLiteral("DELETE FROM %1 WHERE %2 = ? AND path = ?")
                                  .arg(name_of(table->table), name_of(table->owner)),
                              {id, name});
    }
    const auto typed = typed_value_from(*after);
    RODWAY_ASSERT(typed.ok());
    const QVariant unit =
        typed->unit.empty() ? QVariant() : QVariant(QString::fromStdString(typed->unit));
    return connection.run(
        QStringLiteral("INSERT INTO %1 (%2, path, text, unit)"
                       " VALUES (?, ?, ?, ?) ON CONFLICT (%2, path)"
                       " DO UPDATE SET text = excluded.text, unit = excluded.unit")
            .arg(name_of(table->table), name_of(table->owner)),
        {id, name, QString::fromStdString(typed->text), unit});
}

Result<Done> write_paths(Connection& connection, const RecordRef& record, const FieldTexts& before,
                         const FieldTexts& after) {
    FieldTexts all = before;
    all.insert(after.begin(), after.end());
    for (const auto& [field, unused] : all) {
        if (!is_geometry_path(record.kind, field)) continue;
        const auto wanted = text_at(after, field);
        if (wanted == text_at(before, field)) continue;
        const auto written = write_path(connection, record, field, wanted);
        if (!written) return written;
    }
    return Done{};
}

} // namespace

Result<std::map<std::int64_t, FieldTexts>> stored_fields_where(Connection& connection,
                                                               RecordKind kind,
                                                               const Selection& selection) {
    const RecordTable& table = table_of(kind);
    const QVariantList values =
        selection.number ? QVariantList{QVariant::fromValue<qlonglong>(*selection.number)}
                         : QVariantList();
    QStringList columns(QStringLiteral("id"));
    for (const RecordField& field : table.fields) columns << name_of(field.name);
    std::map<std::int64_t, FieldTexts> records;
    const auto rows = connection.each(
        QStringLiteral("SELECT %1 FROM %2 WHERE %3")
            .arg(columns.join(QStringLiteral(", ")), name_of(table.table), selection.condition),
        values, [&](const Row& row) {
            FieldTexts& texts = records[row.integer(0)];
            texts.emplace("exists", "1");
            int column = 1;
            for (const RecordField& field : table.fields) {
                if (auto text = row.optional_text(column++)) {
                    texts.emplace(std::string(field.name), std::move(*text));
                }
            }
        });
    if (!rows) return rows.error();
    if (const PathTable* const paths = path_table(kind)) {
        const auto fields = connection.each(
            QStringLiteral("SELECT f.%1, f.path, f.text, f.unit FROM %2 s JOIN %3 f ON f.%1 = s.id"
                           " WHERE %4")
                .arg(name_of(paths->owner), name_of(table.table), name_of(paths->table),
                     selection.condition),
            values, [&](const Row& row) {
                records[row.integer(0)][row.text(1)] = geometry_text(row.text(2), row.text(3));
            });
        if (!fields) return fields.error();
    }
    return records;
}

Result<FieldTexts> stored_fields(Connection& connection, const RecordRef& record) {
    auto records =
        stored_fields_where(connection, record.kind, {QStringLiteral("id = ?"), record.id});
    if (!records) return records.error();
    const auto found = records->find(record.id);
    return found == records->end() ? FieldTexts() : found->second;
}

Result<std::map<std::int64_t, FieldTexts>> stored_fields_of_build(Connection& connection,
                                                                  RecordKind kind,
                                                                  std::int64_t build_id) {
    const RecordTable& table = table_of(kind);
    const RecordField* owner = owner_field(table);
    const bool of_shop = build_id == shop_wide;
    if (kind == RecordKind::build) {
        if (of_shop) return std::map<std::int64_t, FieldTexts>();
        return stored_fields_where(connection, kind, {QStringLiteral("id = ?"), build_id});
    }
    if (owner == nullptr || *owner->refers_to == RecordKind::shop_sheet_kind) {
        if (!of_shop) return std::map<std::int64_t, FieldTexts>();
        return stored_fields_where(connection, kind, {QStringLiteral("1"), std::nullopt});
    }
    if (*owner->refers_to == RecordKind::build) {
        if (of_shop)
            return stored_fields_where(connection, kind, {QStringLiteral("build_id IS NULL"), {}});
        return stored_fields_where(connection, kind, {QStringLiteral("build_id = ?"), build_id});
    }
    RODWAY_ASSERT(*owner->refers_to == RecordKind::stage);
    return stored_fields_where(
        connection, kind,
        {QStringLiteral("stage_id IN (SELECT id FROM stages WHERE build_id = ?)"), build_id});
}

Result<Done> insert_record(Connection& connection, const RecordRef& record,
                           const FieldTexts& after) {
    const RecordTable& table = table_of(record.kind);
    QStringList columns(QStringLiteral("id"));
    QStringList marks(QStringLiteral("?"));
    QVariantList values{QVariant::fromValue<qlonglong>(record.id)};
    for (const RecordField& field : table.fields) {
        columns << name_of(field.name);
        marks << QStringLiteral("?");
        values << value_for(field, after);
    }
    const auto inserted =
        connection.run(QStringLiteral("INSERT INTO %1 (%2) VALUES (%3)")
                           .arg(name_of(table.table), columns.join(QStringLiteral(", ")),
                                marks.join(QStringLiteral(", "))),
                       values);
    if (!inserted) return inserted;
    return write_paths(connection, record, {}, after);
}

Result<Done> update_record(Connection& connection, const RecordRef& record,
                           const FieldTexts& before, const FieldTexts& after) {
    const RecordTable& table = table_of(record.kind);
    QStringList settings;
    QVariantList values;
    for (const RecordField& field : table.fields) {
        const std::string name(field.name);
        if (text_at(before, name) == text_at(after, name)) continue;
        settings << name_of(field.name) + QStringLiteral(" = ?");
        values << value_for(field, after);
    }
    if (!settings.isEmpty()) {
        values << QVariant::fromValue<qlonglong>(record.id);
        const auto updated =
            connection.run(QStringLiteral("UPDATE %1 SET %2 WHERE id = ?")
                               .arg(name_of(table.table), settings.join(QStringLiteral(", "))),
                           values);
        if (!updated) return updated;
    }
    return write_paths(connection, record, before, after);
}

Result<Done> remove_record(Connection& connection, const RecordRef& record) {
    const QVariantList id{QVariant::fromValue<qlonglong>(record.id)};
    if (const PathTable* const paths = path_table(record.kind)) {
        const auto removed = connection.run(QStringLiteral("DELETE FROM %1 WHERE %2 = ?")
                                                .arg(name_of(paths->table), name_of(paths->owner)),
                                            id);
        if (!removed) return removed;
    }
    return connection.run(
        QStringLiteral("DELETE FROM %1 WHERE id = ?").arg(name_of(table_of(record.kind).table)),
        id);
}

Result<std::optional<RecordRef>> dependant_of(Connection& connection, const RecordRef& record) {
    for (const RecordTable& table : record_tables()) {
        for (const RecordField& field : table.fields) {
            if (field.refers_to != record.kind) continue;
            const auto id = connection.single(QStringLiteral("SELECT min(id) FROM %1 WHERE %2 = ?")
                                                  .arg(name_of(table.table), name_of(field.name)),
                                              {QVariant::fromValue<qlonglong>(record.id)});
            if (!id) return id.error();
            if (!id->isNull()) return std::optional(RecordRef{table.kind, id->toLongLong()});
        }
    }
    return std::optional<RecordRef>();
}

} // namespace rodway
