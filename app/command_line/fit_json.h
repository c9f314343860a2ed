#pragma once

#include <QJsonObject>

#include "app/command_line/fit_answer.h"

namespace rodway {

/// What `rodway fit --json` answers.
[[nodiscard]] QJsonObject fit_json(const FitAnswer& answer);

} // namespace rodway
