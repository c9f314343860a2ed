#pragma once

#include <QFont>
#include <QPainter>
#include <QRectF>
#include <QString>
#include <vector>

namespace rodway {

/// One sheet of paper painted at 96 units to the inch, whatever the device behind it. Text flows
/// down from `y()`; nothing is painted below the foot.
class Page {
  public:
    /// `area`: what may be painted on, in 1/96 in.
    Page(QPainter& painter, const QRectF& area);

    [[nodiscard]] QPainter& painter() { return painter_; }
    [[nodiscard]] const QRectF& area() const { return area_; }
    [[nodiscard]] double y() const { return y_; }
    [[nodiscard]] double room() const { return area_.bottom() - y_; }
    void move_down(double by) { y_ += by; }

    void heading(const QString& text, double point_size = 11.0);
    /// Wrapped text across `width` (0: the whole page), at the left edge plus `indent`.
    void paragraph(const QString& text, double point_size = 9.0, double indent = 0.0,
                   double width = 0.0);
    [[nodiscard]] double paragraph_height(const QString& text, double point_size,
                                          double width) const;

    /// How wide a column must be for this text on one line.
    [[nodiscard]] double width_of(const QString& text, double point_size) const;

    struct Column {
        QString title;
        double width; ///< 1/96 in
        bool right = false;
    };
    /// Header and rows, thin lines between; empty cells stay blank to be filled with a pencil. A
    /// row is `row_height` high, or as high as its longest text needs when wrapped.
    void table(const std::vector<Column>& columns, const std::vector<std::vector<QString>>& rows,
               double row_height, double point_size = 8.5);

    /// How high `table` makes one of its rows, or its header (`titles`).
    [[nodiscard]] double row_height_of(const std::vector<Column>& columns,
                                       const std::vector<QString>& texts, double row_height,
                                       double point_size = 8.5, bool titles = false) const;
    [[nodiscard]] static std::vector<QString> titles_of(const std::vector<Column>& columns);

  private:
    [[nodiscard]] QFont font(double point_size, bool bold = false) const;
    void cells(const std::vector<Column>& columns, const std::vector<QString>& texts,
               double row_height, const QFont& font);

    QPainter& painter_;
    QRectF area_;
    double y_;
};

} // namespace rodway
