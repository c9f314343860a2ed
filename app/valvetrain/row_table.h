#pragma once

#include <QTableWidget>
#include <vector>

namespace rodway {

/// A table to be read: whole rows, one of which may be chosen by a click, Enter or Space.
class RowTable : public QTableWidget {
    Q_OBJECT

  public:
    RowTable(const char* name, const QString& accessible_name, const QStringList& columns,
             QWidget* parent = nullptr);

    /// Other columns; the rows go.
    void set_columns(const QStringList& columns);
    /// The column that takes the width that is left.
    void set_stretched(int column);
    /// A column of this width, however long its words: they wrap.
    void set_width(int column, int width);
    /// Keeps the row in hand if there is one as far down.
    void set_rows(const std::vector<QStringList>& rows);
    /// A column of numbers stands at its right.
    void set_numbers(const std::vector<int>& columns) { numbers_ = columns; }
    /// Draws this row bold, none for -1.
    void mark_row(int row);

  signals:
    void chosen(int row);

  protected:
    void keyPressEvent(QKeyEvent* event) override;

  private:
    std::vector<int> numbers_;
};

} // namespace rodway
