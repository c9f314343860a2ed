#pragma once

#include <QFont>
#include <QTextLayout>
#include <QTextOption>
#include <memory>
#include <vector>

namespace rodway {

/// The book's font; sizes are in points, the painter's units 1/96 in. Other scripts come from
/// whatever fonts the computer has.
[[nodiscard]] QFont book_font(double points, bool bold = false);

/// A text broken into lines of a width: at blanks, and within a word that is wider than that.
class BrokenText {
  public:
    BrokenText(const QString& text, const QFont& font, double width,
               Qt::Alignment alignment = Qt::AlignLeft);

    [[nodiscard]] int lines() const { return static_cast<int>(lines_.size()); }
    [[nodiscard]] double line_height() const { return line_height_; }
    [[nodiscard]] double height() const { return line_height_ * lines(); }
    /// Paints one line, its upper left corner at `at`.
    void paint(QPainter& painter, int line, const QPointF& at) const;
    [[nodiscard]] QString text_of(int line) const;

  private:
    struct Line {
        std::shared_ptr<QTextLayout> layout; ///< nothing: an empty line
        int line = 0;
    };
    std::vector<Line> lines_;
    double line_height_ = 0.0;
};

} // namespace rodway
