#pragma once

#include <QTableWidget>
#include <functional>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "core/sheets/sheet_assessment.h"
#include "render/palette.h"

namespace rodway {

/// The boxes of a sheet that share their positions: positions down, in the row headers so that they
/// stay in sight, quantities across; quantities down where there is one position only. A value is
/// typed into its box; Enter keeps it and goes on to the next position, from the last to the first
/// of the next quantity. What can't be kept stays as typed.
class SheetTable : public QTableWidget {
    Q_OBJECT

  public:
    /// Where the cursor stands.
    struct Spot {
        Quantity quantity;
        std::optional<SheetBox> box;
    };

    explicit SheetTable(QWidget* parent = nullptr);

    /// Positions to show besides those of the sheet, without a reading yet.
    struct MorePositions {
        std::vector<std::string> before; ///< in their order, before all others
        std::vector<std::string> behind;
    };
    /// The lines of one place. What is being typed stays. `title_of` gives a quantity's heading.
    void show_lines(const AssessedSheet& sheet, Place place, const MorePositions& more,
                    const std::function<QString(const Quantity&)>& title_of);
    [[nodiscard]] std::optional<Spot> spot() const;
    /// Back to the first box.
    void go_to_start();
    /// To the row of a position, in the column the cursor is in; false if there is none.
    bool go_to(const std::string& position);

    /// Keeps what was typed; false if it was refused and must stay.
    std::function<bool(const Quantity&, const std::string& position, const QString& text)> keep;

  signals:
    void moved();
    /// Letters are being typed into the box the cursor stands in.
    void typing(const QString& text);

  protected:
    void changeEvent(QEvent* event) override;

  private:
    struct Cell {
        std::size_t line = 0;
        std::optional<SheetBox> box;
    };
    void lay_out(const std::vector<std::string>& positions);
    void dress(int row, int column);
    void fill_heading(int row);
    void fill_box(int row, int column, const Cell& cell);
    void show_refused(QTableWidgetItem& item);
    /// `again`: what stands there already was typed once more.
    void take(QTableWidgetItem& item, bool again);
    void go_on();
    [[nodiscard]] const Cell* cell_at(int row, int column) const;

    std::vector<SheetLine> lines_;
    std::vector<std::string> positions_;   ///< of the rows, or the only one
    std::vector<std::vector<Cell>> cells_; ///< as the table has them, without its heading column
    std::set<std::pair<std::string, std::string>> odd_; ///< quantity and position
    std::function<QString(const Quantity&)> title_of_;
    bool turned_ = false; ///< quantities down
    bool filling_ = false;
    bool refused_ = false;
};

} // namespace rodway
