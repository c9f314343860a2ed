#include "app/work/build_in_hand.h"

#include <QStringList>

#include "core/engine/set_up.h"

namespace rodway {

Result<Build> find_build(ShopFile& shop, const QString& number_or_name) {
    const auto builds = load_builds(shop);
    if (!builds) {
        return builds.error();
    }
    QStringList names;
    QStringList numbers;
    const Build* named = nullptr;
    for (const Build& build : *builds) {
        const QString name = QString::fromStdString(build.name);
        if (QString::number(build.id) == number_or_name) {
            return build;
        }
        if (name.compare(number_or_name, Qt::CaseInsensitive) == 0) {
            named = &build;
            numbers << QString::number(build.id);
        }
        names << name;
    }
    if (numbers.size() > 1) {
        return Error{ErrorCode::not_a_choice,         "build", number_or_name.toStdString(),
                     numbers.join(' ').toStdString(), {},      {}};
    }
    if (named) {
        return *named;
    }
    return Error{ErrorCode::no_such_record,      "build", number_or_name.toStdString(),
                 names.join(", ").toStdString(), {},      {}};
}

Result<BuildInHand> build_in_hand(ShopFile& shop, const Build& build) {
    const auto set_up = newest_set_up(shop, build.id);
    if (!set_up) {
        return set_up.error();
    }
    if (!*set_up) {
        return Error{ErrorCode::missing_field, "set_up", {}, {}, {}, {}};
    }
    auto engine = make_engine((*set_up)->fields);
    if (!engine) {
        return engine.error();
    }
    return BuildInHand{build, **set_up, *engine};
}

const ValveClearance* tightest(const std::vector<ValveClearance>& lines) {
    const ValveClearance* least = nullptr;
    for (const ValveClearance& line : lines) {
        if (line.found.minimum &&
            (!least || line.found.minimum->clearance_mm < least->found.minimum->clearance_mm)) {
            least = &line;
        }
    }
    return least;
}

} // namespace rodway
