#include "app/build/build_page.h"

#include <QCheckBox>
#include <QDragEnterEvent>
#include <QFileDialog>
#include <QFileInfo>
#include <QImageReader>
#include <QLabel>
#include <QListWidget>
#include <QMimeData>
#include <QPushButton>
#include <QVBoxLayout>

#include "app/edit_stack/waiting_records.h"
#include "app/words/cautions.h"
#include "app/words/error_text.h"
#include "app/work/clock.h"
#include "db/attachments.h"
#include "db/build_store.h"
#include "db/photo_store.h"

namespace rodway {
namespace {

constexpr int thumbnail_px = 120;

QString tick_text(const Step& step) {
    QString text = QString::fromStdString(step.title);
    if (step.ticked_at) {
        text += BuildPage::tr("   (%1, %2)")
                    .arg(QString::fromStdString(step.ticked_by.value_or("")),
                         QString::fromStdString(step.ticked_at->substr(0, 10)));
    }
    return text;
}

QIcon thumbnail(const QString& file) {
    QImageReader reader(file);
    reader.setAutoTransform(true);
    QSize size = reader.size();
    if (size.isValid()) {
        reader.setScaledSize(size.scaled(thumbnail_px, thumbnail_px, Qt::KeepAspectRatio));
    }
    const QImage image = reader.read();
    return image.isNull() ? QIcon() : QIcon(QPixmap::fromImage(image));
}

} // namespace

BuildPage::BuildPage(QWidget* parent)
    : PlacePage(parent),
      title_(new QLabel),
      details_(new QLabel),
      rail_(new QListWidget),
      stage_title_(new QLabel),
      caution_(new QLabel),
      steps_(new QVBoxLayout),
      photos_(new QListWidget) {
    setAcceptDrops(true);
    title_->setObjectName("title");
    stage_title_->setObjectName("subtitle");
    details_->setWordWrap(true);
    caution_->setObjectName("caution");
    caution_->setWordWrap(true);
    rail_->setObjectName("stage_rail");
    rail_->setAccessibleName(tr("Stages"));
    rail_->setFixedWidth(310);
    rail_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    rail_->setSpacing(3);
    photos_->setObjectName("photos");
    photos_->setAccessibleName(tr("Photos"));
    photos_->setViewMode(QListView::IconMode);
    photos_->setIconSize({thumbnail_px, thumbnail_px});
    photos_->setResizeMode(QListView::Adjust);
    photos_->setMovement(QListView::Static);

    auto* valvetrain = new QPushButton(tr("Valvetrain"));
    auto* add_photo = new QPushButton(tr("Add photo…"));
    auto* top = new QHBoxLayout;
    top->addWidget(title_);
    top->addStretch();
    top->addWidget(valvetrain);

    auto* stage = new QVBoxLayout;
    stage->addWidget(stage_title_);
    stage->addWidget(caution_);
    stage->addLayout(steps_);
    auto* photo_row = new QHBoxLayout;
    auto* photo_title = new QLabel(tr("Photos of this stage (drop pictures here)"));
    photo_title->setObjectName("subtitle");
    photo_row->addWidget(photo_title);
    photo_row->addStretch();
    photo_row->addWidget(add_photo);
    stage->addSpacing(12);
    stage->addLayout(photo_row);
    stage->addWidget(photos_, 1);

    auto* columns = new QHBoxLayout;
    columns->addWidget(rail_);
    columns->addSpacing(12);
    columns->addLayout(stage, 1);
    auto* layout = new QVBoxLayout(this);
    layout->addLayout(top);
    layout->addWidget(details_);
    layout->addLayout(columns, 1);

    connect(rail_, &QListWidget::currentRowChanged, this, &BuildPage::show_stage);
    connect(valvetrain, &QPushButton::clicked, this, &BuildPage::valvetrain_wanted);
    connect(add_photo, &QPushButton::clicked, this, [this] {
        add_photos(QFileDialog::getOpenFileNames(this, tr("Add photos"), {},
                                                 tr("Pictures (*.jpg *.jpeg *.png)")));
    });
}

void BuildPage::take(ShopSession* session, std::int64_t build_id) {
    session_ = session;
    build_id_ = build_id;
    stages_.clear();
    rail_->clear();
    refresh();
}

void BuildPage::refresh() {
    if (!session_ || build_id_ == 0) {
        return;
    }
    const auto build = load_build(session_->shop(), build_id_);
    const auto stages = stages_with_steps(session_->shop(), build_id_);
    if (!build || !stages) {
        emit failed(words::error_text(!build ? build.error() : stages.error()));
        return;
    }
    title_->setText(QString::fromStdString(build->name));
    details_->setText(tr("For %1. %2. Promised %3.")
                          .arg(QString::fromStdString(build->customer),
                               QString::fromStdString(build->engine),
                               QString::fromStdString(
                                   build->promised.value_or(tr("without a date").toStdString()))));
    const bool first = rail_->count() == 0;
    int in_hand = rail_->currentRow();
    stages_ = *stages;
    const QSignalBlocker quiet(rail_);
    rail_->clear();
    for (std::size_t at = 0; at < stages_.size(); ++at) {
        const auto& steps = stages_[at].steps;
        const auto ticked = std::count_if(steps.begin(), steps.end(), [](const Step& step) {
            return step.ticked_at.has_value();
        });
        const bool whole = ticked == static_cast<long>(steps.size());
        rail_->addItem(tr("%1  %2   %3 of %4")
                           .arg(whole        ? QString(u'\u2713')
                                : ticked > 0 ? QString(u'\u25d0')
                                             : QString(u'\u25cb'),
                                QString::fromStdString(stages_[at].stage.title))
                           .arg(ticked)
                           .arg(steps.size()));
        if (first && in_hand < 0 && !whole) {
            in_hand = static_cast<int>(at);
        }
    }
    rail_->setCurrentRow(std::clamp(in_hand, 0, std::max(0, rail_->count() - 1)));
    show_stage(rail_->currentRow());
}

void BuildPage::show_stage(int row) {
    while (QLayoutItem* item = steps_->takeAt(0)) {
        if (item->widget()) {
            item->widget()->deleteLater();
        }
        delete item;
    }
    if (row < 0 || static_cast<std::size_t>(row) >= stages_.size()) {
        return;
    }
    const StageWithSteps& in_hand = stages_[static_cast<std::size_t>(row)];
    stage_title_->setText(QString::fromStdString(in_hand.stage.title));
    const QString caution =
        words::caution(QString::fromStdString(in_hand.stage.caution.value_or("")));
    caution_->setText(tr("<b>Caution.</b> %1").arg(caution.toHtmlEscaped()));
    caution_->setVisible(!caution.isEmpty());
    for (const Step& step : in_hand.steps) {
        const WaitingAct* waits = waiting_tick(session_->waiting(), step.id);
        const Step shown = waits != nullptr ? ticked_by(*waits, step) : step;
        auto* box = new QCheckBox(waits != nullptr ? tr("%1   not saved yet").arg(tick_text(shown))
                                                   : tick_text(shown));
        box->setChecked(shown.ticked_at.has_value());
        connect(box, &QCheckBox::clicked, this, [this, step](bool ticked) { tick(step, ticked); });
        steps_->addWidget(box);
    }
    show_photos();
}

void BuildPage::tick(const Step& step, bool ticked) {
    // What isn't saved yet is let go rather than taken back by a second act.
    if (const WaitingAct* waits = waiting_tick(session_->waiting(), step.id)) {
        session_->drop(waits->key);
        QMetaObject::invokeMethod(this, &BuildPage::refresh, Qt::QueuedConnection);
        return;
    }
    const auto done = session_->act(
        ticked ? edits_to_tick(step, session_->who().toStdString(), now_utc())
               : edits_to_untick(step),
        ticked ? tr("tick “%1”").arg(QString::fromStdString(step.title))
               : tr("tick taken back from “%1”").arg(QString::fromStdString(step.title)));
    if (!done) {
        // What waits is told by its own bar.
        if (!is_waiting(done.error())) emit failed(words::error_text(done.error()));
        // The box goes back to what is stored once this click has been dealt with.
        QMetaObject::invokeMethod(this, &BuildPage::refresh, Qt::QueuedConnection);
    }
}

void BuildPage::show_photos() {
    photos_->clear();
    const auto found = photos(session_->shop(), build_id_);
    if (!found) {
        emit failed(words::error_text(found.error()));
        return;
    }
    const std::int64_t stage = stages_[static_cast<std::size_t>(rail_->currentRow())].stage.id;
    for (const Photo& photo : *found) {
        if (photo.stage_id != stage) {
            continue;
        }
        const auto path = path_of(session_->shop(), photo.digest);
        const QString name = QString::fromStdString(photo.file_name);
        auto* item = new QListWidgetItem(path ? thumbnail(QString::fromStdString(*path)) : QIcon(),
                                         path ? name : tr("%1: file is missing").arg(name));
        photos_->addItem(item);
    }
}

void BuildPage::add_photos(const QStringList& files) {
    if (!session_ || rail_->currentRow() < 0) {
        return;
    }
    const std::int64_t stage = stages_[static_cast<std::size_t>(rail_->currentRow())].stage.id;
    for (const QString& file : files) {
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
                return edits_to_create(Photo{photo_id, build_id_, stage, kept->digest,
                                             kept->file_name, std::nullopt, now_utc()});
            },
            tr("photo"));
        if (!id) {
            if (!is_waiting(id.error())) emit failed(words::error_text(id.error()));
        } else {
            emit said(tr("Kept %1.").arg(QString::fromStdString(kept->file_name)));
        }
    }
}

void BuildPage::dragEnterEvent(QDragEnterEvent* event) {
    if (event->mimeData()->hasUrls()) {
        event->acceptProposedAction();
    }
}

void BuildPage::dropEvent(QDropEvent* event) {
    QStringList files;
    for (const QUrl& url : event->mimeData()->urls()) {
        if (url.isLocalFile()) {
            files << url.toLocalFile();
        }
    }
    add_photos(files);
    event->acceptProposedAction();
}

} // namespace rodway
