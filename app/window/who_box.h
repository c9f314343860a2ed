#pragma once

#include <QComboBox>

#include "app/edit_stack/shop_session.h"

namespace rodway {

/// Who is working, by initials, chosen from the shop's people. Always in view: every edit carries
/// whom it names.
class WhoBox : public QComboBox {
    Q_OBJECT

  public:
    explicit WhoBox(QWidget* parent = nullptr);

    /// Null: no shop is open.
    void show_people(ShopSession* session);

  signals:
    void chosen(const QString& who);
    /// Other initials are to be typed.
    void other_wanted();
    /// The list of people is to be seen.
    void people_wanted();

  protected:
    void paintEvent(QPaintEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;

  private:
    void take(int row);

    QString who_;
};

} // namespace rodway
