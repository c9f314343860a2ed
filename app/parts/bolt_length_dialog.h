#pragma once

#include <QDialog>
#include <string>

#include "app/edit_stack/shop_session.h"
#include "core/build/records.h"
#include "core/units/length.h"

class QLabel;
class QPushButton;

namespace rodway {

class TypedForm;

/// Takes a bolt's length into the engine's set-up, as a new set-up: the end of the bolt that is
/// modelled there moves out or in by the difference of the two lengths. The set-up it is made from
/// stays as it is.
class BoltLengthDialog : public QDialog {
    Q_OBJECT

  public:
    /// `length`: of the part, under its head. `set_up` has at least one bolt's end.
    BoltLengthDialog(ShopSession& session, SetUpRecord set_up, const PartRecord& part,
                     Length length, QWidget* parent = nullptr);

    [[nodiscard]] TypedForm& form() { return *form_; }
    void accept() override;

  private:
    void show_length_in_set_up();
    void show_difference();
    /// How much longer the part is than the set-up's bolt.
    [[nodiscard]] Result<Length> difference() const;

    ShopSession& session_;
    SetUpRecord set_up_;
    PartRecord part_;
    Length length_;
    TypedForm* form_;
    QLabel* says_;
};

} // namespace rodway
