#include "db/history_seal.h"

#include <QCryptographicHash>
#include <QRandomGenerator>
#include <array>
#include <vector>

#include "db/record_tables.h"

namespace rodway {
namespace {

void add_number(QByteArray& bytes, std::int64_t number) {
    for (int shift = 56; shift >= 0; shift -= 8) {
        bytes.append(static_cast<char>(static_cast<std::uint64_t>(number) >> shift & 0xffU));
    }
}

void add_text(QByteArray& bytes, std::string_view text) {
    add_number(bytes, static_cast<std::int64_t>(text.size()));
    bytes.append(text.data(), static_cast<qsizetype>(text.size()));
}

void add_optional(QByteArray& bytes, const std::optional<std::string>& text) {
    bytes.append(text ? '\1' : '\0');
    if (text) add_text(bytes, *text);
}

QByteArray sha256(const QByteArray& bytes) {
    return QCryptographicHash::hash(bytes, QCryptographicHash::Sha256);
}

QVariant number_value(std::int64_t number) {
    return QVariant::fromValue<qlonglong>(number);
}

} // namespace

QByteArray new_salt() {
    std::array<quint32, salt_bytes / sizeof(quint32)> words{};
    QRandomGenerator::system()->fillRange(words.data(), static_cast<qsizetype>(words.size()));
    return {reinterpret_cast<const char*>(words.data()), salt_bytes};
}

QByteArray salt_of_edit(const QByteArray& salt_of_act, int ordinal) {
    QByteArray bytes = salt_of_act;
    add_number(bytes, ordinal);
    return sha256(bytes).left(salt_bytes);
}

QByteArray digest_of_edit(const QByteArray& salt, const std::optional<std::string>& before,
                          const std::optional<std::string>& after) {
    QByteArray bytes = salt;
    add_optional(bytes, before);
    add_optional(bytes, after);
    return sha256(bytes);
}

ActSeal::ActSeal(std::int64_t number, const std::string& who, const std::string& when_utc,
                 std::optional<std::int64_t> undoes) {
    add_number(heading_, number);
    add_text(heading_, who);
    add_text(heading_, when_utc);
    add_number(heading_, undoes.value_or(0));
}

void ActSeal::add(std::int64_t build_id, const SealedEdit& edit) {
    QByteArray& bytes = edits_[build_id];
    add_text(bytes, table_of(edit.record.kind).word);
    add_number(bytes, edit.record.id);
    add_text(bytes, edit.field);
    bytes.append(edit.digest);
}

Result<std::map<std::int64_t, QByteArray>> ActSeal::links(
    const std::function<Result<QByteArray>(std::int64_t)>& link_before) const {
    std::map<std::int64_t, QByteArray> all;
    for (const auto& [build_id, edits] : edits_) {
        const auto before = link_before(build_id);
        if (!before) return before.error();
        const QByteArray first(digest_bytes, '\0');
        all[build_id] = sha256((before->isEmpty() ? first : *before) + heading_ + edits);
    }
    return all;
}

Result<QByteArray> link_before(Connection& connection, std::int64_t build_id, std::int64_t act) {
    const auto link = connection.single(
        QStringLiteral("SELECT digest FROM history_links WHERE build_id = ? AND act < ?"
                       " ORDER BY act DESC LIMIT 1"),
        {number_value(build_id), number_value(act)});
    if (!link) return link.error();
    return link->toByteArray();
}

Result<Done> write_links(Connection& connection, std::int64_t act, const ActSeal& seal) {
    const auto links =
        seal.links([&](std::int64_t build_id) { return link_before(connection, build_id, act); });
    if (!links) return links.error();
    for (const auto& [build_id, digest] : *links) {
        const auto written = connection.run(
            QStringLiteral("INSERT INTO history_links (build_id, act, digest) VALUES (?, ?, ?)"),
            {number_value(build_id), number_value(act), digest});
        if (!written) return written;
    }
    return Done{};
}

Result<Done> seal_old_history(Connection& connection) {
    struct OldAct {
        std::int64_t number;
        std::string who;
        std::string when_utc;
        std::optional<std::int64_t> undoes;
    };
    std::vector<OldAct> acts;
    const auto read = connection.each(
        QStringLiteral("SELECT number, who, when_utc, undoes FROM acts WHERE salt IS NULL"
                       " ORDER BY number"),
        {}, [&acts](const Row& row) {
            acts.push_back({row.integer(0), row.text(1), row.text(2), row.optional_integer(3)});
        });
    if (!read) return read;
    for (const OldAct& act : acts) {
        const QByteArray salt = new_salt();
        ActSeal seal(act.number, act.who, act.when_utc, act.undoes);
        std::optional<std::string> unknown_kind;
        const auto edits = connection.each(
            QStringLiteral("SELECT ordinal, build_id, record_kind, record_id, field, before, after"
                           " FROM edits WHERE act = ? ORDER BY ordinal"),
            {number_value(act.number)}, [&](const Row& row) {
                const auto kind = record_kind_from(row.text(2));
                if (!kind) {
                    unknown_kind = row.text(2);
                    return;
                }
                const QByteArray own = salt_of_edit(salt, static_cast<int>(row.integer(0)));
                seal.add(row.optional_integer(1).value_or(0),
                         {{*kind, row.integer(3)},
                          row.text(4),
                          digest_of_edit(own, row.optional_text(5), row.optional_text(6))});
            });
        if (!edits) return edits;
        if (unknown_kind) {
            return Error{ErrorCode::damaged_file, connection.path(), *unknown_kind, {}, {}, {}};
        }
        auto step = connection.run(QStringLiteral("UPDATE acts SET salt = ? WHERE number = ?"),
                                   {salt, number_value(act.number)});
        if (step) step = write_links(connection, act.number, seal);
        if (!step) return step;
    }
    return Done{};
}

} // namespace rodway
