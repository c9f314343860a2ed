#include "db/rescue_rows.h"

#include <set>
#include <vector>

#include "db/record_tables.h"
#include "db/typed_value_text.h"

namespace rodway {
namespace {

using Take = std::function<void(const Row&)>;

QVariant number_value(std::int64_t number) {
    return QVariant::fromValue<qlonglong>(number);
}

QString name_of(std::string_view text) {
    return QString::fromLatin1(text.data(), static_cast<qsizetype>(text.size()));
}

/// A table of the copy, read past its damage. `take` must bear to be given a row twice.
class TolerantTable {
  public:
    /// `columns` begins with the key's columns; those that the version lacks read as nothing.
    TolerantTable(RescueCopy& copy, const QString& table, const QStringList& columns,
                  const QStringList& key)
        : copy_(copy), table_(table), key_(key) {
        const QStringList known = copy.columns_of(table);
        for (const QString& column : columns) {
            const bool there = known.contains(column);
            selected_ << (there ? QStringLiteral("\"%1\"").arg(column) : QStringLiteral("NULL"));
        }
    }

    /// From both ends; whether there was no damage.
    bool read(const Take& take) {
        const QString rows = select() + QStringLiteral(" ORDER BY ");
        if (copy_.connection().each(rows + key_.join(QStringLiteral(", ")), {}, take)) return true;
        static_cast<void>(copy_.connection().each(
            rows + key_.join(QStringLiteral(" DESC, ")) + QStringLiteral(" DESC"), {}, take));
        return false;
    }

    /// The rows whose key begins with these values.
    void probe(const QVariantList& values, const Take& take) {
        QStringList wanted;
        for (qsizetype i = 0; i < values.size(); ++i) wanted << key_[i] + QStringLiteral(" = ?");
        const QString rows =
            select() + QStringLiteral(" WHERE ") + wanted.join(QStringLiteral(" AND "));
        static_cast<void>(copy_.connection().each(rows, values, take));
    }

  private:
    [[nodiscard]] QString select() const {
        return QStringLiteral("SELECT %1 FROM \"%2\"")
            .arg(selected_.join(QStringLiteral(", ")), table_);
    }

    RescueCopy& copy_;
    QString table_;
    QStringList selected_;
    QStringList key_;
};

class RowReader {
  public:
    explicit RowReader(RescueCopy& copy) : copy_(copy) {}

    RescuedRows read() {
        read_history();
        gather_named_ids();
        for (const RecordTable& table : record_tables()) read_records(table);
        for (const PathTable& table : path_tables()) read_geometry(table);
        return std::move(rows_);
    }

  private:
    void read_history() {
        TolerantTable edits(copy_, QStringLiteral("edits"),
                            {"act", "ordinal", "build_id", "record_kind", "record_id", "field",
                             "before", "after", "salt", "erased_digest"},
                            {"act", "ordinal"});
        const Take take_edit = [this](const Row& row) {
            rows_.edits.emplace(NumberPair(row.integer(0), row.integer(1)),
                                RescuedEdit{row.optional_integer(2), row.text(3), row.integer(4),
                                            row.text(5), row.optional_text(6), row.optional_text(7),
                                            row.bytes(8), row.bytes(9)});
        };
        const bool edits_whole = edits.read(take_edit);
        TolerantTable links(copy_, QStringLiteral("history_links"), {"build_id", "act", "digest"},
                            {"build_id", "act"});
        const Take take_link = [this](const Row& row) {
            rows_.links.emplace(NumberPair(row.integer(0), row.integer(1)), row.bytes(2));
        };
        const bool links_whole = links.read(take_link);
        TolerantTable acts(copy_, QStringLiteral("acts"),
                           {"number", "who", "when_utc", "undoes", "salt"}, {"number"});
        const Take take_act = [this](const Row& row) {
            rows_.acts.emplace(row.integer(0), RescuedAct{row.text(1), row.text(2),
                                                          row.optional_integer(3), row.bytes(4)});
        };
        const bool acts_whole = acts.read(take_act);
        rows_.history_whole = acts_whole && edits_whole && links_whole;
        if (!acts_whole) {
            for (const std::int64_t number : named_acts()) {
                if (rows_.acts.count(number) == 0) acts.probe({number_value(number)}, take_act);
            }
        }
        if (!edits_whole) {
            for (const std::int64_t number : named_acts()) {
                edits.probe({number_value(number)}, take_edit);
            }
        }
        if (!links_whole) {
            std::set<NumberPair> named;
            for (const auto& [at, edit] : rows_.edits) {
                named.emplace(edit.build_id.value_or(shop_wide), at.first);
            }
            for (const auto& [build_id, act] : named) {
                links.probe({number_value(build_id), number_value(act)}, take_link);
            }
        }
        static_cast<void>(copy_.connection().each(
            QStringLiteral("SELECT name, seq FROM %1").arg(rescued_sequence), {},
            [this](const Row& row) {
                if (row.text(0) == "acts") rows_.newest_act = row.integer(1);
            }));
    }

