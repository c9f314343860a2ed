#include "app/shop/erase_dialog.h"

#include <QCheckBox>
#include <QDialogButtonBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>
#include <algorithm>

#include "app/words/counted.h"
#include "app/words/error_text.h"
#include "app/words/record_words.h"
#include "app/work/backup_keeper.h"
#include "app/work/clock.h"
#include "app/work/shop_copies.h"
#include "db/backups.h"
#include "db/build_store.h"
#include "db/erasure.h"

namespace rodway {
namespace {

QLabel* plain_label(const QString& text) {
    auto* label = new QLabel(text);
    label->setTextFormat(Qt::PlainText);
    label->setWordWrap(true);
    return label;
}

} // namespace

QString EraseDialog::word() {
    return tr("erase");
}

EraseDialog::EraseDialog(ShopSession& session, std::int64_t customer_id, const QString& name,
                         QWidget* parent)
    : QDialog(parent),
      session_(session),
      customer_id_(customer_id),
      trouble_(plain_label({})),
      copies_too_(new QCheckBox),
      typed_(new QLineEdit) {
    setWindowTitle(tr("Erase a customer"));
    setMinimumWidth(560);
    auto* title = plain_label(tr("Erase “%1”").arg(name.left(80)));
    title->setObjectName("subtitle");
    auto* warning = plain_label(
        tr("\u26a0 This can't be taken back, not by Undo either. Name, telephone, mail address, "
           "address and note go from the record, from the builds and from their whole history; "
           "the books given away that this shop keeps of these builds are deleted. "
           "The builds themselves, their readings and parts stay."));
    warning->setObjectName("caution");
    auto* rest =
        plain_label(tr("It can't reach what left this file before: build books and papers "
                       "that were given away, and copies kept elsewhere, still name the "
                       "customer."));
    const auto copies =
        copies_of_shop(session.shop().path(), BackupKeeper::second_place().toStdString());
    if (copies) {
        copies_ = *copies;
    } else {
        trouble_->setText(words::error_text(copies.error()));
    }
    copies_too_->setObjectName("delete_backups");
    copies_too_->setText(
        words::counted(static_cast<int>(copies_.size()),
                       tr("Make a new backup, then delete the older one that still holds it"),
                       tr("Make a new backup, then delete the %1 older ones that still hold it")));
    copies_too_->setVisible(!copies_.isEmpty());
    typed_->setObjectName("erase_word");
    typed_->setAccessibleName(tr("Type “%1” to go on").arg(word()));
    trouble_->setObjectName("trouble");
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Cancel);
    erase_ = buttons->addButton(tr("Erase for good"), QDialogButtonBox::DestructiveRole);
    erase_->setObjectName("erase_for_good");
    erase_->setEnabled(false);
    erase_->setAutoDefault(false);
    buttons->button(QDialogButtonBox::Cancel)->setDefault(true);
    auto* layout = new QVBoxLayout(this);
    for (QWidget* part : {static_cast<QWidget*>(title), static_cast<QWidget*>(warning),
                          static_cast<QWidget*>(rest), static_cast<QWidget*>(copies_too_),
                          static_cast<QWidget*>(plain_label(tr("Type “%1” to go on:").arg(word()))),
                          static_cast<QWidget*>(typed_), static_cast<QWidget*>(trouble_)}) {
        layout->addWidget(part);
    }
    layout->addWidget(buttons);
    connect(typed_, &QLineEdit::textChanged, this, [this](const QString& text) {
        erase_->setEnabled(text.trimmed().compare(word(), Qt::CaseInsensitive) == 0);
    });
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    connect(erase_, &QPushButton::clicked, this, &EraseDialog::erase);
    typed_->setFocus();
}

void EraseDialog::erase() {
    const auto erasure =
        erase_customer(session_.shop(), customer_id_, session_.who().toStdString(), session_.now());
    if (!erasure) {
        trouble_->setText(words::error_text(erasure.error()));
        return;
    }
    session_.look_for_changes();
    QStringList lines{tr("Erased from the records and their history.")};
    if (!erasure->file_cleared) {
        lines << tr(
            "Traces may stay in the file's free space while another window has it open. "
            "Close that one and erase again.");
    }
    for (const std::int64_t id : erasure->builds) {
        const auto build = load_build(session_.shop(), id);
        lines << tr("Books given away of “%1” still name the customer.")
                     .arg(build ? QString::fromStdString(build->name) : QString::number(id));
    }
    if (erasure->books_deleted > 0) {
        lines << words::counted(erasure->books_deleted,
                                tr("Deleted 1 book that was kept here of these builds."),
                                tr("Deleted %1 books that were kept here of these builds."));
    }
    for (const std::string& book : erasure->books_left) {
        lines << tr("This book could not be deleted: %1").arg(QString::fromStdString(book));
    }
    for (const TextToErase& still : erasure->still_named) {
        lines << tr("Still named in %1 %2, %3: look at it, and change it if it should go.")
                     .arg(words::record_kind(still.record.kind), QString::number(still.record.id),
                          words::field_name(still.field));
    }
    if (copies_too_->isChecked()) {
        delete_copies(lines);
    } else if (!copies_.isEmpty()) {
        lines << words::counted(static_cast<int>(copies_.size()), tr("1 backup still holds it."),
                                tr("%1 backups still hold it."));
    }
    outcome_ = lines.join('\n');
    accept();
}

/// Only what was there before, and only once a whole newer one is there.
void EraseDialog::delete_copies(QStringList& lines) {
    std::vector<std::string> places{std::string()};
    const std::string second = BackupKeeper::second_place().toStdString();
    const auto holds_second = [&](const QString& copy) {
        return copy.startsWith(
            QString::fromStdString(backups_folder(session_.shop().path(), second)));
    };
    if (!second.empty() && std::any_of(copies_.begin(), copies_.end(), holds_second)) {
        places.push_back(second);
    }
    for (const std::string& place : places) {
        const auto made = back_up(session_.shop(), place, now_utc());
        if (!made) {
            lines << words::counted(static_cast<int>(copies_.size()),
                                    tr("No new backup could be made, so the old one stays."),
                                    tr("No new backup could be made, so the %1 old ones stay.")) +
                         ' ' + words::error_text(made.error());
            return;
        }
    }
    const QStringList left = remove_copies(copies_);
    lines << words::counted(static_cast<int>(copies_.size() - left.size()),
                            tr("Made a new backup and deleted 1 old one."),
                            tr("Made a new backup and deleted %1 old ones."));
    for (const QString& path : left) {
        lines << tr("This copy could not be deleted: %1").arg(path);
    }
}

} // namespace rodway
