#include "app/work/output_file.h"

#include <QFile>

#include "db/durable_file.h"

namespace rodway {

Result<Done> write_output(const QString& path, const std::string& bytes) {
    static constexpr char database_mark[] = "SQLite format 3";
    QFile there(path);
    if (there.open(QIODevice::ReadOnly) && there.read(15) == QByteArray(database_mark)) {
        return Error{ErrorCode::cannot_write, path.toStdString(), "database", {}, {}, {}};
    }
    return write_durably(path.toStdString(), bytes);
}

Result<Done> write_output(const QString& path, const QByteArray& bytes) {
    return write_output(path, bytes.toStdString());
}

} // namespace rodway
