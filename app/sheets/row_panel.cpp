#include "app/sheets/row_panel.h"

#include <algorithm>

#include "app/words/box_words.h"
#include "core/sheets/sheet_rows.h"

namespace rodway {

RowPanel::RowPanel(QWidget* parent) : QListWidget(parent) {
    setObjectName("rows");
    setAccessibleName(tr("Least, most, spread and mean of each row"));
    setWordWrap(true);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setAlternatingRowColors(true);
}

void RowPanel::show_rows(const AssessedSheet& sheet, const std::string& in_hand,
                         const std::function<QString(const Quantity&)>& title_of) {
    clear();
    std::vector<const SheetLine*> lines;
    for (const SheetLine& line : sheet.lines) {
        if (is_numeric(line.quantity.form)) {
            lines.push_back(&line);
        }
    }
    std::stable_partition(lines.begin(), lines.end(),
                          [&](const SheetLine* line) { return line->quantity.id == in_hand; });
    for (const SheetLine* line : lines) {
        for (const SheetRow& row : rows_of(*line)) {
            auto* item = new QListWidgetItem(tr("%1, %2\n%3")
                                                 .arg(title_of(line->quantity),
                                                      words::row_title(row.name).toLower(),
                                                      words::row_text(row, line->quantity)));
            QFont look = font();
            look.setBold(line->quantity.id == in_hand);
            item->setFont(look);
            addItem(item);
        }
    }
    if (count() == 0) {
        addItem(tr("Two numbers of one row make its least, most, spread and mean."));
    }
}

} // namespace rodway
