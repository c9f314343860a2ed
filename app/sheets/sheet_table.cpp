#include "app/sheets/sheet_table.h"

#include <QEvent>
#include <QHeaderView>
#include <QPainter>
#include <algorithm>

#include "app/edit_stack/waiting_records.h"
#include "app/widgets/box_delegate.h"
#include "app/words/counted.h"
#include "app/words/hold_words.h"
#include "app/words/sheet_words.h"
#include "render/cylinder_plan.h"

namespace rodway {
namespace {

constexpr int heading_column = 0;
constexpr int sign_px = 14;

QIcon sign(CheckState state, const Palette& palette) {
    QPixmap picture(sign_px, sign_px);
    picture.fill(Qt::transparent);
    QPainter painter(&picture);
    painter.setRenderHint(QPainter::Antialiasing);
    paint_state_sign(painter, QRectF(1, 1, sign_px - 2, sign_px - 2), state, palette);
    return QIcon(picture);
}

/// Whoever wrote it and when, in the other unit, limit and verdict, earlier readings.
QString explanation(const SheetBox& box, const Quantity& quantity) {
    QStringList lines;
    if (box.taken) {
        const Reading& reading = box.taken->reading;
        if (reading.id >= id_to_come) {
            lines << SheetTable::tr("Not saved yet");
        }
        if (const auto range = box.taken->range()) {
            lines << words::amount(*range, quantity);
        }
        lines << SheetTable::tr("%1, %2").arg(QString::fromStdString(reading.taken_by),
                                              words::day_of(reading.taken_at));
        if (reading.note) {
            lines << QString::fromStdString(*reading.note);
        }
        if (!box.taken->retaken.empty()) {
            lines << words::counted(static_cast<int>(box.taken->retaken.size()),
                                    SheetTable::tr("Taken once before"),
                                    SheetTable::tr("Taken %1 times before"));
        }
    }
    if (box.figure) {
        lines << SheetTable::tr("Worked out: %1").arg(words::amount(*box.figure, quantity));
    }
    if (box.new_limit) {
        lines << SheetTable::tr("Limit: %1").arg(words::limit(*box.new_limit, quantity));
    }
    if (box.used_limit) {
        lines << SheetTable::tr("Limit: %1").arg(words::limit(*box.used_limit, quantity));
    }
    if (box.limit) {
        lines << words::sheet_verdict(box.verdict);
    }
    lines.removeAll(QString());
    return lines.join('\n');
}

QString heading(const QString& title, const Quantity& quantity) {
    return quantity.unit.empty()
               ? title
               : SheetTable::tr("%1, %2").arg(title, QString::fromStdString(quantity.unit));
}

} // namespace

SheetTable::SheetTable(QWidget* parent) : QTableWidget(parent) {
    setObjectName("sheet");
    setAccessibleName(tr("Measurement sheet"));
    verticalHeader()->setDefaultSectionSize(28);
    verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
    horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    horizontalHeader()->setMinimumSectionSize(72);
    setSelectionMode(QAbstractItemView::SingleSelection);
    setEditTriggers(QAbstractItemView::DoubleClicked | QAbstractItemView::EditKeyPressed |
                    QAbstractItemView::AnyKeyPressed);
    setIconSize({sign_px, sign_px});
    auto* delegate = new BoxDelegate(this);
    setItemDelegate(delegate);
    connect(delegate, &BoxDelegate::entered, this, &SheetTable::go_on);
    connect(delegate, &BoxDelegate::typing, this, &SheetTable::typing);
    connect(this, &QTableWidget::itemChanged, this, [this](QTableWidgetItem* item) {
        if (!filling_) {
            take(*item, false);
        }
    });
    connect(delegate, &BoxDelegate::typed_again, this, [this](const QModelIndex& index) {
        if (QTableWidgetItem* there = item(index.row(), index.column())) {
            take(*there, true);
        }
    });
    connect(this, &QTableWidget::currentCellChanged, this, [this] {
        if (!filling_) {
            emit moved();
        }
    });
}

void SheetTable::changeEvent(QEvent* event) {
    QTableWidget::changeEvent(event);
    if (event->type() == QEvent::PaletteChange) {
        for (int row = 0; row < static_cast<int>(cells_.size()); ++row) {
            for (int column = 1; column < columnCount(); ++column) {
                if (const Cell* cell = cell_at(row, column)) {
                    fill_box(row, column, *cell);
                }
            }
        }
    }
}

void SheetTable::show_lines(const AssessedSheet& sheet, Place place, const MorePositions& more,
                            const std::function<QString(const Quantity&)>& title_of) {
    filling_ = true;
    title_of_ = title_of;
    lines_.clear();
    std::vector<std::string> positions;
    const auto add = [&](const std::string& position) {
        if (std::find(positions.begin(), positions.end(), position) == positions.end()) {
            positions.push_back(position);
        }
    };
    for (const std::string& position : more.before) {
        add(position);
    }
    for (const SheetLine& line : sheet.lines) {
        if (line.quantity.place == place) {
            lines_.push_back(line);
            for (const SheetBox& box : line.boxes) {
                add(box.position);
            }
        }
    }
    for (const std::string& position : more.behind) {
        add(position);
    }
    odd_.clear();
    for (const SheetFinding& one : sheet.findings) {
        if (one.what == PointedOut::odd_one_out) {
            for (const std::string& position : one.positions) {
                odd_.emplace(one.quantity, position);
            }
        }
    }
    turned_ = place == Place::engine;
    lay_out(positions);
    filling_ = false;
}

void SheetTable::lay_out(const std::vector<std::string>& positions) {
    positions_ = positions;
    const auto box_of = [](const SheetLine& line, const std::string& position) {
        const auto found =
            std::find_if(line.boxes.begin(), line.boxes.end(),
                         [&](const SheetBox& box) { return box.position == position; });
        SheetBox empty;
        empty.position = position;
        return found == line.boxes.end() ? empty : *found;
    };
    cells_.clear();
    if (turned_) {
        for (std::size_t line = 0; line < lines_.size(); ++line) {
            cells_.push_back({{line, box_of(lines_[line], positions.empty() ? "" : positions[0])}});
        }
        setColumnCount(2);
        setHorizontalHeaderLabels({tr("What"), tr("Value")});
    } else {
        for (const std::string& position : positions) {
            std::vector<Cell> row;
            for (std::size_t line = 0; line < lines_.size(); ++line) {
                row.push_back({line, box_of(lines_[line], position)});
            }
            cells_.push_back(std::move(row));
        }
        QStringList titles{tr("Where")};
        for (const SheetLine& line : lines_) {
            titles << heading(title_of_(line.quantity), line.quantity);
        }
        setColumnCount(static_cast<int>(titles.size()));
        setHorizontalHeaderLabels(titles);
    }
    setRowCount(static_cast<int>(cells_.size()));
    setColumnHidden(heading_column, !turned_);
    verticalHeader()->setVisible(!turned_);
    for (int row = 0; row < rowCount(); ++row) {
        for (int column = 0; column < columnCount(); ++column) {
            dress(row, column);
        }
    }
    resizeColumnsToContents();
    if (turned_) {
        horizontalHeader()->setSectionResizeMode(1, QHeaderView::Stretch);
    } else {
        horizontalHeader()->setSectionResizeMode(QHeaderView::Interactive);
    }
}

void SheetTable::dress(int row, int column) {
    if (item(row, column) == nullptr) {
        setItem(row, column, new QTableWidgetItem);
    }
    QTableWidgetItem& here = *item(row, column);
    if (column == heading_column) {
        here.setFlags(here.flags() & ~Qt::ItemIsEditable);
        fill_heading(row);
    } else if (const Cell* cell = cell_at(row, column)) {
        here.setFlags(here.flags() | Qt::ItemIsEditable);
        fill_box(row, column, *cell);
    }
}

void SheetTable::fill_heading(int row) {
    const auto which = static_cast<std::size_t>(row);
    const QString text =
        turned_ ? heading(title_of_(lines_[which].quantity), lines_[which].quantity)
                : words::sheet_position(positions_[which], lines_.front().quantity.place);
    item(row, heading_column)->setText(text);
    if (!turned_) {
        setVerticalHeaderItem(row, new QTableWidgetItem(text));
    }
}

void SheetTable::fill_box(int row, int column, const Cell& cell) {
    const bool was_filling = std::exchange(filling_, true);
    QTableWidgetItem& here = *item(row, column);
    const Quantity& quantity = lines_[cell.line].quantity;
    const SheetBox& box = *cell.box;
    QFont look = font();
    const bool worked_out = !box.taken && box.figure;
    look.setItalic(worked_out);
    look.setUnderline(box.taken && box.taken->reading.id >= id_to_come); // not saved yet
    here.setFont(look);
    here.setText(box.taken    ? QString::fromStdString(box.taken->reading.text)
                 : worked_out ? words::amount(*box.figure, quantity)
                              : QString());
    const CheckState state = words::check_state(box.verdict);
    here.setIcon(state == CheckState::not_yet ? QIcon()
                                              : sign(state, palette_for(theme_of(palette()))));
    const bool odd = odd_.contains({quantity.id, box.position});
    here.setData(BoxDelegate::odd_role, odd);
    QString tip = explanation(box, quantity);
    if (odd) {
        tip += '\n' + tr("Stands apart from its row");
    }
    here.setToolTip(tip);
    filling_ = was_filling;
}

const SheetTable::Cell* SheetTable::cell_at(int row, int column) const {
    const auto at = static_cast<std::size_t>(row);
    const auto across = static_cast<std::size_t>(column) - 1;
    if (row < 0 || column < 1 || at >= cells_.size() || across >= cells_[at].size()) {
        return nullptr;
    }
    return &cells_[at][across];
}

std::optional<SheetTable::Spot> SheetTable::spot() const {
    const Cell* cell = cell_at(currentRow(), currentColumn());
    if (cell == nullptr) {
        return std::nullopt;
    }
    return Spot{lines_[cell->line].quantity, cell->box};
}

void SheetTable::go_to_start() {
    if (rowCount() > 0 && columnCount() > 1) {
        setCurrentCell(0, 1);
    }
}

bool SheetTable::go_to(const std::string& position) {
    const auto found = std::find(positions_.begin(), positions_.end(), position);
    if (turned_ || found == positions_.end()) {
        return false;
    }
    setCurrentCell(static_cast<int>(found - positions_.begin()), std::max(1, currentColumn()));
    return true;
}

/// A check that found what it had found before is a check all the same: what depends on when it was
/// taken must know of it.
void SheetTable::take(QTableWidgetItem& item, bool again) {
    const QString text = item.text().trimmed();
    refused_ = false;
    const Cell* cell = cell_at(item.row(), item.column());
    if (cell == nullptr || !keep) {
        return;
    }
    const Cell here = *cell; // keeping it fills the table anew
    const bool unchanged =
        here.box->taken && text == QString::fromStdString(here.box->taken->reading.text);
    if (text.isEmpty() || (unchanged && !again)) {
        fill_box(item.row(), item.column(), here);
        return;
    }
    refused_ = !keep(lines_[here.line].quantity, here.box->position, text);
    if (refused_) {
        show_refused(item);
    }
}

/// What was typed stays, and looks like what isn't kept.
void SheetTable::show_refused(QTableWidgetItem& item) {
    const bool was_filling = std::exchange(filling_, true);
    QFont look = font();
    look.setStrikeOut(true);
    item.setFont(look);
    item.setIcon({});
    item.setToolTip(tr("Refused and not kept: type it again, or empty it to see what is kept."));
    filling_ = was_filling;
}

void SheetTable::go_on() {
    if (refused_) {
        return;
    }
    const int row = currentRow();
    const int column = currentColumn();
    const int last_row = static_cast<int>(cells_.size()) - 1;
    if (row < last_row) {
        setCurrentCell(row + 1, column);
    } else if (column + 1 < columnCount()) {
        setCurrentCell(0, column + 1);
    }
}

} // namespace rodway
