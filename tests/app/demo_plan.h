#pragma once

#include <QFile>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QString>

namespace rodway::tests {

/// Steps of a built-in plan that come before one, counted in the plan's own file; -1 if it has no
/// such step.
inline int steps_before(const QString& plan, const QString& id) {
    QFile file(QStringLiteral(RODWAY_RESOURCES "/stage_plans/%1.json").arg(plan));
    if (!file.open(QIODevice::ReadOnly)) {
        return -1;
    }
    int count = 0;
    for (const QJsonValue& stage : QJsonDocument::fromJson(file.readAll())["stages"].toArray()) {
        for (const QJsonValue& step : stage["steps"].toArray()) {
            if (step["id"] == id) {
                return count;
            }
            ++count;
        }
    }
    return -1;
}

} // namespace rodway::tests
