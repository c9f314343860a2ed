#pragma once

#include <QPointer>
#include <QWidget>

#include "app/edit_stack/shop_session.h"

class QLabel;
class QPushButton;

namespace rodway {

/// Says that entries aren't saved yet and why; hidden when none waits.
class WaitingBar : public QWidget {
    Q_OBJECT

  public:
    explicit WaitingBar(QWidget* parent = nullptr);

    /// Null if no shop is open. The session outlives this or tells its end.
    void set_session(ShopSession* session);

    /// Before the session goes: with entries waiting, asks what becomes of them. False if it must
    /// stay.
    [[nodiscard]] bool may_close();

  private:
    void refresh();
    void show_entries();
    void give_up();
    /// Asks for a text file and writes what waits to it. False if that wasn't done.
    bool save_as_text();

    QPointer<ShopSession> session_;
    QLabel* text_;
    QPushButton* try_now_;
};

} // namespace rodway
