#pragma once

#include <QWidget>
#include <string>

#include "render/palette.h"

class QPainter;

namespace rodway {

/// Which way a described engine is looked at.
enum class DescribeView {
    along_crank, ///< one cylinder's train, seen along the crank
    from_side,   ///< places along the crank, seen from the rods' side
    rod,         ///< the rod by itself
    cup,         ///< the rod's upper end, cut open
    tube         ///< rod and tube, cut open
};

/// The view in which a dimension is drawn; the first for a name that has none.
[[nodiscard]] DescribeView view_of_dimension(std::string_view dimension);

/// Draws the view of a dimension into a rectangle, that dimension lit and named, the others of its
/// view faint. `label` stands beside it; the type is the painter's font.
void paint_dimension(QPainter& painter, const QRectF& within, const Palette& palette,
                     std::string_view dimension, const QString& label);

/// The same in a window.
class DimensionPicture : public QWidget {
    Q_OBJECT

  public:
    explicit DimensionPicture(QWidget* parent = nullptr);
    /// An empty name: nothing is lit.
    void show_dimension(const std::string& name);
    [[nodiscard]] const std::string& shown() const { return name_; }
    [[nodiscard]] QSize sizeHint() const override { return {420, 460}; }

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    std::string name_;
};

} // namespace rodway
