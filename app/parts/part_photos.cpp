#include "app/parts/part_photos.h"

#include <QFileDialog>
#include <QFileInfo>
#include <QImageReader>
#include <QListWidget>
#include <QPushButton>
#include <QVBoxLayout>

#include "app/words/error_text.h"
#include "db/attachments.h"
#include "db/photo_store.h"

namespace rodway {
namespace {

constexpr int photo_px = 72;
constexpr int name_px = 44; ///< room for the names under the pictures

QIcon thumbnail(const QString& file) {
    QImageReader reader(file);
    reader.setAutoTransform(true);
    if (const QSize size = reader.size(); size.isValid()) {
        reader.setScaledSize(size.scaled(photo_px, photo_px, Qt::KeepAspectRatio));
    }
    const QImage image = reader.read();
    return image.isNull() ? QIcon() : QIcon(QPixmap::fromImage(image));
}

} // namespace

PartPhotos::PartPhotos(QWidget* parent)
    : QWidget(parent), list_(new QListWidget), add_(new QPushButton(tr("Add &photo…"))) {
    list_->setObjectName("part_photos");
    list_->setAccessibleName(tr("Photos of the part"));
    list_->setViewMode(QListView::IconMode);
    list_->setIconSize({photo_px, photo_px});
    list_->setMovement(QListView::Static);
    list_->setWordWrap(true);
    list_->setFixedHeight(photo_px + name_px);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(list_);
    layout->addWidget(add_, 0, Qt::AlignLeft);
    connect(add_, &QPushButton::clicked, this, [this] {
        add(QFileDialog::getOpenFileNames(this, tr("Photos of the part"), {},
                                          tr("Pictures (*.jpg *.jpeg *.png)")));
    });
}

void PartPhotos::take(ShopSession* session, const std::optional<PartRecord>& part) {
    session_ = session;
    part_ = session != nullptr ? part : std::nullopt;
    add_->setEnabled(part_.has_value());
    show_photos();
}

void PartPhotos::show_photos() {
    list_->clear();
    const auto all = part_ ? photos(session_->shop(), part_->build_id)
                           : Result<std::vector<Photo>>(std::vector<Photo>());
    if (!all) {
        emit failed(words::error_text(all.error()));
        return;
    }
    for (const Photo& photo : *all) {
        if (photo.part_id != part_->id) {
            continue;
        }
        const auto path = path_of(session_->shop(), photo.digest);
        const QString name = QString::fromStdString(photo.file_name);
        auto* item = new QListWidgetItem(path ? thumbnail(QString::fromStdString(*path)) : QIcon(),
                                         path ? name : tr("%1: file is missing").arg(name));
        item->setToolTip(name);
        list_->addItem(item);
    }
    list_->setVisible(list_->count() > 0);
}

void PartPhotos::add(const QStringList& files) {
    const auto part = part_; // each photo that is kept shows the part anew
    for (const QString& file : part ? files : QStringList()) {
        if (!QImageReader(file).canRead()) {
            emit failed(tr("%1 is not a picture that can be shown. Nothing was added.")
                            .arg(QFileInfo(file).fileName()));
            continue;
        }
        const auto kept = keep(session_->shop(), file.toStdString());
        if (!kept) {
            emit failed(words::error_text(kept.error()));
            continue;
        }
        const auto id = session_->create(
            RecordKind::photo,
            [&](std::int64_t photo_id) {
                Photo photo;
                photo.id = photo_id;
                photo.build_id = part->build_id;
                photo.digest = kept->digest;
                photo.file_name = kept->file_name;
                photo.added_at = session_->now();
                photo.added_by = session_->who().toStdString();
                photo.part_id = part->id;
                photo.step_id = part->step_id;
                return edits_to_create(photo);
            },
            tr("photo of a part"));
        if (!id && !is_waiting(id.error())) {
            emit failed(words::error_text(id.error()));
        }
    }
}

} // namespace rodway
