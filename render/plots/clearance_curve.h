#pragma once

#include <QByteArray>
#include <QImage>
#include <QString>
#include <QWidget>
#include <optional>
#include <vector>

#include "core/base/result.h"
#include "render/palette.h"

namespace rodway {

/// One curve over the cycle. NaN makes a gap. Both lists have the same length.
struct CurveSeries {
    QString name;
    std::vector<double> crank_deg; ///< rising, 0 to 720
    std::vector<double> value;     ///< in the unit that the axis title names
};

/// A level drawn across the clearance plot.
struct CurveLimit {
    QString label;
    double value = 0.0;
    bool wish = false; ///< nothing fails by it: drawn faintly
};

/// A marked point of a clearance curve, such as its minimum.
struct CurveMark {
    std::size_t series = 0; ///< index into `clearance`
    double crank_deg = 0.0;
    double value = 0.0;
    std::optional<double> doubt = {}; ///< ± of the value, drawn as a bar
};

/// Clearance against crank angle, valve lift under it on the same crank axis. All words and units
/// come from the caller. A series of `lift` takes the colour of the `clearance` series of the same
/// index.
struct ClearanceCurveContent {
    QString crank_title;
    QString clearance_title;
    QString lift_title;
    std::vector<CurveSeries> clearance;
    std::vector<CurveSeries> lift;
    std::vector<CurveLimit> limits;
    std::vector<CurveMark> marks;
    std::optional<double> cursor_crank_deg;
};

class ClearancePlot;

/// The plot in the window: drag or click sets the crank, the wheel zooms the crank axis, a double
/// click shows the whole cycle again. Left and right keys move the crank by 1°, with Shift by 10°.
class ClearanceCurve : public QWidget {
    Q_OBJECT

  public:
    explicit ClearanceCurve(QWidget* parent = nullptr);

    void set_content(const ClearanceCurveContent& content);
    /// Moves the cursor only; cheap enough for every frame.
    void set_cursor(double crank_deg);
    void set_theme(Theme theme);
    [[nodiscard]] QSize sizeHint() const override { return {640, 360}; }

  signals:
    void crank_chosen(double crank_deg); ///< 0 up to 720

  protected:
    void keyPressEvent(QKeyEvent* event) override;

  private:
    ClearancePlot* plot_; ///< its parent, this, owns it
    Palette palette_;
    ClearanceCurveContent content_;
};

/// The same plot without a window. Needs a QApplication, no display. Sizes in pixels at 96 per
/// inch.
[[nodiscard]] QImage clearance_curve_image(const ClearanceCurveContent& content,
                                           const Palette& palette, QSize size,
                                           double pixel_ratio = 1.0);
[[nodiscard]] QByteArray clearance_curve_svg(const ClearanceCurveContent& content,
                                             const Palette& palette, QSize size);
/// As vectors onto any painter, e.g. a page of a document; `place` in the painter's units.
void paint_clearance_curve(QPainter& painter, const QRectF& place,
                           const ClearanceCurveContent& content, const Palette& palette,
                           const QFont& font = {});

/// Error: cannot_write, `field` the file.
[[nodiscard]] Result<Done> save_png(const QString& file, const ClearanceCurveContent& content,
                                    const Palette& palette, QSize size);
[[nodiscard]] Result<Done> save_svg(const QString& file, const ClearanceCurveContent& content,
                                    const Palette& palette, QSize size);

} // namespace rodway
