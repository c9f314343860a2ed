#include "app/shop/rescue_dialog.h"

#include <QDialogButtonBox>
#include <QFileDialog>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QVBoxLayout>

#include "app/words/check_words.h"
#include "app/words/error_text.h"
#include "app/words/rescue_words.h"

namespace rodway {

RescueDialog::RescueDialog(const QString& damaged, QWidget* parent)
    : QDialog(parent), trouble_(new QLabel), outcome_(new QListWidget) {
    setWindowTitle(tr("Rescue a damaged shop file"));
    resize(640, 460);
    auto* layout = new QVBoxLayout(this);
    auto* about = new QLabel(
        tr("A new shop file is made of all that can still be read; the damaged one is only read, "
           "and stays. A backup from before the damage is usually the better way: try that first. "
           "No program may be writing to the file meanwhile."));
    about->setWordWrap(true);
    layout->addWidget(about);
    damaged_ = add_file(tr("Damaged file"), "damaged_file", false);
    target_ = add_file(tr("New file to make"), "rescue_target", true);
    damaged_->setText(damaged);
    if (!damaged.isEmpty()) {
        const QFileInfo file(damaged);
        target_->setText(file.dir().filePath(tr("%1-rescued.rodway").arg(file.completeBaseName())));
    }
    trouble_->setObjectName("trouble");
    trouble_->setTextFormat(Qt::PlainText);
    trouble_->setWordWrap(true);
    outcome_->setObjectName("rescue_outcome");
    outcome_->setAccessibleName(tr("What came through"));
    outcome_->setWordWrap(true);
    layout->addWidget(trouble_);
    layout->addWidget(outcome_, 1);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Close);
    start_ = buttons->addButton(tr("Rescue"), QDialogButtonBox::ActionRole);
    open_ = buttons->addButton(tr("Open the new file"), QDialogButtonBox::AcceptRole);
    start_->setObjectName("start_rescue");
    open_->setEnabled(false);
    layout->addWidget(buttons);
    start_->setDefault(true); // Enter begins, and doesn't close
    connect(start_, &QPushButton::clicked, this, &RescueDialog::start);
    connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
    connect(open_, &QPushButton::clicked, this, [this] {
        to_open_ = target_->text();
        accept();
    });
}

QLineEdit* RescueDialog::add_file(const QString& label, const char* name, bool save) {
    auto* edit = new QLineEdit;
    edit->setObjectName(name);
    edit->setAccessibleName(label);
    auto* choose = new QPushButton(tr("Choose…"));
    choose->setAccessibleName(tr("Choose: %1").arg(label));
    choose->setAutoDefault(false);
    auto* row = new QHBoxLayout;
    auto* text = new QLabel(label);
    text->setMinimumWidth(120);
    row->addWidget(text);
    row->addWidget(edit, 1);
    row->addWidget(choose);
    static_cast<QVBoxLayout*>(layout())->addLayout(row);
    connect(choose, &QPushButton::clicked, this, [=, this] {
        const QString filter = tr("Shop files (*.rodway);;All files (*)");
        const QString file = save ? QFileDialog::getSaveFileName(this, label, edit->text(), filter)
                                  : QFileDialog::getOpenFileName(this, label, edit->text(), filter);
        if (!file.isEmpty()) edit->setText(file);
    });
    return edit;
}

void RescueDialog::start() {
    trouble_->clear();
    outcome_->clear();
    const QString damaged = damaged_->text().trimmed();
    const QString target = target_->text().trimmed();
    if (damaged.isEmpty() || target.isEmpty()) {
        trouble_->setText(tr("Give both files: the damaged one, and the new one to make."));
        return;
    }
    start_->setEnabled(false);
    outcome_->addItem(tr("Reading what can be read …"));
    rescuing_.ask<Result<RescueReport>>(
        [from = damaged.toStdString(), to = target.toStdString()](const std::stop_token&) {
            return rescue(from, to);
        },
        [this](const Result<RescueReport>& report) {
            start_->setEnabled(true);
            outcome_->clear();
            if (!report) {
                trouble_->setText(words::error_text(report.error()));
                return;
            }
            outcome_->addItems(words::rescue_summary(*report));
            for (const RescueNote& note : report->notes) {
                outcome_->addItem(words::rescue_note_text(note));
            }
            for (const Finding& finding : report->check.findings) {
                outcome_->addItem(words::check_finding(finding));
            }
            open_->setEnabled(true);
        });
}

} // namespace rodway
