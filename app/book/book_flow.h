#pragma once

#include <memory>
#include <vector>

#include "app/book/book_layout.h"
#include "app/book/book_text.h"

namespace rodway {

/// Puts blocks on a layout's pages, from the top of the first to the end of the last.
class BookFlow {
  public:
    BookFlow(BookLayout& layout, const BookBlocks& blocks);

    void put_all();

  private:
    using Stroke = BookLayout::Stroke;
    struct Row {
        std::vector<BrokenText> cells;
        double height = 0.0;
    };

    struct ContentsLine {
        std::size_t entry = 0; ///< of the outline
        double indent = 0.0;
        double above = 0.0;
        std::shared_ptr<BrokenText> title;

        [[nodiscard]] double height() const;
    };

    void put(const BookHeading& heading);
    void put(const BookText& text);
    void put(const BookTable& table);
    void put(const BookDrawing& drawing);
    void put(const BookPhotos& photos);
    void put(const BookBlank& blank);
    void put(const BookSpace& space);
    void put(const BookPageBreak&);
    void put(const BookContents&);

    void next_page();
    void draw(Stroke stroke);
    [[nodiscard]] double room() const { return area_.bottom() - y_; }
    /// Whether anything stands on this page already.
    [[nodiscard]] bool begun() const { return y_ > area_.top() + 1.0; }
    /// What must stand on one page with the heading at `at`.
    [[nodiscard]] double height_with_next(std::size_t at) const;
    [[nodiscard]] double least_height(const BookBlock& block) const;

    [[nodiscard]] std::vector<double> widths_of(const BookTable& table) const;
    [[nodiscard]] Row broken_row(const BookTable& table, const std::vector<QString>& texts,
                                 const std::vector<double>& widths, bool titles) const;
    void put_rows(const BookTable& table, const std::vector<double>& widths, const Row& head,
                  std::vector<Row> rows);
    /// Paints a row's lines from `first` on, as many as fit; returns how many were painted.
    int put_row_lines(const Row& row, const BookTable& table, const std::vector<double>& widths,
                      int first, double least_height);
    void rule(const std::vector<double>& widths, double thickness);
    void put_photo(const BookPhoto& photo, const QRectF& box);
    void put_photo_row(const BookPhoto& left, const BookPhoto* right);
    [[nodiscard]] std::vector<ContentsLine> contents_lines(double points) const;
    void put_broken(std::shared_ptr<BrokenText> text, double left, double spare_below);

    BookLayout& layout_;
    const BookBlocks& blocks_;
    QRectF area_;
    double y_ = 0.0;
    QString chapter_;
    std::size_t at_ = 0; ///< the block in hand
};

} // namespace rodway
