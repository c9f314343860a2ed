#pragma once

#include <QListWidget>
#include <functional>
#include <string>

#include "core/sheets/sheet_assessment.h"

namespace rodway {

/// What each quantity of a sheet comes to along the engine: least, most, spread, mean, and what
/// stands apart. The quantity in hand comes first.
class RowPanel : public QListWidget {
    Q_OBJECT

  public:
    explicit RowPanel(QWidget* parent = nullptr);
    /// `in_hand`: id of a quantity; may be empty.
    void show_rows(const AssessedSheet& sheet, const std::string& in_hand,
                   const std::function<QString(const Quantity&)>& title_of);
};

} // namespace rodway
