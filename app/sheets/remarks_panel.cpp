#include "app/sheets/remarks_panel.h"

#include <QComboBox>
#include <QDragEnterEvent>
#include <QFileDialog>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QMimeData>
#include <QPushButton>
#include <QVBoxLayout>

#include "app/widgets/thumbnail.h"
#include "app/words/hold_words.h"
#include "app/words/sheet_words.h"
#include "db/attachments.h"

namespace rodway {
namespace {

constexpr int thumbnail_px = 84;

QString text_of(const std::string& utf8) {
    return QString::fromStdString(utf8);
}

QString note_text(const Note& note) {
    const QString where =
        note.position ? RemarksPanel::tr("%1: ").arg(text_of(*note.position)) : QString();
    return RemarksPanel::tr("%1%2\n(%3, %4)")
        .arg(where, text_of(note.text), text_of(note.written_by), words::day_of(note.written_at));
}

} // namespace

RemarksPanel::RemarksPanel(QWidget* parent)
    : QWidget(parent),
      notes_(new QListWidget),
      text_(new QLineEdit),
      where_(new QComboBox),
      photos_(new QListWidget) {
    setAcceptDrops(true);
    notes_->setObjectName("sheet_notes");
    notes_->setAccessibleName(tr("Notes on this sheet"));
    notes_->setWordWrap(true);
    notes_->setAlternatingRowColors(true);
    notes_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    text_->setObjectName("sheet_note");
    text_->setAccessibleName(tr("New note"));
    text_->setPlaceholderText(tr("a note; Enter keeps it"));
    where_->setObjectName("remark_where");
    where_->setAccessibleName(tr("Note and photos belong to"));
    photos_->setObjectName("sheet_photos");
    photos_->setAccessibleName(tr("Photos of this sheet"));
    photos_->setViewMode(QListView::IconMode);
    photos_->setIconSize({thumbnail_px, thumbnail_px});
    photos_->setResizeMode(QListView::Adjust);
    photos_->setMovement(QListView::Static);
    photos_->setAcceptDrops(false);
    auto* add = new QPushButton(tr("Add photos…"));
    auto* photo_row = new QHBoxLayout;
    photo_row->addWidget(new QLabel(tr("Photos (drop them here)")), 1);
    photo_row->addWidget(add);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(4, 6, 4, 4);
    layout->addWidget(where_);
    layout->addWidget(text_);
    layout->addWidget(notes_, 1);
    layout->addLayout(photo_row);
    layout->addWidget(photos_, 1);
    connect(text_, &QLineEdit::returnPressed, this, &RemarksPanel::keep_note);
    connect(add, &QPushButton::clicked, this, &RemarksPanel::choose_photos);
}

void RemarksPanel::show_remarks(const ShopFile& shop, const SheetRemarks& remarks) {
    notes_->clear();
    for (const Note& note : remarks.notes) {
        notes_->addItem(note_text(note));
    }
    if (remarks.notes.empty()) {
        notes_->addItem(tr("No notes on this sheet yet."));
    }
    photos_->clear();
    for (const Photo& photo : remarks.photos) {
        const auto path = path_of(shop, photo.digest);
        QString name = photo.position
                           ? tr("%1: %2").arg(text_of(*photo.position), text_of(photo.file_name))
                           : text_of(photo.file_name);
        if (!path) {
            name = tr("%1: file is missing").arg(name);
        }
        photos_->addItem(
            new QListWidgetItem(path ? thumbnail(text_of(*path), thumbnail_px) : QIcon(), name));
    }
}

void RemarksPanel::show_place(Place place, const std::optional<std::string>& position) {
    const bool of_box = where_->currentIndex() == 1;
    position_ = position;
    where_->clear();
    where_->addItem(tr("To the whole sheet"));
    if (position_ && !position_->empty()) {
        where_->addItem(tr("To %1").arg(words::sheet_position(*position_, place)));
        where_->setCurrentIndex(of_box ? 1 : 0);
    }
}

void RemarksPanel::clear_entry() {
    text_->clear();
}

std::string RemarksPanel::chosen_position() const {
    return where_->currentIndex() == 1 && position_ ? *position_ : std::string();
}

void RemarksPanel::keep_note() {
    emit note_wanted(text_->text().trimmed(), chosen_position());
}

void RemarksPanel::choose_photos() {
    const QStringList files = QFileDialog::getOpenFileNames(this, tr("Add photos"), {},
                                                            tr("Pictures (*.jpg *.jpeg *.png)"));
    if (!files.isEmpty()) {
        emit photos_wanted(files, chosen_position());
    }
}

void RemarksPanel::dragEnterEvent(QDragEnterEvent* event) {
    if (event->mimeData()->hasUrls()) {
        event->acceptProposedAction();
    }
}

void RemarksPanel::dropEvent(QDropEvent* event) {
    QStringList files;
    for (const QUrl& url : event->mimeData()->urls()) {
        if (url.isLocalFile()) {
            files << url.toLocalFile();
        }
    }
    event->acceptProposedAction();
    emit photos_wanted(files, chosen_position());
}

} // namespace rodway
