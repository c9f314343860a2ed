#pragma once

#include <QWidget>
#include <optional>

#include "app/sheets/sheet_table.h"
#include "app/words/sheet_words.h"

class QLabel;
class QLineEdit;

namespace rodway {

/// What the box in hand means and how it stands: what was typed, in both units, by whom; the
/// verdict and its limits, as it is typed already; and a note on its reading.
class BoxPanel : public QWidget {
    Q_OBJECT

  public:
    explicit BoxPanel(QWidget* parent = nullptr);
    void show_spot(const std::optional<SheetTable::Spot>& spot, const words::OwnTitles& titles);
    /// `text` is being typed into a box of this spot and isn't kept yet.
    void show_typing(const SheetTable::Spot& spot, const QString& text);

  signals:
    void note_wanted(const QString& note);

  private:
    QLabel* title_;
    QLabel* meaning_;
    QLabel* state_;
    QLineEdit* note_;
};

} // namespace rodway
