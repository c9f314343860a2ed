#include "db/seal_check.h"

#include <map>
#include <optional>
#include <utility>

#include "db/history_seal.h"
#include "db/record_tables.h"

namespace rodway {
namespace {

/// Goes through the acts in their order and remembers each build's link.
class SealCheck {
  public:
    SealCheck(Connection& connection, std::vector<Finding>& findings)
        : connection_(connection), findings_(findings) {}

    void take_edit(const Row& row) {
        const std::int64_t act = row.integer(0);
        if (!seal_ || act != act_) {
            finish_act();
            act_ = act;
            salt_ = row.bytes(4);
            seal_.emplace(act, row.text(1), row.text(2), row.optional_integer(3));
        }
        const auto kind = record_kind_from(row.text(7));
        if (!kind) {
            altered(act, 0);
            return;
        }
        QByteArray digest = row.bytes(12);
        if (digest.isEmpty()) {
            const QByteArray own = row.bytes(11);
            digest = digest_of_edit(
                own.isEmpty() ? salt_of_edit(salt_, static_cast<int>(row.integer(5))) : own,
                row.optional_text(9), row.optional_text(10));
        }
        seal_->add(row.optional_integer(6).value_or(0),
                   {{*kind, row.integer(8)}, row.text(13), digest});
    }

    void finish_act() {
        if (!seal_) return;
        const auto links = seal_->links(
            [this](std::int64_t build_id) { return Result<QByteArray>(last_[build_id]); });
        const std::map<std::int64_t, QByteArray> stored = stored_links();
        std::map<std::int64_t, QByteArray> all = *links;
        all.insert(stored.begin(), stored.end());
        for (const auto& [build_id, unused] : all) {
            const auto made = links->find(build_id);
            const auto found = stored.find(build_id);
            const bool same =
                made != links->end() && found != stored.end() && made->second == found->second;
            if (!same) altered(act_, build_id);
            // The next act was sealed upon what is stored: each change is told once.
            if (found != stored.end()) last_[build_id] = found->second;
        }
        seal_.reset();
    }

    void altered(std::int64_t act, std::int64_t build_id) {
        std::optional<RecordRef> build;
        if (build_id > 0) build = RecordRef{RecordKind::build, build_id};
        findings_.push_back({FindingCode::history_altered, build, std::to_string(act)});
    }

    /// What went wrong in reading, if anything did.
    [[nodiscard]] const Result<Done>& reading() const { return reading_; }

  private:
    std::map<std::int64_t, QByteArray> stored_links() {
        std::map<std::int64_t, QByteArray> links;
        const auto read = connection_.each(
            QStringLiteral("SELECT build_id, digest FROM history_links WHERE act = ?"),
            {QVariant::fromValue<qlonglong>(act_)},
            [&links](const Row& row) { links[row.integer(0)] = row.bytes(1); });
        if (!read) reading_ = read;
        return links;
    }

    Connection& connection_;
    std::vector<Finding>& findings_;
    std::map<std::int64_t, QByteArray> last_; ///< build -> link
    Result<Done> reading_ = Done{};
    std::int64_t act_ = 0;
    QByteArray salt_;
    std::optional<ActSeal> seal_;
};

} // namespace

Result<Done> check_seals(Connection& connection, std::vector<Finding>& findings) {
    SealCheck check(connection, findings);
    auto read = connection.each(
        QStringLiteral(
            "SELECT a.number, a.who, a.when_utc, a.undoes, a.salt, e.ordinal, e.build_id,"
            " e.record_kind, e.record_id, e.before, e.after, e.salt, e.erased_digest,"
            " e.field FROM edits e JOIN acts a ON a.number = e.act"
            " ORDER BY e.act, e.ordinal"),
        {}, [&check](const Row& row) { check.take_edit(row); });
    if (!read) return read;
    check.finish_act();
    if (!check.reading()) return check.reading();
    read = connection.each(
        QStringLiteral("SELECT act, build_id FROM history_links l WHERE NOT EXISTS"
                       " (SELECT 1 FROM edits e WHERE e.act = l.act)"),
        {}, [&check](const Row& row) { check.altered(row.integer(0), row.integer(1)); });
    if (!read) return read;
    const auto gone = connection.single(
        QStringLiteral("SELECT (SELECT seq FROM sqlite_sequence WHERE name = 'acts')"
                       " - (SELECT coalesce(max(number), 0) FROM acts)"));
    if (!gone) return gone.error();
    if (gone->toLongLong() > 0) {
        findings.push_back(
            {FindingCode::history_shortened, std::nullopt, std::to_string(gone->toLongLong())});
    }
    return Done{};
}

} // namespace rodway
