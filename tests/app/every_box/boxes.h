#pragma once

#include <QString>
#include <QStringList>
#include <QWidget>
#include <vector>

namespace rodway::tests {

/// Something in a window that words can be typed into.
struct Box {
    QWidget* widget = nullptr; ///< a line, a text of several lines, or a table with open cells
    int row = -1;              ///< of a table's cell
    int column = -1;
    QString name; ///< as it is heard, or else as it is called in the code
};

/// Those in view that can be used, in the order of the tree: lines (also of lists that take other
/// words and of boxes that count), texts of several lines, and of every table the first open cell
/// of each column. Lists that open and take nothing typed are none.
[[nodiscard]] std::vector<Box> boxes_in(QWidget& root);
/// Whether words can be typed into it at all, in view or not.
[[nodiscard]] bool takes_words(const QWidget& widget);
[[nodiscard]] QString name_of_box(const QWidget& widget);

/// Pastes the text in place of what stands there and goes on by Enter and by Tab, as somebody does
/// who means it. What the box made of it: a line has no line breaks.
QString put_in(const Box& box, const QString& text);

/// All words in view that say something: labels, status bar, lists, and tips of cells.
[[nodiscard]] QStringList words_in_view(QWidget& root);

} // namespace rodway::tests
