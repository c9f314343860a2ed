#pragma once

#include <QJsonObject>
#include <QString>

namespace rodway::tests {

/// What a shop's file says of some of its builds, by their names: how each stands, who ticked how
/// many steps, what was signed, waived, opened and closed, cured, bought, agreed, read and taken
/// back. References stand as the title of what they point to.
[[nodiscard]] QJsonObject end_record(const QString& shop_file, const QStringList& builds);

} // namespace rodway::tests
