#pragma once

#include <QCache>
#include <QIcon>
#include <QObject>
#include <QSet>
#include <QThreadPool>

namespace rodway {

/// Makes pictures small on threads of its own and keeps them for the next time.
class ThumbnailMaker : public QObject {
    Q_OBJECT

  public:
    explicit ThumbnailMaker(int side_px, QObject* parent = nullptr);
    ~ThumbnailMaker() override;

    /// The small picture if it is there; else nothing yet, and `made` tells when it is. A file
    /// that can't be shown stays without.
    [[nodiscard]] QIcon icon(const QString& file);
    [[nodiscard]] int side_px() const { return side_px_; }

  signals:
    void made(const QString& file, const QIcon& icon);

  private:
    void keep(const QString& file, const QImage& image);

    int side_px_;
    QCache<QString, QIcon> icons_;
    QSet<QString> asked_; ///< being made
    QThreadPool pool_;
};

} // namespace rodway
