#include "app/work/file_bytes.h"

#include <QFile>
#include <QFileInfo>

namespace rodway {

Result<std::string> read_file(const QString& path) {
    QFile file(path);
    if (!QFileInfo(path).isFile() || !file.open(QIODevice::ReadOnly)) {
        return Error{ErrorCode::cannot_read, path.toStdString(), {}, {}, {}, {}};
    }
    const QByteArray bytes = file.readAll();
    if (file.error() != QFileDevice::NoError) {
        return Error{ErrorCode::cannot_read, path.toStdString(), {}, {}, {}, {}};
    }
    return bytes.toStdString();
}

} // namespace rodway
