#pragma once

#include <QColor>
#include <QFont>
#include <QPainter>
#include <QStringList>

namespace rodway {

/// The text of a cell in few lines: what comes first may be broken over several, what comes second
/// stands below it in one. Too long ends in dots.
struct CellText {
    QString first;
    QString second;
    QFont first_font;
    QFont second_font;
};

/// Its lines in a place, and where they stand.
struct CellLines {
    QStringList first;
    QString second;
    QRectF first_place;
    QRectF second_place; ///< empty if there is no second
};

inline constexpr int most_cell_lines = 3;

[[nodiscard]] CellLines lines_of(const CellText& text, const QRectF& place,
                                 int most = most_cell_lines);

void paint_lines(QPainter& painter, const CellText& text, const QRectF& place, const QColor& ink,
                 const QColor& faint, int most = most_cell_lines);

} // namespace rodway
