#pragma once

#include <QString>
#include <QStringList>
#include <QWidget>
#include <functional>

class QAbstractItemView;

namespace rodway::tests {

/// A person at the window: finds what is in view by the words that stand on it, and uses it by
/// mouse and keyboard. What isn't there, can't be seen or can't be used is an exception, which
/// says what is in view instead.
class Hand {
  public:
    /// `shots`: folder for pictures; empty: none are taken. `busy`: whether something is still
    /// being worked out that the window will show by itself.
    Hand(QWidget& window, QString shots, std::function<bool()> busy);

    /// Presses a button by the words on it. `in`: accessible name of what it stands in.
    void press(const QString& words, const QString& in = {});
    /// Types into a box, in place of what stands there.
    void type(const QString& label, const QString& text, const QString& in = {});
    /// Types into the box in hand.
    void type_on(const QString& text);
    void key(Qt::Key key, Qt::KeyboardModifiers modifiers = Qt::NoModifier);
    /// Chooses an entry of a list that opens: the first whose words begin so.
    void pick(const QString& label, const QString& entry, const QString& in = {});
    void set(const QString& label, bool on, const QString& in = {});
    void tab(const QString& words);
    /// One of the window's places.
    void place(const QString& name);
    void menu(const QString& title, const QString& entry);
    /// Clicks the first row, of a list or table of this accessible name, that has these words.
    void choose(const QString& list, const QString& words);
    void choose_row(const QString& list, int row);
    /// Does what opens a dialog, and `work` in it. `work` must close it.
    void answer(const std::function<void()>& open, const std::function<void()>& work);
    /// The same for a dialog that asks for a file.
    void give_file(const std::function<void()>& open, const QString& file);
    /// Types into a column of a measurement sheet from a row on, Enter behind each.
    void fill_column(const QString& heading, const QStringList& values, int first_row = 0);

    /// The words of a list's rows, or of a table's, cells parted by " | ".
    [[nodiscard]] QStringList rows(const QString& list);
    [[nodiscard]] bool is_ticked(const QString& list, int row);
    [[nodiscard]] bool can_press(const QString& words, const QString& in = {});
    /// Whether these words are in view, in whatever label, row or box.
    [[nodiscard]] bool sees(const QString& words);
    /// Waits until they are. An exception if they don't come.
    void see(const QString& words);
    /// Waits until nothing is being worked out.
    void settle();
    /// Takes a picture of the window as it stands, numbered.
    void look(const QString& name);

  private:
    template <typename Widget>
    Widget& find(const QString& words, const QString& in);
    [[nodiscard]] QWidget& top() const;
    [[nodiscard]] QWidget& scope(const QString& in) const;
    void click(QWidget& widget, QPoint at);
    void click_row(QAbstractItemView& view, int row);
    [[nodiscard]] QAbstractItemView& list_called(const QString& name);

    QWidget& window_;
    QString shots_;
    std::function<bool()> busy_;
    int shot_ = 0;
};

} // namespace rodway::tests