    [[nodiscard]] std::set<std::int64_t> named_acts() const {
        std::set<std::int64_t> named;
        for (const auto& [number, unused] : rows_.acts) named.insert(number);
        for (const auto& [at, unused] : rows_.edits) named.insert(at.first);
        for (const auto& [at, unused] : rows_.links) named.insert(at.second);
        return named;
    }

    void gather_named_ids() {
        for (const auto& [at, edit] : rows_.edits) {
            const auto kind = record_kind_from(edit.record_kind);
            if (kind && edit.record_id > 0) named_[*kind].insert(edit.record_id);
        }
    }

    void read_records(const RecordTable& table) {
        QStringList columns(QStringLiteral("id"));
        for (const RecordField& field : table.fields) columns << name_of(field.name);
        if (copy_.columns_of(name_of(table.table)).isEmpty()) return;
        TolerantTable rows(copy_, name_of(table.table), columns, {"id"});
        const Take take = [&](const Row& row) {
            const RecordRef ref{table.kind, row.integer(0)};
            if (ref.id < 1 || rows_.records.count(ref) != 0) return;
            FieldTexts texts{{"exists", "1"}};
            int column = 1;
            for (const RecordField& field : table.fields) {
                if (auto text = row.optional_text(column++)) {
                    texts.emplace(std::string(field.name), std::move(*text));
                }
            }
            rows_.records.emplace(ref, std::move(texts));
        };
        if (rows.read(take)) {
            rows_.whole.insert(table.kind);
            return;
        }
        for (const std::int64_t id : named_[table.kind]) {
            if (rows_.records.count({table.kind, id}) == 0) rows.probe({number_value(id)}, take);
        }
    }

    void read_geometry(const PathTable& table) {
        // Versions of before don't have the kind at all.
        if (copy_.columns_of(name_of(table_of(table.kind).table)).isEmpty()) return;
        const QString owner = name_of(table.owner);
        TolerantTable rows(copy_, name_of(table.table), {owner, "path", "text", "unit"},
                           {owner, "path"});
        const Take take = [this, &table](const Row& row) {
            const auto record = rows_.records.find({table.kind, row.integer(0)});
            const std::string path = row.text(1);
            const TypedValue value{row.text(2), row.text(3)};
            const bool sound = !value.text.empty() && value.unit.find(' ') == std::string::npos &&
                               is_geometry_path(table.kind, path);
            if (!sound) {
                rows_.geometry_whole = false;
            } else if (record != rows_.records.end()) {
                record->second.emplace(path, to_edit_text(value));
            }
        };
        if (rows.read(take)) return;
        rows_.geometry_whole = false;
        std::vector<std::int64_t> owners;
        for (const auto& [ref, unused] : rows_.records) {
            if (ref.kind == table.kind) owners.push_back(ref.id);
        }
        for (const std::int64_t id : owners) rows.probe({number_value(id)}, take);
    }

    RescueCopy& copy_;
    RescuedRows rows_;
    std::map<RecordKind, std::set<std::int64_t>> named_;
};

} // namespace

RescuedRows read_rows(RescueCopy& copy) {
    return RowReader(copy).read();
}

} // namespace rodway
