#include "db/alike_builds.h"

#include <limits>
#include <optional>

#include "db/build_store.h"
#include "db/connection.h"

namespace rodway {
namespace {

QString text(const std::string& utf8) {
    return QString::fromStdString(utf8);
}

QString family_of(const std::string& engine) {
    return text(engine).section(',', 0, 0).simplified().toCaseFolded();
}

constexpr int walked_at_once = 300;

/// Walks the builds that have the quantity from the newest down, and stops at enough. Words are
/// compared here, for SQLite knows the capitals of English only.
Result<std::vector<AlikeBuild>> find_builds(Connection& connection, const Build& in_hand,
                                            const std::string& quantity, int most) {
    const QString family = family_of(in_hand.engine);
    const QString customer = text(in_hand.customer).simplified().toCaseFolded();
    std::vector<AlikeBuild> found;
    std::int64_t below = std::numeric_limits<std::int64_t>::max();
    const auto take = [&](const Row& row) {
        below = row.integer(0);
        const bool same_engine = !family.isEmpty() && family_of(row.text(2)) == family;
        const bool same_customer =
            (!customer.isEmpty() && text(row.text(3)).simplified().toCaseFolded() == customer) ||
            (in_hand.customer_id && row.optional_integer(4) == in_hand.customer_id);
        if ((same_engine || same_customer) && static_cast<int>(found.size()) < most) {
            found.push_back({row.integer(0),
                             row.text(1),
                             row.text(2),
                             same_engine ? Alike::engine : Alike::customer,
                             {}});
        }
    };
    bool more = true;
    while (more && static_cast<int>(found.size()) < most) {
        const std::int64_t before = below;
        const auto read = connection.each(
            QStringLiteral("SELECT id, name, engine, customer, customer_id FROM builds"
                           " WHERE id < ? AND id <> ? AND EXISTS (SELECT 1 FROM readings"
                           " WHERE build_id = builds.id AND quantity = ?)"
                           " ORDER BY id DESC LIMIT ?"),
            {QVariant::fromValue<qlonglong>(below), QVariant::fromValue<qlonglong>(in_hand.id),
             text(quantity), walked_at_once},
            take);
        if (!read) return read.error();
        more = below != before;
    }
    return found;
}

Result<Done> load_last_takes(Connection& connection, AlikeBuild& build,
                             const std::string& quantity) {
    std::optional<Error> damage;
    const auto read = connection.each(
        QStringLiteral("SELECT MAX(id), position, text, unit, status, taken_by, taken_at"
                       " FROM readings WHERE build_id = ? AND quantity = ?"
                       " GROUP BY position ORDER BY position"),
        {QVariant::fromValue<qlonglong>(build.build_id), text(quantity)}, [&](const Row& row) {
            FieldTexts fields{{"exists", "1"},
                              {"build_id", std::to_string(build.build_id)},
                              {"quantity", quantity}};
            int column = 1;
            for (const char* field :
                 {"position", "text", "unit", "status", "taken_by", "taken_at"}) {
                if (auto value = row.optional_text(column++)) {
                    fields.emplace(field, std::move(*value));
                }
            }
            auto reading = record_from<Reading>(row.integer(0), fields);
            if (reading) {
                build.readings.push_back(std::move(reading).value());
            } else {
                damage = reading.error();
            }
        });
    if (!read) return read;
    if (damage) return *damage;
    return Done{};
}

} // namespace

Result<std::vector<AlikeBuild>> alike_builds(ShopFile& shop, std::int64_t build_id,
                                             const std::string& quantity, int most) {
    Connection& connection = shop.connection();
    auto begun = Transaction::begin(connection, Transaction::Kind::read);
    if (!begun) return begun.error();
    Transaction transaction = std::move(begun).value();
    const auto in_hand = load_build(shop, build_id);
    if (!in_hand) return in_hand.error();
    auto found = find_builds(connection, *in_hand, quantity, most);
    if (!found) return found.error();
    std::vector<AlikeBuild> builds = std::move(found).value();
    for (AlikeBuild& build : builds) {
        if (const auto loaded = load_last_takes(connection, build, quantity); !loaded) {
            return loaded.error();
        }
    }
    if (const auto ended = transaction.commit(); !ended) return ended.error();
    return builds;
}

} // namespace rodway
