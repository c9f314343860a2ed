#pragma once

#include <QPainter>
#include <QRectF>
#include <QString>

namespace rodway {

/// A photo's file painted as large as it fits into a box (1/96 in), turned as its camera says, with
/// as many pixels as paper can show. Where it can't be read, the box says so.
void paint_book_photo(QPainter& painter, const QRectF& box, const QString& file);

} // namespace rodway
