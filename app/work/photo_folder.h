#pragma once

#include <QDateTime>
#include <QFileSystemWatcher>
#include <QHash>
#include <QObject>
#include <QTimer>
#include <functional>

#include "app/work/picture_file.h"

class QFileInfo;

namespace rodway {

/// Watches the folder to which a phone uploads its pictures, and hands over each new one once it is
/// whole. What lay there before the folder was chosen stays where it is; what came while nobody
/// watched is taken the next time. Nothing in the folder is ever changed.
class PhotoFolder : public QObject {
    Q_OBJECT

  public:
    /// How long a file must have stood still, and after how long one that isn't a whole picture is
    /// given up.
    struct Patience {
        int settle_ms = 1500;
        int give_up_ms = 60000;
    };

    explicit PhotoFolder(QObject* parent = nullptr);
    PhotoFolder(Patience patience, QObject* parent);

    /// Hands a picture over; true once it needn't be offered again.
    std::function<bool(const QString& file)> take;

    /// The folder chosen, from the program's settings; empty if none is.
    [[nodiscard]] static QString folder();
    /// Chooses another, from now on; empty: none.
    void choose(const QString& folder);
    /// Begins to watch the one chosen.
    void begin();
    /// Looks now.
    void look();

  signals:
    /// Its name, and why it isn't taken.
    void refused(const QString& name, PictureFile state);

  private:
    struct Seen {
        qint64 bytes = -1;
        QDateTime written;
        qint64 still_since_ms = 0;
        bool done = false;
    };
    void watch();
    void look_at(const QFileInfo& file);
    /// True if it was dealt with.
    bool deal_with(const QString& path, qint64 still_ms);
    void remember(const QDateTime& newest);

    Patience patience_;
    QFileSystemWatcher watcher_;
    QTimer timer_;
    QHash<QString, Seen> seen_; ///< by file name
};

} // namespace rodway
