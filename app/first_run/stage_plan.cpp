#include "app/first_run/stage_plan.h"

#include <QFile>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>

namespace rodway {

std::vector<PlannedStage> stage_plan(const char* name) {
    QFile file(QString(":/rodway/stage_plans/%1.json").arg(name));
    RODWAY_ASSERT(file.open(QIODevice::ReadOnly));
    const QJsonDocument document = QJsonDocument::fromJson(file.readAll());
    RODWAY_ASSERT(document.isArray());
    std::vector<PlannedStage> plan;
    for (const auto& value : document.array()) {
        const QJsonObject object = value.toObject();
        PlannedStage stage{object["title"].toString().toStdString(),
                           object["caution"].toString().toStdString(),
                           {}};
        for (const auto& step : object["steps"].toArray()) {
            stage.steps.push_back(step.toString().toStdString());
        }
        plan.push_back(stage);
    }
    RODWAY_ASSERT(!plan.empty());
    return plan;
}

} // namespace rodway
