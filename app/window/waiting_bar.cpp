#include "app/window/waiting_bar.h"

#include <QApplication>
#include <QClipboard>
#include <QDialog>
#include <QDialogButtonBox>
#include <QFileDialog>
#include <QHBoxLayout>
#include <QLabel>
#include <QMessageBox>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>
#include <algorithm>

#include "app/words/error_text.h"
#include "app/words/waiting_words.h"
#include "app/work/output_file.h"

namespace rodway {
namespace {

QLabel* plain_label(const QString& text) {
    auto* label = new QLabel(text);
    label->setTextFormat(Qt::PlainText); // what people typed is no markup
    label->setTextInteractionFlags(Qt::TextSelectableByMouse);
    label->setWordWrap(true);
    return label;
}

} // namespace

WaitingBar::WaitingBar(QWidget* parent)
    : QWidget(parent), text_(plain_label({})), try_now_(new QPushButton(tr("Try now"))) {
    setObjectName("notice");
    setAttribute(Qt::WA_StyledBackground); // else a widget of our own gets no frame
    text_->setObjectName("waiting");
    auto* show = new QPushButton(tr("Show them…"));
    auto* give = new QPushButton(tr("Give up…"));
    auto* row = new QHBoxLayout(this);
    row->addWidget(text_, 1);
    for (QPushButton* button : {try_now_, show, give}) {
        row->addWidget(button);
    }
    connect(try_now_, &QPushButton::clicked, this, [this] {
        if (session_) {
            session_->try_waiting();
        }
    });
    connect(show, &QPushButton::clicked, this, &WaitingBar::show_entries);
    connect(give, &QPushButton::clicked, this, &WaitingBar::give_up);
    hide();
}

void WaitingBar::set_session(ShopSession* session) {
    if (session_) {
        disconnect(session_, nullptr, this, nullptr);
    }
    session_ = session;
    if (session_) {
        connect(session_, &ShopSession::waiting_changed, this, &WaitingBar::refresh);
    }
    refresh();
}

void WaitingBar::refresh() {
    const bool any = session_ && !session_->waiting().empty();
    if (any) {
        const auto& waiting = session_->waiting();
        text_->setText(words::waiting_bar(waiting));
        try_now_->setEnabled(std::any_of(waiting.begin(), waiting.end(),
                                         [](const WaitingAct& act) { return !act.refused; }));
    }
    setVisible(any);
}

void WaitingBar::show_entries() {
    if (!session_) {
        return;
    }
    QDialog dialog(this);
    dialog.setWindowTitle(tr("Not saved yet"));
    auto* list = new QWidget;
    auto* rows = new QVBoxLayout(list);
    // A copy: while the dialog stands, entries may be written and go.
    const std::vector<WaitingAct> waiting = session_->waiting();
    for (const WaitingAct& act : waiting) {
        rows->addWidget(plain_label(words::waiting_entry(act)));
        if (!act.refused) {
            continue;
        }
        if (const auto both = session_->against_stored(act.key)) {
            rows->addWidget(plain_label(words::waiting_against_stored(*both)));
        }
        auto* overwrite = new QPushButton(tr("Save mine over it"));
        auto* drop = new QPushButton(tr("Keep what is stored"));
        auto* choice = new QHBoxLayout;
        choice->addStretch();
        for (QPushButton* button : {overwrite, drop}) {
            choice->addWidget(button);
            connect(button, &QPushButton::clicked, &dialog, [overwrite, drop] {
                overwrite->setEnabled(false);
                drop->setEnabled(false);
            });
        }
        connect(overwrite, &QPushButton::clicked, session_,
                [session = session_, key = act.key] { session->overwrite(key); });
        connect(drop, &QPushButton::clicked, session_,
                [session = session_, key = act.key] { session->drop(key); });
        rows->addLayout(choice);
    }
    rows->addStretch();
    auto* area = new QScrollArea;
    area->setWidgetResizable(true);
    area->setWidget(list);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Close);
    connect(buttons, &QDialogButtonBox::rejected, &dialog, &QDialog::reject);
    auto* layout = new QVBoxLayout(&dialog);
    layout->addWidget(area, 1);
    layout->addWidget(buttons);
    dialog.resize(620, 420);
    dialog.exec();
}

void WaitingBar::give_up() {
    if (!session_) {
        return;
    }
    QMessageBox box(QMessageBox::Question, tr("Give up"),
                    tr("%n entries are taken off the list and not saved in the shop file. They are "
                       "copied as text.",
                       nullptr, static_cast<int>(session_->waiting().size())),
                    QMessageBox::Cancel, this);
    auto* copy = box.addButton(tr("Copy to the clipboard"), QMessageBox::AcceptRole);
    auto* save = box.addButton(tr("Save as a text file…"), QMessageBox::AcceptRole);
    box.setDefaultButton(QMessageBox::Cancel);
    box.exec();
    if (!session_) {
        return;
    }
    if (box.clickedButton() == copy) {
        QApplication::clipboard()->setText(words::waiting_as_text(session_->give_up()));
    } else if (box.clickedButton() == save && save_as_text() && session_) {
        static_cast<void>(session_->give_up());
    }
}

bool WaitingBar::save_as_text() {
    const QString file =
        QFileDialog::getSaveFileName(this, tr("Save what isn't saved yet"), tr("not-saved.txt"));
    if (file.isEmpty() || !session_) {
        return false;
    }
    const auto written = write_output(file, words::waiting_as_text(session_->waiting()).toUtf8());
    if (!written) {
        QMessageBox::warning(this, tr("Not written"), words::error_in_file(file, written.error()));
    }
    return written.ok();
}

bool WaitingBar::may_close() {
    while (session_ && !session_->waiting().empty()) {
        QMessageBox box(QMessageBox::Warning, tr("Not saved yet"),
                        words::waiting_bar(session_->waiting()), QMessageBox::Cancel, this);
        auto* again = box.addButton(tr("Try now"), QMessageBox::AcceptRole);
        auto* save =
            box.addButton(tr("Save as a text file and close…"), QMessageBox::DestructiveRole);
        box.setDefaultButton(again);
        box.exec();
        if (box.clickedButton() == again) {
            session_->try_waiting();
        } else if (box.clickedButton() != save) {
            return false;
        } else if (save_as_text()) {
            return true;
        }
    }
    return true;
}

} // namespace rodway
