#pragma once

#include <QPainter>
#include <QRectF>
#include <QString>
#include <functional>
#include <variant>
#include <vector>

namespace rodway {

/// A chapter's heading (level 1) or one within it (2, 3). Those of level 1 and 2 stand in the
/// contents; all of them in the file's outline. It never stands alone at a page's foot.
struct BookHeading {
    QString text;
    int level = 1;
};

/// Words that flow over as many lines and pages as they need.
struct BookText {
    enum class Look { plain, strong, small, lead, centred };
    QString text;
    Look look = Look::plain;
};

struct BookColumn {
    QString title;
    double share = 1.0; ///< of the page's width, among the table's columns
    bool right = false;
};

/// Rows under a header that is repeated on every page. Without any title there is no header. A row
/// longer than a page goes on on the next.
struct BookTable {
    std::vector<BookColumn> columns;
    std::vector<std::vector<QString>> rows;
    double row_height = 17.0; ///< least, 1/96 in
    double points = 8.5;
};

/// Drawn by a function, as vectors where it can, across the page or a part of it.
struct BookDrawing {
    double height = 100.0; ///< 1/96 in
    std::function<void(QPainter&, const QRectF&)> paint;
};

/// A photo's file, read when its page is painted.
struct BookPhoto {
    QString file; ///< empty: it isn't there
    QString caption;
};
/// Two beside each other, each with its caption below.
struct BookPhotos {
    std::vector<BookPhoto> photos;
};

/// A rule to write on, with what belongs there below it.
struct BookBlank {
    QString label;
};

struct BookSpace {
    double height = 8.0; ///< 1/96 in
};
struct BookPageBreak {};
/// Chapters and what is in them, with their pages.
struct BookContents {};

using BookBlock = std::variant<BookHeading, BookText, BookTable, BookDrawing, BookPhotos, BookBlank,
                               BookSpace, BookPageBreak, BookContents>;
using BookBlocks = std::vector<BookBlock>;

/// Text of anybody's as it may be printed: without control characters and without marks that turn
/// the direction of what stands behind them. Tabs become blanks; ends of lines stay.
[[nodiscard]] QString printable(const QString& text);
[[nodiscard]] QString printable(const std::string& utf8);

} // namespace rodway
