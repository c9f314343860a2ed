#pragma once

#include <QListWidget>

namespace rodway {

/// Rows of words that wrap, each with a sign before it; walked and chosen by keyboard. While it is
/// filled anew, the row in hand stays where it is, by its id.
class WordListView : public QListWidget {
    Q_OBJECT

  public:
    struct Row {
        qint64 id = 0; ///< 0: can't be chosen
        QString text;
        QIcon sign;
        std::optional<bool> checked = {}; ///< a box to tick; nothing: none
        QString spoken = {};              ///< for those who hear it; empty: the text
        bool bold = false;
    };

    WordListView(const char* name, const QString& accessible_name, QWidget* parent = nullptr);

    void set_rows(const std::vector<Row>& rows);
    /// The row in hand; 0 if none can be chosen.
    [[nodiscard]] qint64 chosen() const;
    void choose(qint64 id);
    /// As high as its rows, for lists of a few.
    void fit_to_rows(int most_px);

  signals:
    void row_chosen(qint64 id);
    /// Its box was ticked, or the tick taken out.
    void row_checked(qint64 id, bool checked);

  protected:
    void resizeEvent(QResizeEvent* event) override;

  private:
    bool filling_ = false;
};

} // namespace rodway
