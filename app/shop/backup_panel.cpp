#include "app/shop/backup_panel.h"

#include <QDateTime>
#include <QDir>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QListWidget>
#include <QLocale>
#include <QMessageBox>
#include <QPushButton>
#include <QTableWidget>
#include <QVBoxLayout>
#include <algorithm>

#include "app/widgets/keep_room.h"
#include "app/widgets/plain_tip.h"
#include "app/words/backup_words.h"
#include "app/words/check_words.h"
#include "app/words/error_text.h"
#include "app/work/backup_keeper.h"
#include "app/work/clock.h"

namespace rodway {
namespace {

enum Column {
    age_column,
    made_column,
    where_column,
    kind_column,
    act_column,
    size_column,
    columns
};

QString local_time(BackupTime time) {
    return QDateTime::fromSecsSinceEpoch(time.time_since_epoch().count())
        .toString("yyyy-MM-dd HH:mm");
}

QLabel* plain_label(const QString& text = {}) {
    auto* label = new QLabel(text);
    label->setTextFormat(Qt::PlainText);
    label->setWordWrap(true);
    return label;
}

} // namespace

BackupPanel::BackupPanel(QWidget* parent)
    : QWidget(parent),
      listing_(std::make_unique<NewestRequest>()),
      checking_(std::make_unique<NewestRequest>()),
      second_(plain_label()),
      forget_(new QPushButton(tr("Don't use it any more"))),
      table_(new QTableWidget(0, columns)),
      empty_(plain_label(tr("No backups yet. The first one is made as soon as something is done in "
                            "the shop; “Back up now” doesn't wait for that."))),
      restore_(new QPushButton(tr("Restore this one…"))),
      check_(new QPushButton(tr("Check the shop file"))),
      outcome_(new QListWidget) {
    auto* about = plain_label(
        tr("A backup is made when the shop is opened, every day that it is worked in, and when it "
           "is closed. The last ten stay, one of each of twelve weeks, and one of every month. A "
           "disk that fails takes both with it: give a folder on another disk too."));
    table_->setObjectName("backups");
    table_->setAccessibleName(tr("Backups"));
    table_->setHorizontalHeaderLabels(
        {tr("Age"), tr("Made"), tr("Where"), tr("What it is"), tr("Up to act"), tr("Size")});
    table_->verticalHeader()->hide();
    table_->setSelectionBehavior(QAbstractItemView::SelectRows);
    table_->setSelectionMode(QAbstractItemView::SingleSelection);
    table_->setEditTriggers(QAbstractItemView::NoEditTriggers);
    table_->setTabKeyNavigation(false);
    table_->setAlternatingRowColors(true);
    keep_room(*table_);
    table_->setShowGrid(false);
    table_->horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    table_->horizontalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    table_->horizontalHeader()->setSectionResizeMode(kind_column, QHeaderView::Stretch);
    outcome_->setObjectName("check_outcome");
    outcome_->setAccessibleName(tr("What the check found"));
    outcome_->setWordWrap(true);
    outcome_->setMaximumHeight(150);
    outcome_->hide();
    auto* now = new QPushButton(tr("Back up now"));
    auto* folder = new QPushButton(tr("Second folder…"));
    auto* rescue = new QPushButton(tr("Rescue a damaged file…"));
    now->setObjectName("back_up_now");
    restore_->setObjectName("restore");
    check_->setObjectName("check_file");
    auto* top = new QHBoxLayout;
    top->addWidget(second_, 1);
    top->addWidget(folder);
    top->addWidget(forget_);
    auto* bottom = new QHBoxLayout;
    for (QPushButton* button : {now, restore_}) bottom->addWidget(button);
    bottom->addStretch();
    for (QPushButton* button : {check_, rescue}) bottom->addWidget(button);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(about);
    layout->addLayout(top);
    layout->addWidget(empty_);
    layout->addWidget(table_, 1);
    layout->addLayout(bottom);
    layout->addWidget(outcome_);
    connect(now, &QPushButton::clicked, this, &BackupPanel::back_up_wanted);
    connect(folder, &QPushButton::clicked, this, [this] {
        emit second_folder_wanted();
        refresh();
    });
    connect(forget_, &QPushButton::clicked, this, &BackupPanel::forget_second);
    connect(restore_, &QPushButton::clicked, this, &BackupPanel::ask_restore);
    connect(check_, &QPushButton::clicked, this, &BackupPanel::check_file);
    connect(rescue, &QPushButton::clicked, this, &BackupPanel::rescue_wanted);
    connect(table_, &QTableWidget::itemSelectionChanged, this, [this] {
        const int row = table_->currentRow();
        restore_->setEnabled(row >= 0 && row < static_cast<int>(lines_.size()));
    });
    show_lines({});
}

void BackupPanel::take(ShopSession* session) {
    session_ = session;
    // Whoever reads a file that is about to be replaced is waited for.
    listing_ = std::make_unique<NewestRequest>();
    checking_ = std::make_unique<NewestRequest>();
    check_->setEnabled(true);
    outcome_->hide();
    show_lines({});
    if (isVisible()) refresh();
}

BackupPanel::Listed BackupPanel::list(const std::string& shop, const std::string& second) {
    Listed listed;
    const auto add = [&](const std::string& place) {
        const auto found = backups_in(backups_folder(shop, place));
        if (!found) {
            listed.failures.push_back(found.error());
            return;
        }
        for (const Backup& backup : *found) {
            if (backup.name.shop == shop_name(shop)) {
                listed.lines.push_back({backup, !place.empty()});
            }
        }
    };
    add({});
    if (!second.empty()) add(second);
    std::stable_sort(listed.lines.begin(), listed.lines.end(),
                     [](const BackupLine& a, const BackupLine& b) {
                         return a.backup.name.made > b.backup.name.made;
                     });
    return listed;
}

void BackupPanel::refresh() {
    show_second();
    if (session_ == nullptr) {
        show_lines({});
        return;
    }
    listing_->ask<Listed>(
        [shop = session_->shop().path(), second = BackupKeeper::second_place().toStdString()](
            const std::stop_token&) { return list(shop, second); },
        [this](const Listed& listed) {
            show_lines(listed);
            for (const Error& failure : listed.failures) emit failed(words::error_text(failure));
        });
}

void BackupPanel::show_second() {
    const QString folder = BackupKeeper::second_place();
    second_->setText(folder.isEmpty() ? tr("No second folder is set.")
                                      : tr("Second folder: %1").arg(folder));
    forget_->setVisible(!folder.isEmpty());
}

void BackupPanel::show_lines(const Listed& listed) {
    const auto now = backup_time_from(now_utc());
    RODWAY_ASSERT(now.has_value());
    lines_ = listed.lines;
    table_->setRowCount(static_cast<int>(lines_.size()));
    for (std::size_t which = 0; which < lines_.size(); ++which) {
        const Backup& backup = lines_[which].backup;
        const QStringList texts{
            words::backup_age(backup.name.made, *now),
            local_time(backup.name.made),
            lines_[which].second_place ? tr("second folder") : tr("beside the shop file"),
            words::backup_kind(backup.name.kind),
            backup.history ? QString::number(backup.history->act)
                           : tr("\u26a0 doesn't open as a shop file"),
            QLocale().formattedDataSize(backup.bytes, 1, QLocale::DataSizeTraditionalFormat)};
        for (int column = 0; column < columns; ++column) {
            auto* item = new QTableWidgetItem(texts[column]);
            item->setToolTip(plain_tip(QString::fromStdString(backup.path)));
            table_->setItem(static_cast<int>(which), column, item);
        }
    }
    empty_->setVisible(lines_.empty());
    table_->setVisible(!lines_.empty());
    restore_->setEnabled(table_->currentRow() >= 0);
}

void BackupPanel::forget_second() {
    BackupKeeper::set_second_place({});
    refresh();
    emit said(
        tr("Backups are made beside the shop file only. Those on the other disk are left "
           "alone."));
}

void BackupPanel::ask_restore() {
    const int row = table_->currentRow();
    if (row < 0 || row >= static_cast<int>(lines_.size())) return;
    const Backup& backup = lines_[static_cast<std::size_t>(row)].backup;
    QMessageBox box(
        QMessageBox::Warning, tr("Restore a backup"),
        tr("The shop goes back to how it stood on %1. What was done since is not in "
           "it any more.\n\nThe shop file as it is now is copied first, and stands in "
           "this list as “%2”.")
            .arg(local_time(backup.name.made), words::backup_kind(BackupKind::before_restore)),
        QMessageBox::Cancel, this);
    auto* go = box.addButton(tr("Restore it"), QMessageBox::AcceptRole);
    box.setDefaultButton(QMessageBox::Cancel);
    box.exec();
    if (box.clickedButton() == go) emit restore_wanted(QString::fromStdString(backup.path));
}

void BackupPanel::check_file() {
    if (session_ == nullptr || checking_->busy()) return;
    check_->setEnabled(false);
    outcome_->clear();
    outcome_->addItem(tr("Checking … you can go on working."));
    outcome_->show();
    checking_->ask<Result<CheckReport>>(
        [path = session_->shop().path()](const std::stop_token&) -> Result<CheckReport> {
            auto opened = ShopFile::open_to_look(path);
            if (!opened) return opened.error();
            return ShopFile(std::move(opened).value()).check();
        },
        [this](const Result<CheckReport>& report) {
            check_->setEnabled(true);
            outcome_->clear();
            if (!report) {
                outcome_->addItem(words::error_text(report.error()));
                return;
            }
            for (const Finding& finding : report->findings) {
                outcome_->addItem(tr("\u26a0 %1").arg(words::check_finding(finding)));
            }
            outcome_->addItem(
                report->findings.empty()
                    ? tr("\u2713 The file is sound: pages, references, photos, history and search "
                         "index agree.")
                    : tr("Keep the file as it is, and restore a backup from before this, or "
                         "rescue what can be read into a new file."));
        });
}

} // namespace rodway
