#include "app/history/undo_panel.h"

#include <QLabel>
#include <QListWidget>
#include <QPushButton>
#include <QVBoxLayout>
#include <algorithm>

#include "app/words/error_text.h"

namespace rodway {

UndoPanel::UndoPanel(QWidget* parent) : QWidget(parent) {
    auto* layout = new QVBoxLayout(this);
    auto* about = new QLabel(
        tr("What was done in this window since it was opened, whichever build it was. What is "
           "taken back stays in the history, and can be done again."));
    about->setWordWrap(true);
    layout->addWidget(about);
    back_ = make_side(tr("Can be taken back"), "undo_list", false);
    again_ = make_side(tr("Can be done again"), "redo_list", true);
    show_session(nullptr);
}

UndoPanel::Side UndoPanel::make_side(const QString& title, const QString& name, bool redo) {
    auto* heading = new QLabel(title);
    heading->setObjectName("subtitle");
    Side side{new QListWidget, new QPushButton};
    side.list->setObjectName(name);
    side.list->setAccessibleName(title);
    side.list->setSelectionMode(QAbstractItemView::MultiSelection);
    side.list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    side.list->setTextElideMode(Qt::ElideRight);
    side.button->setObjectName(name + "_button");
    layout()->addWidget(heading);
    layout()->addWidget(side.list);
    layout()->addWidget(side.button);
    connect(side.list, &QListWidget::currentRowChanged, this, [this, redo] {
        if (!filling_) choose(redo ? again_ : back_, redo);
    });
    // A click on the row that is current already would take it out of the selection.
    connect(side.list, &QListWidget::itemClicked, this,
            [this, redo] { choose(redo ? again_ : back_, redo); });
    connect(side.button, &QPushButton::clicked, this,
            [this, redo] { take((redo ? again_ : back_).list->currentRow() + 1, redo); });
    return side;
}

void UndoPanel::choose(const Side& side, bool redo) {
    const int count = side.list->currentRow() + 1;
    for (int row = 0; row < side.list->count(); ++row) {
        side.list->item(row)->setSelected(row < count);
    }
    side.button->setEnabled(count > 0);
    side.button->setText(redo ? tr("Do %n again", "", count) : tr("Take %n back", "", count));
}

void UndoPanel::show_session(ShopSession* session) {
    session_ = session;
    filling_ = true;
    const auto fill = [](QListWidget& list, const std::vector<ShopSession::Entry>& entries,
                         const QString& nothing) {
        list.clear();
        for (auto entry = entries.rbegin(); entry != entries.rend(); ++entry) {
            list.addItem(
                tr("%1  (act %2)").arg(entry->what.simplified(), QString::number(entry->act)));
        }
        list.setEnabled(!entries.empty());
        if (entries.empty()) list.addItem(nothing);
        list.setCurrentRow(-1);
    };
    static const std::vector<ShopSession::Entry> none;
    fill(*back_.list, session ? session->done() : none,
         tr("Nothing was done since the shop was opened."));
    fill(*again_.list, session ? session->undone() : none, tr("Nothing is taken back."));
    for (const Side& side : {back_, again_}) side.button->setEnabled(false);
    back_.button->setText(tr("Take back"));
    again_.button->setText(tr("Do again"));
    filling_ = false;
}

int UndoPanel::take(int count, bool redo) {
    if (session_ == nullptr) return 0;
    const auto& left = redo ? session_->undone() : session_->done();
    count = std::min(count, static_cast<int>(left.size()));
    int done = 0;
    while (done < count) {
        const QString what = left.back().what;
        const auto act = redo ? session_->redo() : session_->undo();
        if (!act) {
            emit failed(tr("%1 stays as it is. %2").arg(what, words::error_text(act.error())));
            break;
        }
        ++done;
    }
    if (done > 0) {
        emit said(redo ? tr("%n done again.", "", done) : tr("%n taken back.", "", done));
    }
    return done;
}

} // namespace rodway
