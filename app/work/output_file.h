#pragma once

#include <QByteArray>
#include <QString>
#include <string>

#include "core/base/result.h"

namespace rodway {

/// Writes a file that goes out of the program, durably. Never over a database, the shop file least
/// of all. Errors: cannot_write, `field` the path; `value` is "database" for the latter.
Result<Done> write_output(const QString& path, const std::string& bytes);
Result<Done> write_output(const QString& path, const QByteArray& bytes);

} // namespace rodway
