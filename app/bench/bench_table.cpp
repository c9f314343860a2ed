#include "app/bench/bench_table.h"

#include <QApplication>
#include <QEvent>
#include <QHeaderView>
#include <QMouseEvent>
#include <algorithm>

#include "app/bench/bench_delegate.h"
#include "app/bench/bench_model.h"

namespace rodway {

BenchTable::BenchTable(QWidget* parent) : QTableView(parent) {
    setItemDelegate(new BenchDelegate(this));
    setSelectionBehavior(QAbstractItemView::SelectRows);
    setSelectionMode(QAbstractItemView::SingleSelection);
    setEditTriggers(QAbstractItemView::NoEditTriggers);
    setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setShowGrid(false);
    setAlternatingRowColors(true);
    setTabKeyNavigation(false);
    setMouseTracking(true);
    horizontalHeader()->setSectionResizeMode(QHeaderView::Fixed);
    horizontalHeader()->setHighlightSections(false);
    horizontalHeader()->setSectionsClickable(false);
    verticalHeader()->hide();
    verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
    verticalHeader()->setDefaultSectionSize(BenchDelegate::row_height(font()));
    clicked_.setSingleShot(true);
    connect(&clicked_, &QTimer::timeout, this, [this] {
        if (clicked_row_.isValid()) {
            emit held_clicked(clicked_row_.row(), clicked_line_);
        }
    });
}

std::pair<int, int> BenchTable::rows_seen() const {
    const int first = rowAt(0);
    if (first < 0) {
        return {-1, -1};
    }
    const int last = rowAt(viewport()->height() - 1);
    return {first, last < 0 ? model()->rowCount() - 1 : last};
}

void BenchTable::keyboardSearch(const QString& search) {
    // The view's own way would look at every row there is.
    emit typed(search);
}

void BenchTable::resizeEvent(QResizeEvent* event) {
    QTableView::resizeEvent(event);
    share_width();
    emit looked_elsewhere();
}

void BenchTable::scrollContentsBy(int dx, int dy) {
    QTableView::scrollContentsBy(dx, dy);
    emit looked_elsewhere();
}

void BenchTable::changeEvent(QEvent* event) {
    QTableView::changeEvent(event);
    if (event->type() == QEvent::FontChange) {
        verticalHeader()->setDefaultSectionSize(BenchDelegate::row_height(font()));
    }
}

void BenchTable::mousePressEvent(QMouseEvent* event) {
    QTableView::mousePressEvent(event);
    clicked_.stop();
    clicked_row_ = indexAt(event->pos());
    clicked_line_ = event->button() == Qt::LeftButton ? held_line_at(event->pos()) : -1;
}

void BenchTable::mouseMoveEvent(QMouseEvent* event) {
    QTableView::mouseMoveEvent(event);
    if (held_line_at(event->pos()) >= 0) {
        viewport()->setCursor(Qt::PointingHandCursor);
    } else {
        viewport()->unsetCursor();
    }
}

void BenchTable::mouseReleaseEvent(QMouseEvent* event) {
    QTableView::mouseReleaseEvent(event);
    const bool same =
        indexAt(event->pos()) == clicked_row_ && held_line_at(event->pos()) == clicked_line_;
    if (clicked_line_ >= 0 && same) {
        clicked_.start(QApplication::doubleClickInterval());
    }
}

void BenchTable::mouseDoubleClickEvent(QMouseEvent* event) {
    clicked_.stop();
    clicked_line_ = -1;
    QTableView::mouseDoubleClickEvent(event);
}

int BenchTable::held_line_at(const QPoint& point) const {
    const QModelIndex index = indexAt(point);
    return index.isValid() && index.column() == BenchModel::held_column
               ? BenchDelegate::held_line_at(point, visualRect(index), index, font())
               : -1;
}

void BenchTable::share_width() {
    if (model() == nullptr || model()->columnCount() < BenchModel::column_count) {
        return;
    }
    const int width = viewport()->width();
    const int day =
        QFontMetrics(font()).horizontalAdvance(QStringLiteral("30 September 2026")) + 30;
    const int rail = std::clamp(width / 5, 150, 420);
    const int rest = std::max(width - day - rail, 300);
    setColumnWidth(BenchModel::rail_column, rail);
    setColumnWidth(BenchModel::promised_column, day);
    setColumnWidth(BenchModel::build_column, rest * 30 / 100);
    setColumnWidth(BenchModel::next_column, rest * 30 / 100);
    setColumnWidth(BenchModel::held_column, rest - 2 * (rest * 30 / 100));
}

} // namespace rodway
