#include "app/work/put_away.h"

#include <QCoreApplication>

#include "db/record_fields.h"

namespace rodway {
namespace {

struct PutAway {
    Q_DECLARE_TR_FUNCTIONS(PutAway)
};

} // namespace

Result<Done> put_away(ShopSession& session, const Build& build,
                      const std::optional<std::string>& at_utc) {
    if (build.archived.has_value() == at_utc.has_value()) {
        return Done{};
    }
    Build after = build;
    after.archived = at_utc;
    const QString name = QString::fromStdString(build.name);
    const auto done =
        session.act(edits_to_change(build, after), at_utc ? PutAway::tr("put %1 away").arg(name)
                                                          : PutAway::tr("take %1 back").arg(name));
    if (!done) {
        return done.error();
    }
    return Done{};
}

} // namespace rodway
