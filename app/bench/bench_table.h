#pragma once

#include <QTableView>
#include <QTimer>
#include <utility>

namespace rodway {

/// The table of a `BenchModel`. Its columns share the width; nothing in it ever asks for a row that
/// isn't seen.
class BenchTable : public QTableView {
    Q_OBJECT

  public:
    explicit BenchTable(QWidget* parent = nullptr);

    /// The first and the last row that is seen, at least in part; -1 if there is none.
    [[nodiscard]] std::pair<int, int> rows_seen() const;
    void keyboardSearch(const QString& search) override;

  signals:
    /// Somebody begins to type a name.
    void typed(const QString& text);
    /// A line of what holds a build up was clicked.
    void held_clicked(int row, int line);
    /// Other rows are seen, or may be.
    void looked_elsewhere();

  protected:
    void resizeEvent(QResizeEvent* event) override;
    void scrollContentsBy(int dx, int dy) override;
    void changeEvent(QEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void mouseDoubleClickEvent(QMouseEvent* event) override;

  private:
    [[nodiscard]] int held_line_at(const QPoint& point) const;
    void share_width();

    QTimer clicked_; ///< a second click would fall into the place to which the first one leads
    QPersistentModelIndex clicked_row_;
    int clicked_line_ = -1;
};

} // namespace rodway
