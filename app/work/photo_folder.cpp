#include "app/work/photo_folder.h"

#include <QDir>
#include <QFileInfo>
#include <QSettings>

namespace rodway {
namespace {

constexpr const char* folder_key = "photos/folder";
constexpr const char* since_key = "photos/since_ms";
/// Folders of other computers don't tell that they changed.
constexpr int look_anyway_ms = 10000;

/// When it came here: a phone's upload may keep the time at which the picture was taken.
QDateTime arrived(const QFileInfo& file) {
    QDateTime newest = file.lastModified();
    for (const QDateTime& time : {file.birthTime(), file.metadataChangeTime()}) {
        if (time.isValid() && time > newest) {
            newest = time;
        }
    }
    return newest;
}

} // namespace

PhotoFolder::PhotoFolder(QObject* parent) : PhotoFolder(Patience(), parent) {}

PhotoFolder::PhotoFolder(Patience patience, QObject* parent)
    : QObject(parent), patience_(patience) {
    connect(&watcher_, &QFileSystemWatcher::directoryChanged, this, &PhotoFolder::look);
    connect(&timer_, &QTimer::timeout, this, &PhotoFolder::look);
    timer_.setSingleShot(true);
}

QString PhotoFolder::folder() {
    return QSettings().value(folder_key).toString();
}

void PhotoFolder::choose(const QString& folder) {
    QSettings settings;
    settings.setValue(folder_key, folder);
    settings.setValue(since_key, QDateTime::currentMSecsSinceEpoch());
    seen_.clear();
    begin();
}

void PhotoFolder::begin() {
    watch();
    timer_.stop();
    if (!folder().isEmpty()) {
        look();
    }
}

/// A folder that was taken away and put back is watched again.
void PhotoFolder::watch() {
    const QString wanted = folder();
    if (watcher_.directories() == QStringList{wanted}) {
        return;
    }
    if (!watcher_.directories().isEmpty()) {
        watcher_.removePaths(watcher_.directories());
    }
    if (!wanted.isEmpty() && QFileInfo(wanted).isDir()) {
        watcher_.addPath(wanted);
    }
}

void PhotoFolder::look() {
    if (folder().isEmpty()) {
        return;
    }
    watch();
    const QDateTime since =
        QDateTime::fromMSecsSinceEpoch(QSettings().value(since_key).toLongLong());
    bool all_done = true;
    QDateTime newest;
    for (const QFileInfo& file : QDir(folder()).entryInfoList(QDir::Files)) {
        const bool picture = picture_suffixes().contains(file.suffix().toLower());
        const QDateTime came = arrived(file);
        if (!picture || came < since) {
            continue;
        }
        look_at(file);
        all_done = all_done && seen_[file.fileName()].done;
        newest = std::max(newest, came);
    }
    if (all_done && newest.isValid()) {
        remember(newest);
    }
    timer_.start(all_done ? look_anyway_ms : std::max(20, patience_.settle_ms / 2));
}

void PhotoFolder::look_at(const QFileInfo& file) {
    Seen& seen = seen_[file.fileName()];
    const qint64 now = QDateTime::currentMSecsSinceEpoch();
    if (seen.bytes != file.size() || seen.written != file.lastModified()) {
        seen = {file.size(), file.lastModified(), now, false};
        return;
    }
    const qint64 still_ms = now - seen.still_since_ms;
    if (!seen.done && still_ms >= patience_.settle_ms) {
        seen.done = deal_with(file.absoluteFilePath(), still_ms);
    }
}

bool PhotoFolder::deal_with(const QString& path, qint64 still_ms) {
    const PictureFile state = picture_file(path);
    if (state == PictureFile::whole) {
        return take && take(path);
    }
    if (still_ms < patience_.give_up_ms) {
        return false;
    }
    emit refused(QFileInfo(path).fileName(), state);
    return true;
}

void PhotoFolder::remember(const QDateTime& newest) {
    QSettings settings;
    if (settings.value(since_key).toLongLong() != newest.toMSecsSinceEpoch()) {
        settings.setValue(since_key, newest.toMSecsSinceEpoch());
    }
}

} // namespace rodway
