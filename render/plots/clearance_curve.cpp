#include "render/plots/clearance_curve.h"

#include <QBuffer>
#include <QKeyEvent>
#include <QPicture>
#include <QSaveFile>
#include <QSvgGenerator>
#include <QVBoxLayout>
#include <cmath>

#include "render/plots/clearance_plot.h"

namespace rodway {
namespace {

Result<Done> write(const QString& file, const QByteArray& bytes) {
    QSaveFile out(file);
    if (!out.open(QIODevice::WriteOnly) || out.write(bytes) != bytes.size() || !out.commit()) {
        return Error{ErrorCode::cannot_write,
                     file.toStdString(),
                     out.errorString().toStdString(),
                     {},
                     {},
                     {}};
    }
    return Done{};
}

/// A plot for one picture: with no window, only its size matters.
void fill(ClearancePlot& plot, const ClearanceCurveContent& content, const Palette& palette) {
    // Buffers hold pixels; a vector picture draws its layers straight.
    plot.layer(QLatin1String("cursor"))->setMode(QCPLayer::lmLogical);
    plot.set_content(content, palette);
}

} // namespace

ClearanceCurve::ClearanceCurve(QWidget* parent)
    : QWidget(parent), plot_(new ClearancePlot(this)), palette_(palette_for(theme_of(palette()))) {
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(plot_);
    setFocusPolicy(Qt::StrongFocus);
    plot_->setFocusProxy(this);
    plot_->set_content(content_, palette_);
    connect(plot_, &ClearancePlot::crank_chosen, this, &ClearanceCurve::crank_chosen);
}

void ClearanceCurve::set_content(const ClearanceCurveContent& content) {
    content_ = content;
    plot_->set_content(content_, palette_);
}

void ClearanceCurve::set_cursor(double crank_deg) {
    content_.cursor_crank_deg = crank_deg;
    plot_->set_cursor(crank_deg);
}

void ClearanceCurve::set_theme(Theme theme) {
    palette_ = palette_for(theme);
    plot_->set_content(content_, palette_);
}

void ClearanceCurve::keyPressEvent(QKeyEvent* event) {
    const int way = event->key() == Qt::Key_Right ? 1 : event->key() == Qt::Key_Left ? -1 : 0;
    if (way == 0) {
        QWidget::keyPressEvent(event);
        return;
    }
    const double step = event->modifiers().testFlag(Qt::ShiftModifier) ? 10.0 : 1.0;
    const double turned =
        std::fmod(content_.cursor_crank_deg.value_or(0.0) + way * step + 720.0, 720.0);
    emit crank_chosen(turned);
}

QImage clearance_curve_image(const ClearanceCurveContent& content, const Palette& palette,
                             QSize size, double pixel_ratio) {
    ClearancePlot plot;
    fill(plot, content, palette);
    QImage image(size * pixel_ratio, QImage::Format_RGB32);
    image.setDevicePixelRatio(pixel_ratio);
    image.fill(palette.paper);
    QCPPainter painter(&image);
    plot.toPainter(&painter, size.width(), size.height());
    painter.end();
    return image;
}

QByteArray clearance_curve_svg(const ClearanceCurveContent& content, const Palette& palette,
                               QSize size) {
    ClearancePlot plot;
    fill(plot, content, palette);
    QBuffer buffer;
    buffer.open(QIODevice::WriteOnly);
    QSvgGenerator svg;
    svg.setOutputDevice(&buffer);
    svg.setSize(size);
    svg.setViewBox(QRect(QPoint(0, 0), size));
    svg.setResolution(96);
    svg.setTitle(content.clearance_title);
    QCPPainter painter;
    painter.begin(&svg);
    painter.setMode(QCPPainter::pmVectorized);
    painter.setMode(QCPPainter::pmNoCaching);
    plot.toPainter(&painter, size.width(), size.height());
    painter.end();
    return buffer.data();
}

void paint_clearance_curve(QPainter& painter, const QRectF& place,
                           const ClearanceCurveContent& content, const Palette& palette,
                           const QFont& font) {
    ClearancePlot plot;
    plot.setFont(font);
    // Labels find their places once the plot is laid out at the size at which it is painted.
    plot.resize(place.size().toSize());
    plot.setViewport(QRect(QPoint(0, 0), place.size().toSize()));
    fill(plot, content, palette);
    plot.replot(QCustomPlot::rpImmediateRefresh);
    fill(plot, content, palette);
    // The plot's own painter takes devices only: a recorded picture carries it to any painter.
    QPicture picture;
    QCPPainter recorder;
    recorder.begin(&picture);
    recorder.setMode(QCPPainter::pmVectorized);
    recorder.setMode(QCPPainter::pmNoCaching);
    plot.toPainter(&recorder, static_cast<int>(place.width()), static_cast<int>(place.height()));
    recorder.end();
    painter.save();
    painter.translate(place.topLeft());
    painter.drawPicture(0, 0, picture);
    painter.restore();
}

Result<Done> save_png(const QString& file, const ClearanceCurveContent& content,
                      const Palette& palette, QSize size) {
    QBuffer buffer;
    buffer.open(QIODevice::WriteOnly);
    clearance_curve_image(content, palette, size).save(&buffer, "PNG");
    return write(file, buffer.data());
}

Result<Done> save_svg(const QString& file, const ClearanceCurveContent& content,
                      const Palette& palette, QSize size) {
    return write(file, clearance_curve_svg(content, palette, size));
}

} // namespace rodway
