#pragma once

#include <QWidget>
#include <optional>
#include <string>

#include "app/work/sheet_remarks.h"
#include "core/sheets/quantity.h"

class QComboBox;
class QLineEdit;
class QListWidget;

namespace rodway {

/// Notes and photos of the sheet in hand and of its positions. Pictures may be dropped on it.
class RemarksPanel : public QWidget {
    Q_OBJECT

  public:
    explicit RemarksPanel(QWidget* parent = nullptr);
    void show_remarks(const ShopFile& shop, const SheetRemarks& remarks);
    /// The box in hand: a remark may belong to it, or to the whole sheet.
    void show_place(Place place, const std::optional<std::string>& position);
    void clear_entry();

  signals:
    /// `position` as kept; empty for the whole sheet.
    void note_wanted(const QString& text, const std::string& position);
    void photos_wanted(const QStringList& files, const std::string& position);

  protected:
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;

  private:
    [[nodiscard]] std::string chosen_position() const;
    void keep_note();
    void choose_photos();

    std::optional<std::string> position_;
    QListWidget* notes_;
    QLineEdit* text_;
    QComboBox* where_;
    QListWidget* photos_;
};

} // namespace rodway
