#pragma once

#include <qcustomplot.h>

#include "render/plots/clearance_curve.h"

namespace rodway {

/// The plot itself, shared by the window's widget, pictures and documents.
class ClearancePlot : public QCustomPlot {
    Q_OBJECT

  public:
    explicit ClearancePlot(QWidget* parent = nullptr);

    void set_content(const ClearanceCurveContent& content, const Palette& palette);
    void set_cursor(double crank_deg);
    void show_whole_cycle();
    [[nodiscard]] std::optional<double> cursor() const { return cursor_deg_; }

  signals:
    void crank_chosen(double crank_deg);

  protected:
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseDoubleClickEvent(QMouseEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

  private:
    void style_axes(const Palette& palette);
    void add_curves(const ClearanceCurveContent& content, const Palette& palette);
    void add_limits(const ClearanceCurveContent& content, const Palette& palette);
    void add_doubts(const ClearanceCurveContent& content, const Palette& palette);
    /// Moves every limit's label to where no curve runs.
    void place_labels();
    void set_key_columns();
    void add_marks(const ClearanceCurveContent& content, const Palette& palette);
    void add_cursor(const Palette& palette);
    void fit_values(const ClearanceCurveContent& content);
    void fit_ticks(const QCPRange& crank);
    void choose_at(double x);

    QCPAxisRect* clearance_ = nullptr;
    QCPAxisRect* lift_ = nullptr;
    QCPLegend* key_ = nullptr;
    QSharedPointer<QCPAxisTickerFixed> crank_ticks_;
    std::optional<double> cursor_deg_;
    std::vector<QCPItemStraightLine*> cursor_lines_;
    std::vector<QCPItemText*> labels_;
};

} // namespace rodway
