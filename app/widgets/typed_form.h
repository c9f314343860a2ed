#pragma once

#include <QVariant>
#include <QWidget>
#include <string>
#include <utility>
#include <vector>

#include "core/base/error.h"

class QBoxLayout;
class QCheckBox;
class QComboBox;
class QFormLayout;
class QLabel;
class QLineEdit;

namespace rodway {

/// Boxes to type a record into, each called after the field it is for, and under them why one of
/// them can't be kept. What was typed stays as it is until it is taken or cleared.
class TypedForm : public QWidget {
    Q_OBJECT

  public:
    enum class Shape {
        columns, ///< labels beside the boxes; `new_column` begins each
        row      ///< one row, labels above the boxes
    };
    using Choices = std::vector<std::pair<QString, QVariant>>;

    explicit TypedForm(Shape shape, QWidget* parent = nullptr);

    /// `title` may be empty.
    void new_column(const QString& title);
    /// Heads the boxes that follow in the same column.
    void new_group(const QString& title);
    /// `share`: how much of a row's width it gets beside the others.
    QLineEdit* add_line(const char* field, const QString& label, const QString& hint = {},
                        int share = 1);
    /// One of these and nothing else.
    QComboBox* add_choice(const char* field, const QString& label, const Choices& choices,
                          int share = 1);
    /// Any words; these are offered.
    QComboBox* add_words(const char* field, const QString& label, const QStringList& offered,
                         int share = 1);
    QCheckBox* add_flag(const char* field, const QString& label);
    /// Goes at the end of a row.
    void add_at_end(QWidget* widget);

    /// The words in a box; of a choice what it shows.
    [[nodiscard]] std::string text(const std::string& field) const;
    [[nodiscard]] QVariant data(const std::string& field) const;
    [[nodiscard]] bool flag(const std::string& field) const;
    void set_text(const std::string& field, const QString& text);
    void set_data(const std::string& field, const QVariant& data);
    void set_flag(const std::string& field, bool on);
    /// Other words or choices; what is typed or chosen stays if it can.
    void offer(const std::string& field, const Choices& choices);
    /// A box of a column that isn't needed now goes with its label; its text stays.
    void set_shown(const std::string& field, bool shown);
    /// Empties every box; choices go back to their first.
    void clear();
    void focus_first();

    /// Says what is wrong in which box, and goes there. A field of no box is said all the same.
    void complain(const Error& error);
    void quiet();
    [[nodiscard]] QString trouble() const;

  signals:
    /// Enter was pressed in a box.
    void entered();

  private:
    struct Box {
        std::string field;
        QString label;
        QWidget* widget;
    };
    void put(const char* field, const QString& label, QWidget* widget, int share);
    [[nodiscard]] const Box* find(const std::string& field) const;

    Shape shape_;
    QBoxLayout* across_;
    QBoxLayout* ends_; ///< behind the boxes of a row
    QFormLayout* column_ = nullptr;
    QLabel* trouble_;
    std::vector<Box> boxes_;
};

} // namespace rodway
