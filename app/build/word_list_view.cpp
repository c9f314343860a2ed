#include "app/build/word_list_view.h"

#include <QPainter>
#include <QScrollBar>
#include <QStyledItemDelegate>
#include <QTextLayout>
#include <algorithm>
#include <cmath>

namespace rodway {
namespace {

constexpr int id_role = Qt::UserRole;
constexpr int spacer_px = 6;
constexpr int most_px = 10000;
constexpr int box_px = 24; ///< a box to tick, and a little room

/// Between a box to tick and its words; it keeps rows of one line as high as their box.
QIcon spacer() {
    QPixmap nothing(spacer_px, box_px);
    nothing.fill(Qt::transparent);
    return QIcon(nothing);
}

/// Paints a row as its style does, but its box to tick in the colours of the row: some styles' own
/// can't be seen on a dark ground.
class RowDelegate : public QStyledItemDelegate {
  public:
    using QStyledItemDelegate::QStyledItemDelegate;

    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override {
        QStyledItemDelegate::paint(painter, option, index);
        const QVariant checked = index.data(Qt::CheckStateRole);
        if (!checked.isValid()) {
            return;
        }
        QStyleOptionViewItem row = option;
        initStyleOption(&row, index);
        const QStyle* style = row.widget->style();
        const QRect place =
            style->subElementRect(QStyle::SE_ItemViewItemCheckIndicator, &row, row.widget);
        paint_box(*painter, place, checked.toInt() == Qt::Checked, option.palette);
    }

    /// By the room that a row has now: the style's own answer goes by the width that the list had
    /// when it last looked, and leaves words without a line, or lines without words.
    QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override {
        const auto* list = qobject_cast<const QListView*>(option.widget);
        QSize size = QStyledItemDelegate::sizeHint(option, index);
        if (list == nullptr) {
            return size;
        }
        QStyleOptionViewItem row = option;
        initStyleOption(&row, index);
        row.rect = QRect(0, 0, list->viewport()->width() - 2 * list->spacing(), most_px);
        const QStyle* style = list->style();
        const int margin = style->pixelMetric(QStyle::PM_FocusFrameHMargin, &row, list) + 1;
        const QRect place = style->subElementRect(QStyle::SE_ItemViewItemText, &row, list);
        size.setHeight(std::max(row.decorationSize.height(),
                                height_of(row.text, row.font, place.width() - 2 * margin)));
        return size;
    }

  private:
    /// Wrapped as the style does it.
    static int height_of(QString text, const QFont& font, int width) {
        text.replace(QLatin1Char('\n'), QChar::LineSeparator);
        QTextLayout layout(text, font);
        QTextOption wrap;
        wrap.setWrapMode(QTextOption::WordWrap);
        layout.setTextOption(wrap);
        layout.beginLayout();
        double height = 0.0;
        for (QTextLine line = layout.createLine(); line.isValid(); line = layout.createLine()) {
            line.setLineWidth(width);
            height += line.height();
        }
        layout.endLayout();
        return static_cast<int>(std::ceil(height));
    }
    static void paint_box(QPainter& painter, const QRectF& place, bool checked,
                          const QPalette& colours) {
        painter.save();
        painter.setRenderHint(QPainter::Antialiasing);
        painter.setPen(QPen(colours.color(QPalette::Text), 1.4));
        painter.setBrush(colours.color(QPalette::Base));
        const QRectF box = place.adjusted(0.8, 0.8, -0.8, -0.8);
        painter.drawRoundedRect(box, 3.0, 3.0);
        if (checked) {
            const QPointF c = box.center();
            const double k = 0.5 * box.width();
            painter.setPen(QPen(colours.color(QPalette::Text), 2.4, Qt::SolidLine, Qt::RoundCap,
                                Qt::RoundJoin));
            painter.drawPolyline(
                QPolygonF({c + QPointF(-0.55 * k, 0.0), c + QPointF(-0.12 * k, 0.45 * k),
                           c + QPointF(0.6 * k, -0.5 * k)}));
        }
        painter.restore();
    }
};

} // namespace

WordListView::WordListView(const char* name, const QString& accessible_name, QWidget* parent)
    : QListWidget(parent) {
    setObjectName(name);
    setAccessibleName(accessible_name);
    setItemDelegate(new RowDelegate(this));
    setWordWrap(true);
    setResizeMode(QListView::Adjust);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    setTextElideMode(Qt::ElideNone);
    setSpacing(2);
    setIconSize({box_px, box_px});
    connect(this, &QListWidget::currentRowChanged, this, [this] {
        if (!filling_) {
            emit row_chosen(chosen());
        }
    });
    connect(this, &QListWidget::itemChanged, this, [this](QListWidgetItem* item) {
        if (!filling_) {
            emit row_checked(item->data(id_role).toLongLong(), item->checkState() == Qt::Checked);
        }
    });
}

void WordListView::set_rows(const std::vector<Row>& rows) {
    filling_ = true;
    const qint64 before = chosen();
    const int scrolled = verticalScrollBar()->value();
    while (count() > static_cast<int>(rows.size())) {
        delete takeItem(count() - 1);
    }
    for (std::size_t at = 0; at < rows.size(); ++at) {
        const Row& row = rows[at];
        if (static_cast<int>(at) >= count()) {
            addItem(new QListWidgetItem);
        }
        QListWidgetItem* shown = item(static_cast<int>(at));
        shown->setData(id_role, row.id);
        shown->setText(row.text);
        shown->setIcon(row.checked && row.sign.isNull() ? spacer() : row.sign);
        shown->setData(Qt::AccessibleTextRole, row.spoken.isEmpty() ? row.text : row.spoken);
        shown->setData(
            Qt::CheckStateRole,
            row.checked ? QVariant(*row.checked ? Qt::Checked : Qt::Unchecked) : QVariant());
        QFont weight = font();
        weight.setBold(row.bold);
        shown->setFont(weight);
        Qt::ItemFlags flags = Qt::ItemIsEnabled;
        if (row.id != 0) {
            flags |= Qt::ItemIsSelectable;
        }
        if (row.checked) {
            flags |= Qt::ItemIsUserCheckable;
        }
        shown->setFlags(flags);
    }
    choose(before);
    verticalScrollBar()->setValue(scrolled);
    filling_ = false;
    if (chosen() != before) {
        emit row_chosen(chosen());
    }
}

qint64 WordListView::chosen() const {
    return currentItem() == nullptr ? 0 : currentItem()->data(id_role).toLongLong();
}

void WordListView::choose(qint64 id) {
    int wanted = -1;
    for (int row = 0; row < count(); ++row) {
        const qint64 there = item(row)->data(id_role).toLongLong();
        if (there == id && id != 0) {
            wanted = row;
            break;
        }
        if (wanted < 0 && there != 0) {
            wanted = row;
        }
    }
    setCurrentRow(wanted);
}

void WordListView::fit_to_rows(int most_px) {
    int height = 2 * frameWidth() + 2;
    for (int row = 0; row < count(); ++row) {
        height += sizeHintForRow(row) + 2 * spacing();
    }
    setFixedHeight(std::min(height, most_px));
}

void WordListView::resizeEvent(QResizeEvent* event) {
    QListWidget::resizeEvent(event);
    // Rows that wrap become higher or lower.
    scheduleDelayedItemsLayout();
}

} // namespace rodway
