#pragma once

#include <QByteArray>
#include <QImage>
#include <QPainter>
#include <QRectF>
#include <optional>
#include <vector>

#include "app/book/book_facts.h"

namespace rodway {

class Renderer;

/// What of a book can be drawn on the window's thread alone: 3D, where there is a renderer, and
/// curves. Pages with it are then painted on any thread.
struct BookPictures {
    std::optional<QImage> engine;
    std::optional<QImage> tightest;
    QByteArray curves; ///< of the tightest valves, recorded as vectors; empty: no valve has one
};

/// The valves with the least clearance, tightest first; so many that their curves are told apart.
[[nodiscard]] std::vector<ValvePosition> valves_with_curves(const BookFacts& facts);

/// Needs the window's thread.
[[nodiscard]] BookPictures draw_book_pictures(const BookFacts& facts, Renderer* renderer);

/// The recorded curves, as wide as the place.
void paint_book_curves(QPainter& painter, const QRectF& place, const QByteArray& curves);
/// Their height for that width.
[[nodiscard]] double book_curves_height(double width);

} // namespace rodway
