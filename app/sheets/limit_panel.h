#pragma once

#include <QWidget>
#include <optional>
#include <string>
#include <vector>

#include "core/sheets/sheet_assessment.h"

class QComboBox;
class QLabel;
class QLineEdit;
class QListWidget;
class QPushButton;

namespace rodway {

/// What the quantity in hand may be: what rules at the box in hand for new and for used parts, the
/// limits that were kept, and the boxes to keep another.
class LimitPanel : public QWidget {
    Q_OBJECT

  public:
    explicit LimitPanel(QWidget* parent = nullptr);

    /// `records`: all that the shop and the build have. What is being typed stays while the
    /// quantity is the same.
    void show_box(const Quantity& quantity, const std::optional<SheetBox>& box,
                  const std::vector<LimitRecord>& records);
    void show_nothing();
    /// The limit was kept: its boxes are free for another.
    void clear_entry();
    void enable_entry(bool on);

  signals:
    /// Of this build if `build_id` is set (to 0); as typed, not yet read.
    void keep_wanted(const rodway::LimitRecord& record);
    void remove_wanted(qint64 limit_id);

  private:
    QWidget* make_entry();
    void keep();
    void remove();
    void fill_units(const Quantity& quantity);

    std::optional<Quantity> quantity_;
    std::optional<std::string> position_;
    QLabel* ruling_;
    QListWidget* kept_;
    QPushButton* remove_;
    QLineEdit* low_;
    QLineEdit* high_;
    QComboBox* unit_;
    QComboBox* parts_;
    QComboBox* where_;
    QComboBox* builds_;
    QLineEdit* source_;
    QPushButton* keep_;
};

} // namespace rodway
