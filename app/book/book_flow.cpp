#include "app/book/book_flow.h"

#include <QFontMetricsF>
#include <algorithm>

#include "app/book/book_photo.h"

namespace rodway {
namespace {

constexpr double beside_text = 3.0;
constexpr double above_text = 2.0;
constexpr std::size_t least_together = 3; ///< rows of a table that aren't parted from its header
constexpr int most_lead_lines = 3;        ///< of a text between a heading and a table
constexpr double contents_points = 9.5;
constexpr double small_contents_points = 8.5;
constexpr double contents_number_width = 50.0;
constexpr double contents_below = 1.5; ///< each of its lines

double points_of(int level) {
    return level == 1 ? 17.0 : level == 2 ? 11.5 : 10.0;
}
double above_heading(int level) {
    return level == 1 ? 4.0 : level == 2 ? 12.0 : 8.0;
}

struct TextLook {
    double points = 9.5;
    bool bold = false;
    double below = 5.0;
    Qt::Alignment alignment = Qt::AlignLeft;
};
TextLook look_of(BookText::Look look) {
    switch (look) {
        case BookText::Look::plain:
            return {};
        case BookText::Look::strong:
            return {9.5, true, 4.0, Qt::AlignLeft};
        case BookText::Look::small:
            return {8.0, false, 3.0, Qt::AlignLeft};
        case BookText::Look::lead:
            return {13.0, false, 8.0, Qt::AlignLeft};
        case BookText::Look::centred:
            return {10.5, false, 5.0, Qt::AlignHCenter};
    }
    return {};
}

bool has_titles(const BookTable& table) {
    return std::any_of(table.columns.begin(), table.columns.end(),
                       [](const BookColumn& column) { return !column.title.isEmpty(); });
}

std::vector<QString> column_titles(const BookTable& table) {
    std::vector<QString> titles;
    for (const BookColumn& column : table.columns) {
        titles.push_back(column.title);
    }
    return titles;
}

/// Photos with long captions stand by themselves, and the caption flows below.
constexpr qsizetype longest_caption = 400;
constexpr double photo_gap = 14.0;
constexpr double photo_shape = 0.72; ///< height of a photo's box for its width

} // namespace

BookFlow::BookFlow(BookLayout& layout, const BookBlocks& blocks)
    : layout_(layout), blocks_(blocks), area_(layout.text_area()) {}

void BookFlow::put_all() {
    layout_.pages_.emplace_back();
    y_ = area_.top();
    for (at_ = 0; at_ < blocks_.size(); ++at_) {
        std::visit([this](const auto& block) { put(block); }, blocks_[at_]);
    }
}

void BookFlow::next_page() {
    layout_.pages_.emplace_back();
    layout_.pages_.back().chapter = chapter_;
    y_ = area_.top();
}

void BookFlow::draw(Stroke stroke) {
    layout_.pages_.back().strokes.push_back(std::move(stroke));
}

double BookFlow::ContentsLine::height() const {
    return above + title->height() + contents_below;
}

double BookFlow::least_height(const BookBlock& block) const {
    if (const auto* table = std::get_if<BookTable>(&block)) {
        const auto widths = widths_of(*table);
        double height = has_titles(*table)
                            ? broken_row(*table, column_titles(*table), widths, true).height
                            : 0.0;
        for (std::size_t row = 0; row < std::min(least_together, table->rows.size()); ++row) {
            height += broken_row(*table, table->rows[row], widths, false).height;
        }
        return height;
    }
    if (const auto* drawing = std::get_if<BookDrawing>(&block)) {
        return drawing->height;
    }
    if (std::holds_alternative<BookPhotos>(block)) {
        return area_.width() / 2.0 * photo_shape + 60.0;
    }
    if (const auto* space = std::get_if<BookSpace>(&block)) {
        return space->height;
    }
    return std::holds_alternative<BookBlank>(block) ? 50.0 : 0.0;
}

double BookFlow::height_with_next(std::size_t at) const {
    double height = 0.0;
    for (; at < blocks_.size(); ++at) {
        if (const auto* heading = std::get_if<BookHeading>(&blocks_[at])) {
            const BrokenText text(heading->text, book_font(points_of(heading->level), true),
                                  area_.width());
            height += above_heading(heading->level) + text.height() + 6.0;
            continue;
        }
        if (const auto* text = std::get_if<BookText>(&blocks_[at])) {
            const TextLook look = look_of(text->look);
            const BrokenText broken(text->text, book_font(look.points, look.bold), area_.width());
            height += std::min(broken.lines(), most_lead_lines) * broken.line_height() + look.below;
            // A line or two that lead to a table, a drawing or a signature stay with it, too.
            if (broken.lines() > most_lead_lines || at + 1 == blocks_.size() ||
                !(std::holds_alternative<BookTable>(blocks_[at + 1]) ||
                  std::holds_alternative<BookDrawing>(blocks_[at + 1]) ||
                  std::holds_alternative<BookBlank>(blocks_[at + 1]))) {
                break;
            }
            continue;
        }
        height += least_height(blocks_[at]);
        // Signatures stand on one page.
        const bool more = at + 1 < blocks_.size() &&
                          std::holds_alternative<BookBlank>(blocks_[at]) &&
                          std::holds_alternative<BookBlank>(blocks_[at + 1]);
        if (!more && !std::holds_alternative<BookSpace>(blocks_[at])) {
            break;
        }
    }
    return height;
}

void BookFlow::put(const BookHeading& heading) {
    // Only what is higher than a page may be parted from its heading.
    if (begun() && std::min(height_with_next(at_), area_.height()) > room()) {
        next_page();
    }
    const bool first = !begun();
    if (!first) {
        y_ += above_heading(heading.level);
    }
    const auto text = std::make_shared<BrokenText>(
        heading.text, book_font(points_of(heading.level), true), area_.width());
    if (heading.level == 1) {
        chapter_ = heading.text;
        // A page's head names the chapter with which it begins.
        if (first || layout_.pages_.back().chapter.isEmpty()) {
            layout_.pages_.back().chapter = chapter_;
        }
    }
    layout_.outline_->push_back(
        {QString(heading.text).replace(u'\n', u' '), heading.level, layout_.page_count() - 1, y_});
    put_broken(text, area_.left(), heading.level == 1 ? 8.0 : 3.0);
}

void BookFlow::put_broken(std::shared_ptr<BrokenText> text, double left, double spare_below) {
    const double high = text->line_height();
    const int lines = text->lines();
    for (int line = 0; line < lines;) {
        int fit = std::min(lines - line, static_cast<int>((room() + 0.01) / high));
        const bool all = fit == lines - line;
        // No single line is left at a page's foot, or over for the next page.
        if (!all && begun() && fit < 2) {
            fit = 0;
        }
        if (!all && lines - line - fit == 1 && fit > 2) {
            --fit;
        }
        if (fit == 0) {
            if (!begun()) {
                fit = 1; // higher than a page: painted all the same
            } else {
                next_page();
                continue;
            }
        }
        const double top = y_;
        draw([text, line, fit, left, top, high](QPainter& painter) {
            painter.setPen(Qt::black);
            for (int at = 0; at < fit; ++at) {
                text->paint(painter, line + at, QPointF(left, top + at * high));
            }
        });
        y_ += fit * high;
        line += fit;
        if (line < lines) {
            next_page();
        }
    }
    y_ += spare_below;
}

void BookFlow::put(const BookText& text) {
    if (text.text.isEmpty()) {
        return;
    }
    const TextLook look = look_of(text.look);
    put_broken(std::make_shared<BrokenText>(text.text, book_font(look.points, look.bold),
                                            area_.width(), look.alignment),
               area_.left(), look.below);
}

std::vector<double> BookFlow::widths_of(const BookTable& table) const {
    double shares = 0.0;
    for (const BookColumn& column : table.columns) {
        shares += column.share;
    }
    std::vector<double> widths;
    for (const BookColumn& column : table.columns) {
        widths.push_back(area_.width() * column.share / shares);
    }
    return widths;
}

BookFlow::Row BookFlow::broken_row(const BookTable& table, const std::vector<QString>& texts,
                                   const std::vector<double>& widths, bool titles) const {
    Row row;
    row.height = table.row_height;
    for (std::size_t at = 0; at < table.columns.size(); ++at) {
        const QString text = at < texts.size() ? texts[at] : QString();
        row.cells.emplace_back(text, book_font(table.points, titles),
                               widths[at] - 2.0 * beside_text,
                               table.columns[at].right ? Qt::AlignRight : Qt::AlignLeft);
        row.height = std::max(row.height, row.cells.back().height() + 2.0 * above_text);
    }
    return row;
}

void BookFlow::rule(const std::vector<double>& widths, double thickness) {
    double width = 0.0;
    for (const double one : widths) {
        width += one;
    }
    const QPointF from(area_.left(), y_);
    draw([from, width, thickness](QPainter& painter) {
        painter.setPen(QPen(QColor(110, 110, 110), thickness));
        painter.drawLine(from, from + QPointF(width, 0.0));
    });
}

int BookFlow::put_row_lines(const Row& row, const BookTable& table,
                            const std::vector<double>& widths, int first, double least_height) {
    double high = 0.0;
    int most = 0;
    for (const BrokenText& cell : row.cells) {
        high = std::max(high, cell.line_height());
        most = std::max(most, cell.lines());
    }
    const int fit = std::max(
        1, std::min(most - first, static_cast<int>((room() - 2.0 * above_text + 0.01) / high)));
    const double taken = std::max(least_height, fit * high + 2.0 * above_text);
    const auto cells = std::make_shared<std::vector<BrokenText>>(row.cells);
    const double left = area_.left();
    // A short cell stands in the middle of its row.
    const double top = y_ + (most == 1 ? (taken - high) / 2.0 : above_text);
    draw([=](QPainter& painter) {
        painter.setPen(Qt::black);
        double x = left;
        for (std::size_t at = 0; at < cells->size(); ++at) {
            const BrokenText& cell = (*cells)[at];
            for (int line = first; line < std::min(first + fit, cell.lines()); ++line) {
                cell.paint(painter, line, QPointF(x + beside_text, top + (line - first) * high));
            }
            x += widths[at];
        }
    });
    if (table.columns.size() > 1) {
        const double from = y_;
        draw([=](QPainter& painter) {
            painter.setPen(QPen(QColor(170, 170, 170), 0.4));
            double x = left;
            for (std::size_t at = 0; at + 1 < widths.size(); ++at) {
                x += widths[at];
                painter.drawLine(QPointF(x, from), QPointF(x, from + taken));
            }
        });
    }
    y_ += taken;
    return fit;
}

void BookFlow::put(const BookTable& table) {
    if (table.rows.empty()) {
        return;
    }
    const auto widths = widths_of(table);
    const Row head = broken_row(table, column_titles(table), widths, true);
    std::vector<Row> rows;
    rows.reserve(table.rows.size());
    for (const auto& texts : table.rows) {
        rows.push_back(broken_row(table, texts, widths, false));
    }
    put_rows(table, widths, head, std::move(rows));
    y_ += 7.0;
}

void BookFlow::put_rows(const BookTable& table, const std::vector<double>& widths, const Row& head,
                        std::vector<Row> rows) {
    const double head_height = has_titles(table) ? head.height : 0.0;
    for (std::size_t from = 0; from < rows.size();) {
        double left = room() - head_height;
        std::size_t to = from;
        while (to < rows.size() && rows[to].height <= left) {
            left -= rows[to++].height;
        }
        const std::size_t over = rows.size() - to;
        if (to - from < std::min(least_together, rows.size() - from) && begun()) {
            next_page();
            continue;
        }
        // No one or two rows left over for a page of their own, if there are enough before them.
        if (over > 0 && over < least_together && to - from >= 2 * least_together - over) {
            to -= least_together - over;
        }
        if (head_height > 0.0) {
            put_row_lines(head, table, widths, 0, head.height);
            rule(widths, 1.0);
        }
        if (to == from) { // one row that is higher than a page
            int most = 0;
            for (const BrokenText& cell : rows[from].cells) {
                most = std::max(most, cell.lines());
            }
            for (int line = 0; line < most;) {
                line += put_row_lines(rows[from], table, widths, line, 0.0);
                if (line < most) {
                    next_page();
                }
            }
            rule(widths, 0.4);
            ++from;
            continue;
        }
        for (; from < to; ++from) {
            put_row_lines(rows[from], table, widths, 0, rows[from].height);
            rule(widths, 0.4);
        }
        if (from < rows.size()) {
            next_page();
        }
    }
}

void BookFlow::put(const BookDrawing& drawing) {
    const double height = std::min(drawing.height, area_.height());
    if (height > room() && begun()) {
        next_page();
    }
    const QRectF place(area_.left(), y_, area_.width(), height);
    draw([paint = drawing.paint, place](QPainter& painter) {
        painter.save();
        paint(painter, place);
        painter.restore();
    });
    y_ += height + 8.0;
}

void BookFlow::put_photo(const BookPhoto& photo, const QRectF& box) {
    draw([file = photo.file, box](QPainter& painter) { paint_book_photo(painter, box, file); });
}

void BookFlow::put_photo_row(const BookPhoto& left, const BookPhoto* right) {
    const double width = (area_.width() - photo_gap) / 2.0;
    const double height = width * photo_shape;
    const auto font = book_font(8.5);
    const BrokenText left_words(left.caption, font, width);
    const BrokenText right_words(right == nullptr ? QString() : right->caption, font, width);
    const double below = std::max(left_words.height(), right_words.height()) + 10.0;
    if (height + below > room() && begun()) {
        next_page();
    }
    const double top = y_;
    const auto put_one = [&](const BookPhoto& photo, const BrokenText& words, double x) {
        put_photo(photo, QRectF(x, top, width, height));
        draw([words, x, y = top + height + 3.0](QPainter& painter) {
            painter.setPen(Qt::black);
            for (int line = 0; line < words.lines(); ++line) {
                words.paint(painter, line, QPointF(x, y + line * words.line_height()));
            }
        });
    };
    put_one(left, left_words, area_.left());
    if (right != nullptr) {
        put_one(*right, right_words, area_.left() + width + photo_gap);
    }
    y_ += height + below + 6.0;
}

void BookFlow::put(const BookPhotos& photos) {
    for (std::size_t at = 0; at < photos.photos.size();) {
        const BookPhoto& one = photos.photos[at];
        if (one.caption.size() > longest_caption) {
            put_photo_row({one.file, {}}, nullptr);
            put(BookText{one.caption, BookText::Look::small});
            ++at;
            continue;
        }
        const bool pair = at + 1 < photos.photos.size() &&
                          photos.photos[at + 1].caption.size() <= longest_caption;
        put_photo_row(one, pair ? &photos.photos[at + 1] : nullptr);
        at += pair ? 2 : 1;
    }
}

void BookFlow::put(const BookBlank& blank) {
    constexpr double to_write_on = 34.0;
    const auto label = std::make_shared<BrokenText>(blank.label, book_font(8.0), area_.width());
    if (to_write_on + label->height() > room() && begun()) {
        next_page();
    }
    y_ += to_write_on;
    const QPointF from(area_.left(), y_);
    draw([from, width = area_.width() * 0.62](QPainter& painter) {
        painter.setPen(QPen(Qt::black, 0.6));
        painter.drawLine(from, from + QPointF(width, 0.0));
    });
    y_ += 2.0;
    put_broken(label, area_.left(), 6.0);
}

void BookFlow::put(const BookSpace& space) {
    y_ += std::min(space.height, std::max(0.0, room()));
}

void BookFlow::put(const BookPageBreak&) {
    if (begun()) {
        next_page();
    }
}

std::vector<BookFlow::ContentsLine> BookFlow::contents_lines(double points) const {
    std::vector<ContentsLine> lines;
    std::size_t entry = 0;
    for (std::size_t at = 0; at < blocks_.size(); ++at) {
        const auto* heading = std::get_if<BookHeading>(&blocks_[at]);
        if (heading == nullptr) {
            continue;
        }
        const std::size_t which = entry++;
        // What stands before the contents needs no line in them, nor do they themselves.
        if (heading->level > 2 || at < at_) {
            continue;
        }
        const bool chapter = heading->level == 1;
        ContentsLine line{which, chapter ? 0.0 : 16.0, chapter ? 3.0 : 0.0, nullptr};
        line.title =
            std::make_shared<BrokenText>(heading->text, book_font(points, chapter),
                                         area_.width() - line.indent - contents_number_width);
        lines.push_back(std::move(line));
    }
    return lines;
}

void BookFlow::put(const BookContents&) {
    const auto height_of = [](const std::vector<ContentsLine>& lines) {
        double height = 0.0;
        for (const ContentsLine& line : lines) height += line.height();
        return height;
    };
    double points = contents_points;
    auto lines = contents_lines(points);
    if (height_of(lines) > room()) { // a little smaller, if it is on one page then
        auto smaller = contents_lines(small_contents_points);
        if (height_of(smaller) <= room()) {
            points = small_contents_points;
            lines = std::move(smaller);
        }
    }
    for (std::size_t at = 0; at < lines.size(); ++at) {
        const ContentsLine& line = lines[at];
        double rest = 0.0;
        for (std::size_t after = at; after < lines.size(); ++after) rest += lines[after].height();
        // The last lines go over together.
        const bool last_ones = lines.size() - at == least_together && rest > room();
        if ((line.height() > room() || last_ones) && begun()) {
            next_page();
        }
        y_ += line.above;
        const double top = y_;
        put_broken(line.title, area_.left() + line.indent, contents_below);
        // The page is known once all is laid out.
        draw([outline = layout_.outline_, which = line.entry, top, points,
              right = area_.right()](QPainter& painter) {
            painter.setFont(book_font(points));
            painter.setPen(Qt::black);
            painter.drawText(
                QRectF(right - contents_number_width, top, contents_number_width, 20.0),
                Qt::AlignRight | Qt::AlignTop, QString::number((*outline)[which].page + 1));
        });
    }
}

} // namespace rodway
