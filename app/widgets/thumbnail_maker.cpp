#include "app/widgets/thumbnail_maker.h"

#include <QPixmap>

#include "app/widgets/thumbnail.h"

namespace rodway {
namespace {

constexpr int most_kept = 1000;
constexpr int most_threads = 2; ///< the window and the clearances want some too

} // namespace

ThumbnailMaker::ThumbnailMaker(int side_px, QObject* parent)
    : QObject(parent), side_px_(side_px), icons_(most_kept) {
    pool_.setMaxThreadCount(most_threads);
}

ThumbnailMaker::~ThumbnailMaker() {
    pool_.clear();
    pool_.waitForDone();
}

QIcon ThumbnailMaker::icon(const QString& file) {
    if (const QIcon* there = icons_.object(file)) {
        return *there;
    }
    if (!asked_.contains(file)) {
        asked_.insert(file);
        pool_.start([this, file, side = side_px_] {
            const QImage image = small_picture(file, side);
            QMetaObject::invokeMethod(this, [this, file, image] { keep(file, image); });
        });
    }
    return {};
}

void ThumbnailMaker::keep(const QString& file, const QImage& image) {
    asked_.remove(file);
    const QIcon icon = image.isNull() ? QIcon() : QIcon(QPixmap::fromImage(image));
    icons_.insert(file, new QIcon(icon));
    emit made(file, icon);
}

} // namespace rodway
