#pragma once

#include <QWidget>

#include "app/edit_stack/shop_session.h"

class QListWidget;
class QPushButton;

namespace rodway {

/// What was done in this window, newest first, to be taken back; and what was taken back, to be
/// done again. Choosing one means all above it too, and shows that.
class UndoPanel : public QWidget {
    Q_OBJECT

  public:
    explicit UndoPanel(QWidget* parent = nullptr);

    void show_session(ShopSession* session);
    /// Takes so many acts back, or does so many again, the newest first. It stops at the first that
    /// can't be; how many it did.
    int take(int count, bool redo);

  signals:
    void failed(const QString& text);
    void said(const QString& text);

  private:
    struct Side {
        QListWidget* list;
        QPushButton* button;
    };
    Side make_side(const QString& title, const QString& name, bool redo);
    void choose(const Side& side, bool redo);

    ShopSession* session_ = nullptr;
    bool filling_ = false;
    Side back_;
    Side again_;
};

} // namespace rodway
