#include "db/temporary_files.h"

#include <QDateTime>
#include <QDir>
#include <QDirIterator>
#include <QFile>
#include <QFileInfo>
#include <QRegularExpression>
#include <QUuid>
#include <algorithm>
#include <map>
#include <vector>

namespace rodway {
namespace {

const QString beginning = QStringLiteral(".rodway-");

/// The name without what SQLite puts behind it; empty for one that isn't ours. A rescue's folder is
/// named by `db/rescue_copy`.
QString own_name(const QString& name) {
    static const QRegularExpression form(
        QStringLiteral("\\A(\\.rodway-(?:[0-9a-f]{32}|rescue-[A-Za-z0-9]{6}))"
                       "(?:-journal|-wal|-shm)?\\z"));
    return form.match(name).captured(1);
}

/// When the file, or the folder or anything in it, was last written to.
QDateTime last_touched(const QFileInfo& there) {
    QDateTime newest = there.lastModified();
    if (!there.isDir()) return newest;
    QDirIterator inside(there.absoluteFilePath(),
                        QDir::AllEntries | QDir::Hidden | QDir::System | QDir::NoDotAndDotDot,
                        QDirIterator::Subdirectories);
    while (inside.hasNext()) {
        inside.next();
        newest = std::max(newest, inside.fileInfo().lastModified());
    }
    return newest;
}

} // namespace

std::string temporary_path(const std::string& folder) {
    return QDir(QString::fromStdString(folder))
        .filePath(beginning + QUuid::createUuid().toString(QUuid::Id128))
        .toStdString();
}

void remove_stale_temporaries(const std::string& folder) {
    const QDir place(QString::fromStdString(folder));
    const QDateTime yesterday = QDateTime::currentDateTimeUtc().addDays(-1);
    // A file goes together with its journal, of which either may be the one that is written.
    std::map<QString, std::vector<QFileInfo>> found;
    for (const QFileInfo& there :
         place.entryInfoList({beginning + u'*'}, QDir::Files | QDir::Dirs | QDir::Hidden |
                                                     QDir::NoSymLinks | QDir::NoDotAndDotDot)) {
        const QString name = own_name(there.fileName());
        if (!name.isEmpty()) found[name].push_back(there);
    }
    for (const auto& [name, files] : found) {
        const bool stale = std::all_of(files.begin(), files.end(), [&](const QFileInfo& there) {
            return last_touched(there) < yesterday;
        });
        if (!stale) continue;
        for (const QFileInfo& there : files) {
            if (there.isDir()) {
                QDir(there.absoluteFilePath()).removeRecursively();
            } else {
                QFile::remove(there.absoluteFilePath());
            }
        }
    }
}

} // namespace rodway
