#pragma once

#include <QFrame>
#include <functional>

#include "app/widgets/typed_form.h"
#include "core/base/result.h"

class QLabel;
class QPushButton;

namespace rodway {

/// A few boxes to fill in before something is done, hidden until it is asked for. Enter in a box
/// takes it, Escape leaves it; what is refused stays as typed, with the reason.
class AskPanel : public QFrame {
    Q_OBJECT

  public:
    AskPanel(const QString& title, const QString& take_text, QWidget* parent = nullptr);

    [[nodiscard]] TypedForm& form() { return *form_; }
    /// Called with what is typed.
    std::function<Result<Done>()> take;
    /// Opens it with the boxes emptied. `about`: what it is done to; may be empty.
    void open(const QString& about = {});
    void set_take_text(const QString& text);
    void take_typed();
    void leave();
    [[nodiscard]] bool is_open() const { return !isHidden(); }

  signals:
    void opened();
    /// Taken or left.
    void closed();

  protected:
    void keyPressEvent(QKeyEvent* event) override;

  private:
    QLabel* about_;
    TypedForm* form_;
    QPushButton* take_button_;
    QPushButton* leave_button_;
};

} // namespace rodway
