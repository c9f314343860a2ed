#pragma once

#include <QJsonArray>
#include <QJsonObject>
#include <QString>
#include <string>
#include <vector>

#include "app/command_line/command_line.h"
#include "core/base/result.h"

namespace rodway {

/// A line to standard output, and one to standard error.
void print(const QString& line);
void complain(const QString& line);

/// A JSON object to standard output, indented.
void print_json(const QJsonObject& object);

/// Texts as JSON has them.
[[nodiscard]] QJsonArray array_of(const std::vector<std::string>& texts);

/// Says what is wrong, and which exit code that is.
ExitCode refuse(const Error& error, const QString& file = {});

/// The exit code of an error.
[[nodiscard]] ExitCode exit_code(ErrorCode code);

} // namespace rodway
