#include "app/build/photos_panel.h"

#include <QCheckBox>
#include <QDateTime>
#include <QDialog>
#include <QFileDialog>
#include <QFileInfo>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QMimeData>
#include <QPushButton>
#include <QScreen>
#include <QTemporaryDir>
#include <QUrl>
#include <QVBoxLayout>
#include <algorithm>

#include "app/build/place_chooser.h"
#include "app/widgets/thumbnail.h"
#include "app/widgets/thumbnail_maker.h"
#include "app/words/counted.h"
#include "app/words/typed_words.h"
#include "app/work/photo_acts.h"
#include "app/work/picture_file.h"
#include "db/attachments.h"

namespace rodway {
namespace {

constexpr int thumbnail_px = 128;
constexpr int id_role = Qt::UserRole;
constexpr int file_role = Qt::UserRole + 1;

QString photo_text(const Photo& photo) {
    QString text = photo.caption ? utf16(photo.caption) : utf16(photo.file_name);
    if (photo.position) {
        text = PhotosPanel::tr("%1: %2").arg(utf16(photo.position), text);
    }
    return photo.in_book ? PhotosPanel::tr("%1 (book)").arg(text) : text;
}

} // namespace

PhotosPanel::PhotosPanel(Clock clock, PlaceChooser& place, PhotoFolder::Patience patience,
                         QWidget* parent)
    : BuildPanel(std::move(clock), parent),
      place_(place),
      thumbnails_(new ThumbnailMaker(thumbnail_px, this)),
      phone_(new PhotoFolder(patience, this)),
      empty_(new QLabel(tr("No photos here yet.\nDrop pictures anywhere on this page, paste them, "
                           "or let those come in by themselves that your phone uploads."))),
      photos_(new QListWidget) {
    empty_->setWordWrap(true);
    empty_->setAlignment(Qt::AlignTop | Qt::AlignLeft);
    photos_->setObjectName("photos");
    photos_->setAccessibleName(tr("Photos; Enter shows one large"));
    photos_->setViewMode(QListView::IconMode);
    photos_->setIconSize({thumbnail_px, thumbnail_px});
    photos_->setGridSize({thumbnail_px + 16, thumbnail_px + 44});
    photos_->setResizeMode(QListView::Adjust);
    photos_->setMovement(QListView::Static);
    photos_->setWordWrap(true);
    auto* title = new QLabel(tr("Photos"));
    title->setObjectName("subtitle");
    auto* add_files = new QPushButton(tr("Add &photos…"));
    auto* top = new QHBoxLayout;
    top->addWidget(title, 1);
    top->addWidget(add_files);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addLayout(top);
    layout->addWidget(empty_, 1);
    layout->addWidget(photos_, 1);
    layout->addWidget(make_words());
    layout->addWidget(make_folder());
    connect(add_files, &QPushButton::clicked, this, [this] {
        add(QFileDialog::getOpenFileNames(this, tr("Add photos"), {}, picture_filter()));
    });
    connect(photos_, &QListWidget::currentRowChanged, this, [this] {
        if (!filling_) {
            show_words();
        }
    });
    connect(photos_, &QListWidget::itemActivated, this, &PhotosPanel::open_chosen);
    connect(thumbnails_, &ThumbnailMaker::made, this, &PhotosPanel::show_icon);
    connect(&place_, &PlaceChooser::chosen, this, [this] {
        if (shown_ != nullptr) {
            show_photos();
        }
    });
    phone_->take = [this](const QString& file) { return take_from_folder(file); };
    connect(phone_, &PhotoFolder::refused, this, [this](const QString& name, PictureFile state) {
        emit failed(state == PictureFile::cut_short
                        ? tr("%1 came from the phone cut short: it has no end. It was not taken; "
                             "upload it again.")
                              .arg(name)
                        : tr("%1 came from the phone and is not a picture that can be shown. It "
                             "was not taken.")
                              .arg(name));
    });
}

QWidget* PhotosPanel::make_words() {
    words_ = new QWidget;
    name_ = new QLabel;
    name_->setTextFormat(Qt::PlainText);
    name_->setWordWrap(true);
    name_->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
    caption_ = new QLineEdit;
    caption_->setObjectName("photo_caption");
    caption_->setAccessibleName(tr("Caption"));
    position_ = new QLineEdit;
    position_->setObjectName("photo_position");
    position_->setAccessibleName(tr("Position"));
    in_book_ = new QCheckBox(tr("For the b&ook"));
    in_book_->setObjectName("photo_in_book");
    auto* large = new QPushButton(tr("Show &large"));
    auto* remove = new QPushButton(tr("Remo&ve"));
    remove->setObjectName("remove_photo");
    auto* buttons = new QHBoxLayout;
    buttons->addWidget(in_book_);
    buttons->addStretch();
    buttons->addWidget(large);
    buttons->addWidget(remove);
    auto* form = new QFormLayout(words_);
    form->setContentsMargins(0, 0, 0, 0);
    form->addRow(name_);
    form->addRow(tr("Caption"), caption_);
    form->addRow(tr("Position"), position_);
    form->addRow(buttons);
    connect(caption_, &QLineEdit::editingFinished, this, &PhotosPanel::keep_words);
    connect(position_, &QLineEdit::editingFinished, this, &PhotosPanel::keep_words);
    connect(in_book_, &QCheckBox::clicked, this, &PhotosPanel::keep_words);
    connect(large, &QPushButton::clicked, this, &PhotosPanel::open_chosen);
    connect(remove, &QPushButton::clicked, this, &PhotosPanel::remove_chosen);
    return words_;
}

QWidget* PhotosPanel::make_folder() {
    folder_ = new QLabel;
    folder_->setObjectName("phone_folder");
    folder_->setWordWrap(true);
    folder_->setTextFormat(Qt::PlainText);
    folder_->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
    auto* choose_folder = new QPushButton(tr("Phone's &folder…"));
    no_folder_ = new QPushButton(tr("&Stop"));
    auto* panel = new QWidget;
    auto* layout = new QHBoxLayout(panel);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(folder_, 1);
    layout->addWidget(choose_folder);
    layout->addWidget(no_folder_);
    connect(choose_folder, &QPushButton::clicked, this, [this] {
        const QString folder = QFileDialog::getExistingDirectory(
            this, tr("The folder to which the phone uploads its pictures"), PhotoFolder::folder());
        if (!folder.isEmpty()) {
            watch_folder(folder);
        }
    });
    connect(no_folder_, &QPushButton::clicked, this, [this] { watch_folder({}); });
    return panel;
}

void PhotosPanel::take(ShopSession* session, std::int64_t build_id) {
    if (session == nullptr) {
        keep_words(); // while the session is still there
    }
    BuildPanel::take(session, build_id);
    shown_ = nullptr;
    in_words_ = {};
    filling_ = true;
    photos_->clear();
    filling_ = false;
    show_folder();
    if (has_build()) {
        phone_->begin();
    }
}

void PhotosPanel::watch_folder(const QString& folder) {
    phone_->choose(folder);
    show_folder();
}

void PhotosPanel::show_folder() {
    const QString folder = PhotoFolder::folder();
    folder_->setText(folder.isEmpty()
                         ? tr("Pictures can come in by themselves from the folder to which a phone "
                              "uploads.")
                     : QFileInfo(folder).isDir()
                         ? tr("New pictures in %1 are taken in for the stage in hand.").arg(folder)
                         : tr("%1 isn't there now: nothing comes in until it is.").arg(folder));
    no_folder_->setVisible(!folder.isEmpty());
}

void PhotosPanel::show_build(const BuildShown& shown, std::int64_t stage_id) {
    shown_ = &shown;
    stage_id_ = stage_id;
    show_photos();
}

const Photo* PhotosPanel::photo(std::int64_t id) const {
    if (shown_ == nullptr) {
        return nullptr;
    }
    const auto found = std::find_if(shown_->photos.begin(), shown_->photos.end(),
                                    [id](const Photo& one) { return one.id == id; });
    return found == shown_->photos.end() ? nullptr : &*found;
}

const Photo* PhotosPanel::chosen() const {
    const QListWidgetItem* item = photos_->currentItem();
    return item == nullptr ? nullptr : photo(item->data(id_role).toLongLong());
}

void PhotosPanel::choose(std::int64_t photo_id) {
    place_.choose_build();
    choose_row(photo_id);
}

void PhotosPanel::choose_row(std::int64_t photo_id) {
    for (int row = 0; row < photos_->count(); ++row) {
        if (photos_->item(row)->data(id_role).toLongLong() == photo_id) {
            photos_->setCurrentRow(row);
        }
    }
}

void PhotosPanel::show_photos() {
    const Photo* before = chosen();
    const std::int64_t id = before != nullptr ? before->id : 0;
    filling_ = true;
    photos_->clear();
    for (auto one = shown_->photos.rbegin(); one != shown_->photos.rend(); ++one) {
        if (!place_.covers(one->stage_id, one->step_id)) {
            continue;
        }
        const auto path = path_of(session_->shop(), one->digest);
        const QString file = utf16(path);
        const QString text = photo_text(*one);
        auto* item = new QListWidgetItem(path ? thumbnails_->icon(file) : QIcon(),
                                         path ? text : tr("%1: file is missing").arg(text));
        item->setData(id_role, static_cast<qlonglong>(one->id));
        item->setData(file_role, file);
        item->setToolTip(belongs_text(*shown_, one->stage_id, one->step_id, one->position));
        photos_->addItem(item);
        if (one->id == id) {
            photos_->setCurrentItem(item);
        }
    }
    if (photos_->currentRow() < 0 && photos_->count() > 0) {
        photos_->setCurrentRow(0);
    }
    filling_ = false;
    empty_->setVisible(photos_->count() == 0);
    photos_->setVisible(photos_->count() > 0);
    show_words();
}

void PhotosPanel::show_icon(const QString& file, const QIcon& icon) {
    for (int row = 0; row < photos_->count(); ++row) {
        if (photos_->item(row)->data(file_role).toString() == file) {
            photos_->item(row)->setIcon(icon);
        }
    }
}

void PhotosPanel::show_words() {
    const Photo* shown = chosen();
    words_->setVisible(shown != nullptr);
    if (shown == nullptr) {
        in_words_ = {};
        return;
    }
    const bool same = in_words_.id == shown->id;
    const bool typing = same && (caption_->hasFocus() || position_->hasFocus());
    if (!typing) {
        caption_->setText(utf16(shown->caption));
        position_->setText(utf16(shown->position));
    }
    in_book_->setChecked(shown->in_book);
    name_->setText(utf16(shown->file_name));
    in_words_ = *shown;
}

void PhotosPanel::keep_words() {
    if (!has_build() || in_words_.id == 0) {
        return;
    }
    Photo after = in_words_;
    after.caption = caption_->text().toStdString();
    after.position = position_->text().toStdString();
    after.in_book = in_book_->isChecked();
    told(change_photo(*session_, in_words_, after));
}

void PhotosPanel::add(const QStringList& files) {
    if (!has_build()) {
        return;
    }
    QStringList troubles;
    int kept = 0;
    std::int64_t last = 0;
    for (const QString& file : files) {
        const auto id = keep_photo(*session_, place_.at(build_id_), file);
        if (id) {
            ++kept;
            last = *id;
        } else if (!is_waiting(id.error())) {
            troubles << words::typed_error(id.error(), {});
        }
    }
    if (last != 0) {
        choose_row(last);
    }
    if (!troubles.isEmpty()) {
        emit failed(troubles.join('\n'));
    } else if (kept > 0) {
        emit said(words::counted(kept, tr("Kept 1 photo."), tr("Kept %1 photos.")));
    }
}

bool PhotosPanel::add_from(const QMimeData& dropped) {
    QStringList files;
    for (const QUrl& url : dropped.urls()) {
        if (url.isLocalFile()) {
            files << url.toLocalFile();
        }
    }
    if (!files.isEmpty()) {
        add(files);
        return true;
    }
    const QImage image = qvariant_cast<QImage>(dropped.imageData());
    const QTemporaryDir folder;
    const QString name = tr("pasted %1.png").arg(QString::fromStdString(clock_()).remove(':'));
    if (image.isNull() || !image.save(folder.filePath(name))) {
        return false;
    }
    add({folder.filePath(name)});
    return true;
}

/// Into the stage in hand. What the shop has already isn't taken a second time, under whatever name
/// and whichever build it has it.
bool PhotosPanel::take_from_folder(const QString& file) {
    if (!has_build() || shown_ == nullptr) { // which stage is in hand isn't known yet
        return false;
    }
    const auto digest = digest_of_file(file.toStdString());
    if (!digest) {
        return false;
    }
    if (path_of(session_->shop(), *digest)) {
        return true;
    }
    KeptAt at{build_id_};
    if (stage_id_ != 0) {
        at.stage_id = stage_id_;
    }
    const auto id = keep_photo(*session_, at, file);
    if (id) {
        emit said(tr("Took %1 from the phone's folder.").arg(QFileInfo(file).fileName()));
        return true;
    }
    if (!is_waiting(id.error())) {
        tell(id.error());
    }
    return is_waiting(id.error());
}

void PhotosPanel::open_chosen() {
    const Photo* shown = chosen();
    const auto path = shown != nullptr ? path_of(session_->shop(), shown->digest) : std::nullopt;
    if (!path) {
        return;
    }
    QDialog dialog(this);
    dialog.setWindowTitle(photo_text(*shown));
    const QSize room = screen()->availableSize() * 0.85;
    auto* picture = new QLabel;
    picture->setAccessibleName(photo_text(*shown));
    picture->setPixmap(
        QPixmap::fromImage(small_picture(utf16(path), std::min(room.width(), room.height()))));
    auto* layout = new QVBoxLayout(&dialog);
    layout->addWidget(picture);
    dialog.exec();
}

void PhotosPanel::remove_chosen() {
    if (const Photo* shown = chosen()) {
        in_words_ = {};
        told(take_away(*session_, {RecordKind::photo, shown->id}, tr("photo taken away")));
    }
}

} // namespace rodway
