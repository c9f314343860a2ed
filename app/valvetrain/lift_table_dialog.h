#pragma once

#include <QDialog>
#include <optional>

#include "app/edit_stack/shop_session.h"
#include "core/build/records.h"

class QComboBox;
class QLabel;
class QLineEdit;
class QPushButton;

namespace rodway {

/// Takes a lobe's lift table from a file. What the file doesn't settle is asked for; what was read
/// is shown before it is taken.
class LiftTableDialog : public QDialog {
    Q_OBJECT

  public:
    explicit LiftTableDialog(QWidget* parent = nullptr);

    /// Puts the table into the build's set-up in hand.
    [[nodiscard]] std::optional<Error> put(ShopSession& session, std::int64_t build_id) const;
    [[nodiscard]] QString file_name() const;

  private:
    void read();

    QLineEdit* file_;
    QComboBox* valves_;
    QComboBox* separator_;
    QComboBox* decimal_;
    QComboBox* unit_;
    QComboBox* degrees_;
    QLabel* answer_;
    QPushButton* good_;
    std::optional<TypedValue> table_;
};

} // namespace rodway
