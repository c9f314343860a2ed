#pragma once

#include <QWidget>
#include <cstdint>
#include <functional>
#include <optional>
#include <vector>

#include "app/widgets/typed_form.h"
#include "core/base/result.h"

class QBoxLayout;
class QPushButton;
class QStackedWidget;
class QTableWidget;

namespace rodway {

/// Entries of one kind in a table, and a form under it: Enter adds what is typed, as the next
/// entry; the selected entry can be put into the form, changed and kept, or removed.
class EntryTable : public QWidget {
    Q_OBJECT

  public:
    struct Column {
        QString title;
        int width = 0; ///< pixels; 0: what is left
        bool right = false;
    };
    struct Row {
        std::int64_t id = 0;
        QStringList cells;
        QIcon sign; ///< in the first cell
    };

    /// `empty`: what belongs here, and how to begin.
    EntryTable(const QString& name, const std::vector<Column>& columns, const QString& empty,
               QWidget* parent = nullptr);

    /// Called with what is typed: for the next entry, or for the one that is being changed. What
    /// they refuse stays in the form with the reason.
    std::function<Result<Done>()> add;
    std::function<Result<Done>(std::int64_t id)> keep;
    std::function<Result<Done>(std::int64_t id)> remove;
    /// Puts an entry into the form.
    std::function<void(std::int64_t id)> show_in_form;
    /// Puts what the next entry begins with into the emptied form.
    std::function<void()> show_fresh;

    void set_rows(const std::vector<Row>& rows);
    /// Lets go of what is being typed.
    void reset();
    [[nodiscard]] TypedForm& form() { return *form_; }
    [[nodiscard]] QTableWidget& table() { return *table_; }
    /// Buttons of its own go in here.
    [[nodiscard]] QBoxLayout& buttons() { return *buttons_; }
    [[nodiscard]] std::optional<std::int64_t> selected() const;
    void select(std::int64_t id);

    void take_form();
    void change_selected();
    void remove_selected();

  signals:
    void failed(const QString& text);
    void row_chosen();

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

  private:
    void show_mode();

    QStackedWidget* stack_;
    QTableWidget* table_;
    TypedForm* form_;
    QPushButton* take_;
    QPushButton* leave_;
    QPushButton* change_;
    QPushButton* remove_;
    QBoxLayout* buttons_;
    std::optional<std::int64_t> changing_;
    bool filling_ = false;
};

} // namespace rodway
